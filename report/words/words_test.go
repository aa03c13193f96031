package words

import (
	"strings"
	"testing"

	"pascaline/report/internal/fixture"
	"pascaline/sim/result"
)

// The answer names the interest that its present value was worked out with: that of the line as it stands.
func TestPaybackAnswerNamesTheRateThatWasUsed(t *testing.T) {
	r := fixture.Payback()
	for i := range r.Options {
		r.Options[i].Side.Rate = 0.3
	}
	FillPayback(r)
	if !strings.Contains(r.Answer, "over 5 years at 10 % a year") {
		t.Errorf("the rate is 10 %%: %s", r.Answer)
	}
}

// A sentence begins with a capital letter, of whatever script.
func TestUpper(t *testing.T) {
	for _, c := range []struct{ name, in, want string }{
		{"plain", "the dryer", "The dryer"},
		{"two bytes", "émile", "Émile"},
		{"another script", "упаковка", "Упаковка"},
		{"no capital", "包装", "包装"},
		{"a figure", "5 packers", "5 packers"},
		{"nothing", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := upper(c.in); got != c.want {
				t.Errorf("%q, want %q", got, c.want)
			}
		})
	}
}

// A line that makes all that comes in is held back by what comes in, not by the belt on which packs always ride.
func TestSupplyIsTheLimitWhereAllOfItIsMade(t *testing.T) {
	for _, c := range []struct {
		name, by string
		share    float64
		want     string
	}{
		{"all of it", "supply", 1, "supply holds it back most"},
		{"a part of it", "supply", 0.8, "the shaker holds it back most"},
		{"a station", "shaker", 1, "the shaker holds it back most"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := fixture.Run()
			r.Vessel, r.Gains, r.People = nil, nil, nil
			r.Bottleneck.Rows = []result.Limit{{Station: "shaker", ActiveShare: 0.99}, {Station: "packing", ActiveShare: 0.7}}
			r.HandCheck = result.HandCheck{By: c.by, BoundPacksPerH: 1800, Share: c.share}
			Fill(r)
			if !strings.Contains(r.Answer, c.want) {
				t.Errorf("%q, want %q in it", r.Answer, c.want)
			}
		})
	}
}

// Without a roster every hour counts, and nothing is said to be rostered.
func TestHoursWithoutARoster(t *testing.T) {
	r := fixture.Run()
	r.Profile.Roster = false
	Fill(r)
	if strings.Contains(r.Answer, "rostered") || !strings.Contains(r.Answer, "packs per hour") {
		t.Errorf("%s", r.Answer)
	}
	for _, c := range []struct {
		name            string
		length, roster  float64
		answer, measure string
	}{
		{"a day of two shifts", 24, 16, " packs per rostered hour more", "finished packs per rostered hour"},
		{"no roster", 24, 24, " packs per hour more", "finished packs per hour"},
	} {
		t.Run(c.name, func(t *testing.T) {
			x := fixture.Comparison()
			for i := range x.Scenarios {
				x.Scenarios[i].LengthH, x.Scenarios[i].RosteredH = c.length, c.roster
			}
			FillComparison(x, nil)
			if !strings.Contains(x.Answer, c.answer) || x.Measures[0].Says != c.measure {
				t.Errorf("%s (%s)", x.Answer, x.Measures[0].Says)
			}
		})
	}
}
