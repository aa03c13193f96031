package timestudy

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"pascaline/scenarios"
	"pascaline/sim/random"
	"pascaline/sim/result"
)

// Readings at the quantiles of a shape, which is then the likeliest by far, are written as a time that the scenario takes and that can be drawn from, also where
// a scenario does not take this shape with so little or so much spread.
func TestWhatIsWrittenCanBeDrawnFrom(t *testing.T) {
	for _, c := range []struct {
		name string
		of   distribution
		not  scenarios.Shape // that a scenario does not take with this spread
	}{
		{"a narrow Weibull", distuv.Weibull{K: 42, Lambda: 60}, scenarios.Weibull}, // sd 0.029 of the mean; 0.05 is the least
		{"a narrow gamma", distuv.Gamma{Alpha: 40_000, Beta: 1}, scenarios.Gamma},  // sd 0.005 of the mean; 0.01 is the least
		{"a narrow normal", distuv.Normal{Mu: 1000, Sigma: 0.01}, scenarios.Gamma},
	} {
		t.Run(c.name, func(t *testing.T) {
			tk := Task{Name: "swap", Field: "tip.swap"}
			const n = 25
			for i := range n {
				tk.Readings = append(tk.Readings, Reading{Seconds: max(2e-6, c.of.Quantile((float64(i)+0.5)/n)), Place: "x"})
			}
			r := Study("t.csv", []Task{tk}, Options{HalfWidth: 0.05, Rules: Rules{Rating: 1}})
			for _, f := range r.Tasks[0].Fits {
				if f.Distribution == string(c.not) && f.Remark == "" {
					t.Errorf("%s of mean %g, sd %g is offered", f.Distribution, f.MeanS, f.SDS)
				}
			}
			if r.Tasks[0].Best == string(scenarios.Empirical) {
				return
			}
			s, faults := scenarios.ReadBytes("x", []byte("scenario: x\n"+r.Snippet))
			if len(faults) > 0 {
				t.Fatal(faults)
			}
			if _, err := random.NewLaw(s.Tip.Swap.Law()); err != nil {
				t.Errorf("%v\n%s", err, r.Snippet)
			}
		})
	}
}

// A gamma with a standard deviation of 5.8 means is fitted, and not offered.
func TestWideGammaIsNotOffered(t *testing.T) {
	for sd, takes := range map[float64]bool{58: false, 49: true} {
		f := fitted{Fitted: result.Fitted{Distribution: string(scenarios.Gamma), MeanS: 10, SDS: sd}}
		if got := f.unusable(writtenSeconds); (got == "") != takes {
			t.Errorf("sd %g of mean 10: %q", sd, got)
		}
	}
}

// Times to stop in cycles are written whole: what is judged is what is written, "28 cycles" and "1 cycles" and not 28 and 1.45.
func TestWholeCyclesAreJudgedAsWritten(t *testing.T) {
	x := &stopStudy{l: &Log{Meter: "cycles"}, clock: "cycles", unit: "cycles"}
	f := fitted{Fitted: result.Fitted{Distribution: string(scenarios.Weibull), MeanS: 28, SDS: 1.45}}
	if f.unusable(x.written) == "" || f.unusable(writtenSeconds) != "" {
		t.Error("a standard deviation of 1 of 28 is less than 0.05 of the mean; 1.45 of 28 is not")
	}
}

// A stop that comes less than once a year of its clock is more than a scenario takes: it stands in a comment. One stop of a day in 300 days, and in 400.
func TestStopThatComesLessThanOnceAYear(t *testing.T) {
	from := time.Date(2024, 1, 1, 0, 0, 0, 0, time.UTC)
	for _, days := range []int{300, 400} {
		at := from.AddDate(0, 0, 10)
		r := studied(t, fmt.Sprintf("station,start,end,cause\ntip,%s,%s,gearbox\n", at.Format(stamp), at.AddDate(0, 0, 1).Format(stamp)), from, from.AddDate(0, 0, days), StopOptions{})
		near(t, "mean", r.Causes[0].Mean, float64(24*(days-1)), 1e-6)
		if written := strings.Contains(r.Snippet, "- {station: tip"); written != (days == 300) {
			t.Errorf("%d days: written %v", days, written)
		}
	}
}

// A length of more than a year is a slip of the pen.
func TestEndMustBeWithinAYear(t *testing.T) {
	_, faults := logOf(t, "station,start,end,cause\ntip,2026-01-05 09:00,2062-01-05 09:30,stuck\n", time.Time{}, time.Time{})
	if len(faults) != 1 || faults[0].Place != "s.csv:2:3" {
		t.Errorf("faults %v", faults)
	}
}
