package number_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"pascaline/report/internal/fixture"
	"pascaline/report/number"
	"pascaline/sim/result"
)

func half(mean, h float64) result.Estimate { return result.Estimate{Mean: mean, HalfWidth: &h} }

func TestFiguresAreRoundedToWhatIsKnown(t *testing.T) {
	for _, c := range []struct{ name, got, want string }{
		{"half width over 10: whole packs", number.PlusMinus(half(5631.274, 38.4), "packs/h"), "5,631 ± 38 packs/h"},
		{"half width over 100: tens", number.PlusMinus(half(5631.274, 123.4), "packs/h"), "5,630 ± 120 packs/h"},
		{"half width over 1,000: hundreds", number.PlusMinus(half(56312.74, 1234), ""), "56,300 ± 1,200"},
		{"half width under 10: one decimal", number.PlusMinus(half(367.31, 2.64), "cases/h"), "367.3 ± 2.6 cases/h"},
		{"half width under 1: two decimals", number.PlusMinus(half(8.6523, 0.0731), "cycles/h"), "8.652 ± 0.073 cycles/h"},
		{"9.96 has two digits as 10", number.PlusMinus(half(100.04, 9.96), ""), "100 ± 10"},
		{"9.94 stays below 10", number.PlusMinus(half(100.04, 9.94), ""), "100.0 ± 9.9"},
		{"99.6 rounds up to 100, a digit less", number.PlusMinus(half(5631, 99.6), ""), "5,630 ± 100"},
		{"no half width with one replication", number.PlusMinus(result.Estimate{Mean: 5631.27}, "packs/h"), "5,631 packs/h"},
		{"a whole number stays whole", number.PlusMinus(result.Estimate{Mean: 60}, ""), "60"},
		{"all replications alike", number.PlusMinus(half(60, 0), ""), "60 ± 0"},
		{"a mean of nothing", number.PlusMinus(half(0, 0.5), ""), "0.00 ± 0.50"},
		{"share with half width", number.PercentPlusMinus(half(0.8143, 0.0121)), "81.4 ± 1.2 %"},
		{"share known better than a tenth", number.PercentPlusMinus(half(0.8143, 0.0001)), "81.4 ± 0.0 %"},
		{"share hardly known", number.PercentPlusMinus(half(0.81, 0.127)), "81 ± 13 %"},
		{"share of nothing", number.Percent(0), "0 %"},
		{"share too small to print", number.Percent(0.0003), "<0.1 %"},
		{"share of nearly all", number.Percent(0.9994), "99.9 %"},
		{"share of all", number.Percent(1), "100 %"},
		{"grouping at a thousand", number.Fixed(1000, 0), "1,000"},
		{"no group below", number.Fixed(999.4, 0), "999"},
		{"rounding makes a group", number.Fixed(999.5, 0), "1,000"},
		{"millions", number.Count(1690416), "1,690,416"},
		{"no minus before zero", number.Fixed(-0.04, 1), "0.0"},
		{"a loss", number.Fixed(-1298.4, 0), "-1,298"},
		{"tens", number.Fixed(1298.4, -1), "1,300"},
		{"not a number", number.Fixed(math.NaN(), 1), "n/a"},
		{"small figure", number.Figure(0.01234, 2), "0.012"},
		{"whole part in full", number.Figure(5631.4, 3), "5,631"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if c.got != c.want {
				t.Errorf("got %q, want %q", c.got, c.want)
			}
		})
	}
}

func TestDurationsReadAloud(t *testing.T) {
	for _, c := range []struct {
		s    float64
		want string
	}{
		{0, "0 s"}, {7.36, "7.4 s"}, {9.96, "10 s"}, {41.2, "41 s"}, {59.6, "1 min"}, {60, "1 min"}, {416, "6 min 56 s"}, {3599.6, "1 h"},
		{4320, "1 h 12 min"}, {86399, "1 d"}, {187200, "2 d 4 h"}, {-90, "-1 min 30 s"},
	} {
		if got := number.Duration(c.s); got != c.want {
			t.Errorf("%v s: got %q, want %q", c.s, got, c.want)
		}
	}
	if got := number.Clock(6*1440 + 23*60 + 5); got != "Sun 23:05" {
		t.Errorf("got %q", got)
	}
	if got := number.Clock(7 * 1440); got != "Mon 00:00" {
		t.Errorf("a week on is %q", got)
	}
}

// The printed mean and half width never lie further from the true ones than half of their last place.
func TestRoundingErrsByHalfAPlaceAtMost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mean := rapid.Float64Range(-1e7, 1e7).Draw(t, "mean")
		h := math.Pow(10, rapid.Float64Range(-4, 5).Draw(t, "exponent"))
		m, w := number.Rounded(half(mean, h))
		digits := strings.Trim(strings.NewReplacer(",", "", ".", "").Replace(w), "0")
		if len(digits) > 2 {
			t.Fatalf("half width %v printed as %q", h, w)
		}
		place := math.Pow10(int(math.Floor(math.Log10(h))) - 1)
		if e := math.Abs(parse(t, m) - mean); e > 5.01*place {
			t.Fatalf("mean %v ± %v printed as %q, off by %v", mean, h, m, e)
		}
		if e := math.Abs(parse(t, w) - h); e > 5.01*place {
			t.Fatalf("half width %v printed as %q", h, w)
		}
	})
}

func TestNamesAreMadeHarmless(t *testing.T) {
	for in, want := range map[string]string{"a\tb\nc": "a b c", "\x1b[31mred": "[31mred", "\u202eesrever\u202c": "esrever", "قارب": "قارب", "🧃": "🧃"} {
		if got := number.Plain(in); got != want {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
	if got := number.Cut("名名名名", 5, "…"); got != "名名…" {
		t.Errorf("wide letters cut to %q", got)
	}
}

func TestShownCopiesAndCleans(t *testing.T) {
	r := fixture.Hostile()
	before := r.Stations[7].Name
	got, err := number.Shown(r)
	if err != nil {
		t.Fatal(err)
	}
	if r.Stations[7].Name != before || got == r {
		t.Error("the results themselves were changed")
	}
	if got.Stations[7].Name != "esrever" || got.Seed != r.Seed {
		t.Errorf("got %q", got.Stations[7].Name)
	}
	r.Headline.CasesPerH.P90 = math.Inf(1)
	if _, err := number.Shown(r); err == nil || !strings.Contains(err.Error(), "headline.finished_cases_per_h.p90") {
		t.Errorf("infinity: %v", err)
	}
}

func TestSignedEstimates(t *testing.T) {
	for _, c := range []struct {
		name       string
		mean, half float64
		want       string
	}{{"more", 585, 21, "+585 ± 21"}, {"less", -585, 21, "-585 ± 21"}, {"nothing", 0, 0, "0 ± 0"}} {
		if got := number.Signed(half(c.mean, c.half)); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}
