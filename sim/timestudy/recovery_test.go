package timestudy

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"pascaline/sim/random"
	"pascaline/sim/result"
)

// Known truths are found again from generated readings: the interval of the mean that is printed holds the true mean in about 95 of 100
// sheets, and the fitted mean and standard deviation come nearer as readings grow, within four standard errors of their own over the sheets.
func TestTruthIsRecovered(t *testing.T) {
	const samples = 300
	for _, x := range []struct {
		name string
		d    distribution
		fit  func(Sample) distribution
	}{
		{"lognormal", lognormalOf(26, 5), fitLognormal},
		{"gamma", distuv.Gamma{Alpha: 16, Beta: 16.0 / 110}, fitGamma},
		{"weibull", distuv.Weibull{K: 3, Lambda: 50}, fitWeibull},
		{"normal", distuv.Normal{Mu: 120, Sigma: 8}, fitNormal},
	} {
		for _, n := range []int{20, 50, 200} {
			t.Run(fmt.Sprintf("%s, %d readings", x.name, n), func(t *testing.T) {
				s := random.Named(3, 0, "recovery of "+x.name)
				held := 0
				var means, sds []float64
				for k := range samples {
					v := make([]float64, n)
					for i := range v {
						v[i] = x.d.Quantile(s.At(uint64(k*1000 + i)))
					}
					h := student(n-1) * stdDev(v) / math.Sqrt(float64(n))
					if math.Abs(mean(v)-x.d.Mean()) <= h {
						held++
					}
					d := x.fit(Sample{Exact: v})
					means, sds = append(means, d.Mean()), append(sds, d.StdDev())
				}
				// 95 % of 300 is 285 with a standard deviation of 3.8; skewed shapes hold a little less often.
				if held < 268 || held > 298 {
					t.Errorf("the interval held the truth in %d of %d sheets", held, samples)
				}
				within(t, "mean", means, x.d.Mean(), 0)
				within(t, "sd", sds, x.d.StdDev(), 1.5*x.d.StdDev()/float64(n)) // likelihood takes n for n-1
			})
		}
	}
}

// within wants the average of estimates at the truth, but for a bias that is allowed and 4 standard errors.
func within(t *testing.T, what string, v []float64, truth, bias float64) {
	t.Helper()
	if d := math.Abs(mean(v) - truth); d > bias+4*stdDev(v)/math.Sqrt(float64(len(v))) {
		t.Errorf("%s: %.5g on average, truth %.5g", what, mean(v), truth)
	}
}

// Where shifts differ, the interval of a mean holds the truth in about 95 of 100 sheets all the same, with the pace in the scenario or not.
func TestIntervalCountsShifts(t *testing.T) {
	s := random.Named(8, 0, "shifts")
	for _, pool := range []string{"", "loaders"} {
		held := 0
		for k := range 200 {
			tk := Task{Name: "fill"}
			for shift := range 8 {
				f := math.Exp(0.1 * distuv.UnitNormal.Quantile(s.At(uint64(k*1000+shift))))
				for i := range 6 {
					v := distuv.Normal{Mu: 100, Sigma: 8}.Quantile(s.At(uint64(k*1000 + 100 + 10*shift + i)))
					tk.Readings = append(tk.Readings, Reading{Seconds: v * f, People: 2, Shift: fmt.Sprint(shift)})
				}
			}
			r := studyOf(tk, pool)
			if truth := 100 * math.Exp(0.005); math.Abs(r.MeanS-truth) <= *r.HalfS {
				held++
			}
		}
		// 190 with a standard deviation of 3; the pace itself is estimated from 8 shifts.
		if held < 176 || held > 199 {
			t.Errorf("pool %q: the interval held the truth in %d of 200 sheets", pool, held)
		}
	}
}

// studyOf is the mean of a task with its interval, without the fits, which take their time.
func studyOf(tk Task, pool string) result.FitTask {
	values := basisOf(tk, "").values
	pace, effect := paceOf([]Task{tk}, [][]float64{values})
	if pool == "" || pace.Low == 0 {
		effect = nil
	}
	if effect != nil {
		for i, r := range tk.Readings {
			values[i] *= math.Exp(-effect[r.Shift])
		}
	}
	h := student(len(values)-1) * stdDev(values) / math.Sqrt(float64(len(values)))
	r := result.FitTask{N: len(values), MeanS: mean(values), SDS: stdDev(values), HalfS: &h, People: 2, Shifts: make([]result.ShiftMean, 8)}
	widen(&r, pace, effect != nil)
	return r
}

// With the pace in the scenario the readings are freed of it: their spread is that of the work alone, so that it does not count twice.
func TestPaceDoesNotCountTwice(t *testing.T) {
	s := random.Named(7, 0, "twice")
	tk := Task{Name: "fill"}
	work := 0.0 // spread of the work alone, as it was drawn
	for shift := range 30 {
		f := math.Exp(0.15 * distuv.UnitNormal.Quantile(s.At(uint64(shift))))
		for i := range 10 {
			v := lognormalOf(100, 10).Quantile(s.At(uint64(100 + 20*shift + i)))
			work += (v - 100) * (v - 100) * f * f / 300
			tk.Readings = append(tk.Readings, Reading{Seconds: v * f, People: 2, Shift: fmt.Sprint(shift)})
		}
	}
	with := Study("t.csv", []Task{tk}, Options{HalfWidth: 0.05, Rules: Rules{Rating: 1}})
	without := Study("t.csv", []Task{tk}, Options{HalfWidth: 0.05, Pool: "loaders", Rules: Rules{Rating: 1}})
	alone := math.Sqrt(work)
	// With a pace of 15 % of about 100 s the spread is half as large again and more; freed of it, it is the work's, less what 30 means take of 300 readings.
	if got := with.Tasks[0].SDS; got < 1.4*alone {
		t.Errorf("sd %g s with the pace in it, %g s of the work alone", got, alone)
	}
	if got := without.Tasks[0].SDS; got < 0.88*alone || got > 1.05*alone {
		t.Errorf("sd %g s freed of the pace, %g s of the work alone", got, alone)
	}
}

// The test of Anderson and Darling rejects the right shape in about 5 of 100 sheets, and a wrong one more often the more readings there are.
func TestRejectionIsAsOftenAsItSays(t *testing.T) {
	const samples = 400
	rejected := func(d distribution, n int, shape int) int {
		s := random.Named(4, n, "rejections")
		r := 0
		for k := range samples {
			v := make([]float64, n)
			for i := range v {
				v[i] = d.Quantile(s.At(uint64(k*1000 + i)))
			}
			f := fitted{dist: fitters[forTasks[shape]](Sample{Exact: v})}
			judge(&f, forTasks[shape], v)
			if f.Rejected {
				r++
			}
		}
		return r
	}
	const lognormal, weibull = 0, 2
	// 20 of 400 with a standard deviation of 4.4; the table for the Weibull distribution rejects slightly more often.
	for name, r := range map[string]int{"lognormal": rejected(lognormalOf(26, 5), 50, lognormal), "weibull": rejected(distuv.Weibull{K: 2, Lambda: 9}, 50, weibull)} {
		if r < 5 || r > 38 {
			t.Errorf("%s: the right shape was rejected in %d of %d sheets", name, r, samples)
		}
	}
	few, many := rejected(distuv.Exponential{Rate: 1}, 20, lognormal), rejected(distuv.Exponential{Rate: 1}, 100, lognormal)
	if many <= few || many < samples/2 {
		t.Errorf("a wrong shape was rejected in %d sheets of 20 readings and %d of 100", few, many)
	}
}

// Censored logs give back their truth: shape and scale within four standard errors over the sheets, allowing for the small bias of
// maximum likelihood in the shape (about 1.4/events).
func TestCensoredTruthIsRecovered(t *testing.T) {
	truth := distuv.Weibull{K: 1.5, Lambda: 40}
	s := random.Named(5, 0, "censored")
	var shapes, scales []float64
	for k := range 300 {
		var v Sample
		for i := range 60 {
			x := truth.Quantile(s.At(uint64(k*1000 + i)))
			if x > 50 {
				v.Censored = append(v.Censored, 50)
			} else {
				v.Exact = append(v.Exact, x)
			}
		}
		d := fitWeibull(v).(distuv.Weibull)
		shapes, scales = append(shapes, d.K), append(scales, d.Lambda)
	}
	within(t, "shape", shapes, 1.5, 1.5*1.4/40)
	within(t, "scale", scales, 40, 0.4)
}

func TestShiftPaceIsRecovered(t *testing.T) {
	s := random.Named(6, 0, "pace")
	held, alike := 0, 0
	for k := range 200 {
		var values []float64
		tk := Task{Name: "fill"}
		flat := Task{Name: "fill"}
		var same []float64
		for shift := range 12 {
			f := math.Exp(0.08 * distuv.UnitNormal.Quantile(s.At(uint64(k*10000+shift))))
			for i := range 6 {
				v := lognormalOf(100, 12).Quantile(s.At(uint64(k*10000 + 100 + 10*shift + i)))
				tk.Readings = append(tk.Readings, Reading{Shift: fmt.Sprint(shift)})
				values, same = append(values, v*f), append(same, v)
			}
		}
		flat.Readings = tk.Readings
		if p, _ := paceOf([]Task{tk}, [][]float64{values}); p.Low <= 0.08 && 0.08 <= p.High {
			held++
		}
		if p, _ := paceOf([]Task{flat}, [][]float64{same}); p.Low == 0 {
			alike++
		}
	}
	// 190 of 200 with a standard deviation of 3.1; where shifts are alike the lower end is 0 in 97.5 of 100.
	if held < 178 || alike < 186 {
		t.Errorf("the interval held the truth in %d of 200 plants, and told no pace in %d where there was none", held, alike)
	}
}
