package timestudy

import (
	"context"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/stat/distuv"

	"pascaline/scenarios"
	"pascaline/scenarios/sheet"
	"pascaline/sim/line"
	"pascaline/sim/result"
	"pascaline/sim/study"
)

// small is a line that runs in little time: three benches, packers whose pace differs from shift to shift, stops.
const small = `scenario: small
product: {packs_per_case: 2}
packing: {benches: 3, crew: 1 packer, time: {mean: 26 s, sd: 5 s}}
people: {packers: {serve: [packing], shift_pace: 4 %}}
roster: {days: Mon to Fri, shifts: {early: {hours: 06:00 to 07:00, people: {packers: 3}}, late: {hours: 07:00 to 08:00, people: {packers: 3}}}}
stops: [{station: packing, name: tape, every: {mean: 50 min on shift, as: exponential}, takes: {mean: 2 min, sd: 1 min}}]
`

func modelOf(t *testing.T, text string) (*line.Model, *scenarios.Scenario) {
	t.Helper()
	s, faults := scenarios.ReadBytes("small.yaml", []byte(text))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	Finer(s)
	m, err := line.New(s)
	if err != nil {
		t.Fatal(err)
	}
	return m, s
}

func predictOf(t *testing.T, m *line.Model, seed uint64, n int) (*result.Run, *predicted) {
	t.Helper()
	run, p, err := predict(context.Background(), m, study.Options{Seed: seed, Replications: n, Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	return run, p
}

// shiftsCounted makes a sheet of days of two shifts from replications of another seed, each count times a bias.
func shiftsCounted(p *predicted, first, days int, bias float64) *Counts {
	p.scale = 1
	c := &Counts{What: "packs", Per: "shift"}
	for d := range days {
		day := time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC).AddDate(0, 0, d/5*7+d%5)
		for i, hours := range [][2]int{{6, 7}, {7, 30}} {
			from, to := day.Add(time.Duration(hours[0])*time.Hour), day.Add(time.Duration(hours[1])*time.Hour)
			n := p.in(first+d, float64(3600*(hours[0]-6)), float64(3600*(hours[1]-6)))
			c.All = append(c.All, Count{Label: fmt.Sprintf("%s %d", day.Format("2006-01-02"), i), From: from, To: to, N: math.Round(n * bias)})
		}
	}
	return c
}

// Counts made by the model itself are accepted in about 95 of 100 sheets, and a bias is shown as often as was claimed. Command of the full version, and
// what it gave: testdata/backtest.txt.
func TestBacktestIsRightAboutItself(t *testing.T) {
	const days = 5
	m, _ := modelOf(t, small)
	run, p := predictOf(t, m, 1, 150)
	_, floor := predictOf(t, m, 2, sheets*days)
	for _, bias := range []float64{0, -0.02, -0.05} {
		shown, claimed := 0, 0.0
		for k := range sheets {
			r, err := hold(run, p, shiftsCounted(floor, k*days, days, 1+bias), 2)
			if err != nil {
				t.Fatal(err)
			}
			if !r.Accepted {
				shown++
			}
			share := (r.BiasHigh - r.BiasLow) / 2 / bothSides
			n := distuv.UnitNormal
			claimed += n.CDF(math.Abs(bias)/share-bothSides) + n.CDF(-math.Abs(bias)/share-bothSides)
		}
		want := claimed / float64(sheets)
		got := float64(shown) / float64(sheets)
		t.Logf("bias %+.0f %%: rejected %d of %d sheets of %d days, claimed %.1f %%", 100*bias, shown, sheets, days, 100*want)
		// 3.5 standard errors of a share, and 2 points for the shape of a day's output, which is not quite normal.
		if tolerance := 3.5*math.Sqrt(want*(1-want)/float64(sheets)) + 0.02; math.Abs(got-want) > tolerance {
			t.Errorf("bias %+.2f: rejected %.3f of the sheets, claimed %.3f ± %.3f", bias, got, want, tolerance)
		}
	}
}

// Periods lie within their own intervals of 95 % about 95 times in 100.
func TestPeriodsLieWithinTheirIntervals(t *testing.T) {
	m, _ := modelOf(t, small)
	run, p := predictOf(t, m, 1, 150)
	_, floor := predictOf(t, m, 3, 100)
	r, err := hold(run, p, shiftsCounted(floor, 0, 100, 1), 2)
	if err != nil {
		t.Fatal(err)
	}
	if r.Inside < 178 || r.Inside > 199 {
		t.Errorf("%d of 200 shifts within their intervals", r.Inside)
	}
	if r.SpreadRatio < 0.8 || r.SpreadRatio > 1.2 {
		t.Errorf("spread ratio %g", r.SpreadRatio)
	}
}

// countedExample is two weeks of the example plant, counted by shift: drawn from the plant itself with another seed.
func countedExample(t *testing.T) string {
	t.Helper()
	s, faults, err := scenarios.Read(filepath.Join("..", "..", "testdata", "fit", "plant.yaml"), "")
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	Finer(s)
	m, err := line.New(s)
	if err != nil {
		t.Fatal(err)
	}
	_, p := predictOf(t, m, 77, 10)
	p.scale = 1
	text := "date,shift,packs\n"
	for d := range 10 {
		day := time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC).AddDate(0, 0, d/5*7+d%5).Format("2006-01-02")
		text += fmt.Sprintf("%s,early,%.0f\n%s,late,%.0f\n", day, p.in(d, 0, 8*3600), day, p.in(d, 8*3600, 24*3600))
	}
	return text
}

func TestExampleCountsAreGenerated(t *testing.T) { golden(t, "counted.csv", []byte(countedExample(t))) }

func countsOf(t *testing.T, text string, s *scenarios.Scenario) (*Counts, []sheet.Fault) {
	t.Helper()
	table, faults, err := sheet.ReadBytes("c.csv", []byte(text), sheet.Options{})
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	return ReadCounts(table, s)
}

// Hours, shifts and days of the same output give the same total, whatever they are counted in.
func TestHoursShiftsAndDaysAgree(t *testing.T) {
	m, s := modelOf(t, small)
	run, p := predictOf(t, m, 1, 50)
	var totals []float64
	for _, text := range []string{
		"hour,to,packs\n2026-03-03 06:00,2026-03-03 06:30,200\n2026-03-03 06:30,2026-03-04 06:00,600\n",
		"date,shift,packs\n2026-03-03,early,400\n2026-03-03,late,400\n",
		"date,packs\n2026-03-03,800\n",
		"date,cases\n2026-03-03,400\n",
	} {
		c, faults := countsOf(t, text, s)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		r, err := hold(run, p, c, 2)
		if err != nil {
			t.Fatal(err)
		}
		if r.Units != 1 {
			t.Errorf("%d independent days in %q", r.Units, text)
		}
		scale := 1.0
		if c.What == "cases" {
			scale = 2
		}
		totals = append(totals, math.Round(r.Predicted*scale))
	}
	if slices.Min(totals) != slices.Max(totals) {
		t.Errorf("predicted %v", totals)
	}
}

func TestCountsThatAreRefused(t *testing.T) {
	_, s := modelOf(t, small)
	for _, c := range []struct{ name, text, want string }{
		{"no count", "date,shift\n2026-03-02,early\n", "other headings"},
		{"no time", "packs\n12\n", "other headings"},
		{"unknown shift", "date,shift,packs\n2026-03-02,night,12\n", "early, late"},
		{"not a working day", "date,packs\n2026-03-01,12\n", "a day of the scenario's roster"},
		{"below zero", "date,packs\n2026-03-02,-12\n", "a count of 0 or more"},
		{"twice", "date,packs\n2026-03-02,12\n2026-03-02,13\n", "each period once"},
		{"no number", "date,packs\n2026-03-02,many\n", "a number"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, faults := countsOf(t, c.text, s)
			if len(faults) != 1 || !strings.Contains(faults[0].Error(), c.want) {
				t.Errorf("faults %v, want one with %q", faults, c.want)
			}
		})
	}
}

// The loss that is named as explaining a gap adds up: its times the loss makes the gap.
func TestLossExplainsTheGap(t *testing.T) {
	r := &result.Backtest{Bias: -0.1, Per: "day"}
	run := &result.Run{Waterfall: []result.Loss{{Kind: "ideal", PacksPerH: 1300}, {Cause: "loading", Kind: "loss", PacksPerH: -200}, {Cause: "stops", Kind: "loss", PacksPerH: -100}}}
	run.Headline.PacksPerH.Mean = 1000
	losses(r, run, 100)
	if len(r.Gaps) != 2 || r.Gaps[0].Cause != "loading" || r.Gaps[0].Times != 1.5 || r.Gaps[1].Times != 2 {
		t.Errorf("%+v", r.Gaps)
	}
}

// An hour that is off on every day is pointed out; where none is, none is.
func TestHourThatIsOffIsFound(t *testing.T) {
	for _, c := range []struct {
		name string
		lost float64
		want *result.StandsOut
	}{{"the first hour", 0.4, &result.StandsOut{At: "06:00", Bias: -0.4, Periods: 5}}, {"none", 0, nil}} {
		t.Run(c.name, func(t *testing.T) {
			r := &result.Backtest{Per: "hour", What: "packs"}
			for d := range 5 {
				for h := 6; h < 10; h++ {
					p := result.CountedIn{Period: fmt.Sprintf("Mon 2026-03-%02d %02d:00", 2+d, h), Counted: 1000, Mean: 1000, Low: 800, High: 1200, Inside: true}
					if h == 6 {
						p.Counted *= 1 - c.lost
					}
					r.Periods = append(r.Periods, p)
				}
			}
			if diff := cmp.Diff(c.want, standsOut(r)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// Of 10 units the square of the ratio times 10 is chi-square with 10 degrees if the model is right: 2.156 to 25.188 in 99 of 100 (printed tables).
func TestScatterIsToldBeyondChance(t *testing.T) {
	for _, c := range []struct {
		name   string
		units  int
		square float64
		want   string
	}{{"as predicted", 10, 10, ""}, {"just not more", 10, 25.1, ""}, {"more", 10, 25.3, result.ScatterMore}, {"just not less", 10, 2.2, ""},
		{"less", 10, 2.1, result.ScatterLess}, {"few units", 4, 100, ""}} {
		t.Run(c.name, func(t *testing.T) {
			if got := scatter(&result.Backtest{Units: c.units, SpreadRatio: math.Sqrt(c.square / float64(c.units))}); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

// Days of a longer replication are told apart: each is its own 24 h from the time of day at which the replication begins.
func TestWindowOfACount(t *testing.T) {
	const monSix, tueTen = 6 * 60, 34 * 60
	at := func(day, hour int) time.Time { return time.Date(2026, 3, day, hour, 0, 0, 0, time.UTC) } // the 2nd is a Monday
	for _, c := range []struct {
		name        string
		from        time.Time
		hours       int
		start       int
		lengthH     float64
		whole       bool
		wantH, upTo float64 // below 0: refused
	}{
		{"a day of a day", at(4, 0), 24, monSix, 24, true, 0, 24},
		{"a day of a list that is done within one", at(2, 0), 24, monSix, 8.4, true, 0, 24},
		{"the first day of a week", at(2, 0), 24, monSix, 168, true, 0, 24},
		{"the last day of a week", at(8, 0), 24, monSix, 168, true, 144, 168},
		{"the second of two days", at(3, 0), 24, monSix, 48, true, 24, 48},
		{"a day after two days", at(4, 0), 24, monSix, 48, true, -1, 0},
		{"a day before the start", at(2, 0), 24, tueTen, 100, true, -1, 0},
		{"an hour of any day", at(4, 7), 1, monSix, 24, false, 1, 2},
		{"an hour of a list of 26 h", at(3, 7), 1, monSix, 26, false, 25, 26},
		{"an hour before the week's start is at its end", at(2, 5), 1, monSix, 168, false, 167, 168},
	} {
		t.Run(c.name, func(t *testing.T) {
			from, to, err := Count{From: c.from, To: c.from.Add(time.Duration(c.hours) * time.Hour)}.window(c.start, c.lengthH, c.whole)
			if err != nil != (c.wantH < 0) || err == nil && (from != c.wantH*3600 || to != c.upTo*3600) {
				t.Errorf("from %g h to %g h, %v; want %g to %g", from/3600, to/3600, err, c.wantH, c.upTo)
			}
		})
	}
}

// A model without chance cannot be tested.
func TestModelWithoutChanceIsTold(t *testing.T) {
	m, s := modelOf(t, "scenario: x\npacking: {time: 20 s}\nroster: {shifts: {early: {hours: 06:00 to 14:00}}}\n")
	run, p := predictOf(t, m, 1, 20)
	c, faults := countsOf(t, "date,packs\n2026-03-02,12\n", s)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if _, err := hold(run, p, c, 1); err == nil || !strings.Contains(err.Error(), "without chance") {
		t.Errorf("error %v", err)
	}
}
