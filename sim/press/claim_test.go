package press

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestVerdicts(t *testing.T) {
	for _, x := range []struct {
		name  string
		fill  float64
		begin string
	}{{"more than the vessel", 1.17, "Impossible"}, {"to the brim", 1, "Hardly possible"}, {"bulk", 0.85, "Possible with bulk bags only"}, {"usual", 0.63, "Possible: it needs a fill ratio of 63 %, and"},
		{"little", 0.2, "Possible: it needs a fill ratio of only 20 %"}} {
		t.Run(x.name, func(t *testing.T) {
			if got := Verdict(x.fill); !strings.HasPrefix(got, x.begin) {
				t.Errorf("%q, want %q first", got, x.begin)
			}
		})
	}
}

// TestHoldsThatDoNotFit: 25 cycles of 180 s are more than an hour, whatever the fill.
func TestHoldsThatDoNotFit(t *testing.T) {
	c := Claim{Kg: 1, Hours: 1, Volume: 100, CyclesPerH: 25, Density: 1, HoldS: 180}
	if r := Weigh(c, 0.6); r.Possible || !strings.Contains(r.Verdict, "do not go into an hour") {
		t.Errorf("%+v", r)
	}
	c.HoldS = 0
	if r := Weigh(c, 0.6); !r.Possible {
		t.Errorf("no hold was stated, and yet: %+v", r)
	}
}

// TestClaimComesBack: what a fill ratio brings needs that fill ratio, in its own hours and at its own cycles.
func TestClaimComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fill := rapid.Float64Range(0.05, 1).Draw(t, "fill")
		c := Claim{Hours: rapid.Float64Range(0.1, 8000).Draw(t, "hours"), Volume: rapid.Float64Range(1, 2000).Draw(t, "volume"),
			CyclesPerH: rapid.Float64Range(1, 20).Draw(t, "cycles"), Density: rapid.Float64Range(0.2, 2).Draw(t, "density")}
		c.Kg = c.Most() * fill
		r := Weigh(c, fill)
		for _, x := range [][2]float64{{r.FillNeeded, fill}, {r.KgAtFill, c.Kg}, {r.HoursFill, c.Hours}, {r.CyclesFill, c.CyclesPerH}} {
			if math.Abs(x[0]-x[1]) > 1e-5*x[1] {
				t.Fatalf("%g came back as %g: %+v", x[1], x[0], r)
			}
		}
	})
}
