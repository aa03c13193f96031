package random

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"

	"pascaline/scenarios"
)

// tails is what a law is compared with.
type tails interface {
	CDF(x float64) float64
	Survival(x float64) float64
	Prob(x float64) float64 // density
}

// stretched is a law on 0..1 (gonum's beta), moved to low..high.
type stretched struct {
	low, high float64
	of        distuv.Beta
}

func (s stretched) to(x float64) float64  { return (x - s.low) / (s.high - s.low) }
func (s stretched) CDF(x float64) float64 { return s.of.CDF(s.to(x)) }
func (s stretched) Survival(x float64) float64 {
	return mathext.RegIncBeta(s.of.Beta, s.of.Alpha, 1-s.to(x))
}
func (s stretched) Prob(x float64) float64 { return s.of.Prob(s.to(x)) / (s.high - s.low) }

// cutNormal is a normal law without its negative part.
type cutNormal struct{ of distuv.Normal }

func (c cutNormal) CDF(x float64) float64      { return 1 - c.Survival(x) }
func (c cutNormal) Survival(x float64) float64 { return c.of.Survival(x) / c.of.Survival(0) }
func (c cutNormal) Prob(x float64) float64     { return c.of.Prob(x) / c.of.Survival(0) }

type lawCase struct {
	name     string
	law      scenarios.Law
	like     tails
	mean, sd float64 // in closed form
}

func sqrt(x float64) float64 { return math.Sqrt(x) }

func lawCases() []lawCase {
	cutMean := 10 + 8*distuv.UnitNormal.Prob(1.25)/distuv.UnitNormal.CDF(1.25)
	cases := []lawCase{
		{"uniform", scenarios.Law{Shape: "uniform", Low: 5, High: 17}, distuv.Uniform{Min: 5, Max: 17}, 11, sqrt(12)},
		{"triangular", scenarios.Law{Shape: "triangular", Low: 20, Likely: 26, High: 40}, distuv.NewTriangle(20, 40, 26, nil),
			86. / 3, sqrt(158. / 9)},
		{"triangular falling", scenarios.Law{Shape: "triangular", Low: 20, Likely: 20, High: 40},
			distuv.NewTriangle(20, 40, 20, nil), 80. / 3, sqrt(200. / 9)},
		{"triangular rising", scenarios.Law{Shape: "triangular", Low: 0, Likely: 3, High: 3}, distuv.NewTriangle(0, 3, 3, nil), 2,
			sqrt(0.5)},
		{"pert", scenarios.Law{Shape: "pert", Low: 10, Likely: 15, High: 35},
			stretched{10, 35, distuv.Beta{Alpha: 1.8, Beta: 4.2}}, 17.5, sqrt(18.75)},
		{"pert falling", scenarios.Law{Shape: "pert", Low: 0, Likely: 0, High: 6}, stretched{0, 6, distuv.Beta{Alpha: 1, Beta: 5}},
			1, sqrt(5. / 7)},
		{"pert rising", scenarios.Law{Shape: "pert", Low: 0, Likely: 6, High: 6}, stretched{0, 6, distuv.Beta{Alpha: 5, Beta: 1}},
			5, sqrt(5. / 7)},
		{"exponential", scenarios.Law{Shape: "exponential", Mean: 15}, distuv.Exponential{Rate: 1. / 15}, 15, 15},
		{"normal far from 0", scenarios.Law{Shape: "normal", Mean: 100, SD: 5}, distuv.Normal{Mu: 100, Sigma: 5}, 100, 5},
		{"normal cut off", scenarios.Law{Shape: "normal", Mean: 10, SD: 8}, cutNormal{distuv.Normal{Mu: 10, Sigma: 8}},
			cutMean, sqrt(10*cutMean + 64 - cutMean*cutMean)}, // E(X^2) = mu E(X) + sigma^2
		{"normal cut in half", scenarios.Law{Shape: "normal", Mean: 0, SD: 3}, cutNormal{distuv.Normal{Sigma: 3}},
			3 * sqrt(2/math.Pi), 3 * sqrt(1-2/math.Pi)},
		{"lognormal", scenarios.Law{Shape: "lognormal", Mean: 20, SD: 10},
			distuv.LogNormal{Mu: math.Log(20 / sqrt(1.25)), Sigma: sqrt(math.Log(1.25))}, 20, 10},
		{"lognormal wide", scenarios.Law{Shape: "lognormal", Mean: 60, SD: 300},
			distuv.LogNormal{Mu: math.Log(60 / sqrt(26)), Sigma: sqrt(math.Log(26))}, 60, 300},
		{"weibull that is exponential", scenarios.Law{Shape: "weibull", Mean: 7, SD: 7}, distuv.Weibull{K: 1, Lambda: 7}, 7, 7},
		{"weibull that is Rayleigh's", scenarios.Law{Shape: "weibull", Mean: sqrt(math.Pi) / 2, SD: sqrt(1 - math.Pi/4)},
			distuv.Weibull{K: 2, Lambda: 1}, sqrt(math.Pi) / 2, sqrt(1 - math.Pi/4)},
		{"weibull of shape 1/2", scenarios.Law{Shape: "weibull", Mean: 2, SD: sqrt(20)}, distuv.Weibull{K: 0.5, Lambda: 1}, 2,
			sqrt(20)},
		{"weibull narrowest", scenarios.Law{Shape: "weibull", Mean: 20, SD: 1}, nil, 20, 1},
		{"weibull widest", scenarios.Law{Shape: "weibull", Mean: 20, SD: 100}, nil, 20, 100},
	}
	for _, cv := range []struct {
		name  string
		value float64
	}{{"narrowest", 0.01}, {"narrow", 0.05}, {"middling", 0.3}, {"that is exponential", 1}, {"wide", 2}, {"widest", 5}} {
		k := 1 / (cv.value * cv.value)
		cases = append(cases, lawCase{"gamma " + cv.name, scenarios.Law{Shape: "gamma", Mean: 20, SD: 20 * cv.value},
			distuv.Gamma{Alpha: k, Beta: k / 20}, 20, 20 * cv.value})
	}
	return cases
}

// TestLaws is the contract that every law without steps keeps.
func TestLaws(t *testing.T) {
	for _, tc := range lawCases() {
		t.Run(tc.name, func(t *testing.T) {
			l, err := NewLaw(tc.law)
			if err != nil {
				t.Fatal(err)
			}
			within(t, "mean", l.Mean(), tc.mean, 1e-12)
			within(t, "sd", l.SD(), tc.sd, 1e-12)
			checkContract(t, l, 1e-6, 1e-5)
			if tc.like != nil {
				checkTails(t, l, tc.like)
			}
		})
	}
}

// checkContract: the quantile rises, stays within the support, and has the mean and sd that the law says.
func checkContract(t *testing.T, l Law, meanTo, sdTo float64) {
	t.Helper()
	low, high := Bounds(l)
	before, rounding := math.Inf(-1), 1e-14*l.Mean()
	for _, u := range shares() {
		x := l.Quantile(u)
		if x < before-rounding || x < low || x > high || math.IsNaN(x) {
			t.Fatalf("quantile of %g is %g, %g before it, support %g to %g", u, x, before, low, high)
		}
		before = x
	}
	mean, sd := integrate(l)
	within(t, "mean by integration", mean, l.Mean(), meanTo)
	within(t, "sd by integration", sd, l.SD(), sdTo)
}

// shares are points in (0, 1), close together in both ends.
func shares() []float64 {
	us := []float64{unit(0)}
	for i := -3600; i <= 3600; i++ {
		us = append(us, 1/(1+math.Exp(-float64(i)/100)))
	}
	us = append(us, unit(math.MaxUint64))
	slices.Sort(us)
	return us
}

// integrate is the mean and sd of the quantile over the shares, by the trapezoid rule over log(u/(1-u)).
func integrate(l Law) (mean, sd float64) {
	const step = 1. / 256
	first, second := 0.0, 0.0
	for i := -35 * 256; i <= 35*256; i++ {
		u, rest := 1/(1+math.Exp(-float64(i)*step)), 1/(1+math.Exp(float64(i)*step))
		x := l.Quantile(u)
		first += step * u * rest * x
		second += step * u * rest * (x - l.Mean()) * (x - l.Mean())
	}
	return first, math.Sqrt(second)
}

// checkTails compares with a distribution function: by how much of itself must a quantile move to have the right share?
// (Distribution functions are sure where the library's quantiles are not: its gamma quantile is 0 below 1e-16.)
func checkTails(t *testing.T, l Law, like tails) {
	t.Helper()
	for _, u := range shares() {
		if u < 1e-6 || u > 1-1e-6 {
			continue
		}
		x := l.Quantile(u)
		miss := like.CDF(x) - u
		if u > 0.5 {
			miss = (1 - u) - like.Survival(x)
		}
		if x < 1e-300 {
			continue
		}
		if off := miss / (x * like.Prob(x)); math.Abs(off) > 2e-5 {
			t.Fatalf("quantile of %g is %g, off by %g of itself", u, x, off)
		}
	}
}

func within(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*math.Max(math.Abs(want), 1e-300)) {
		t.Errorf("%s: %.12g, want %.12g", what, got, want)
	}
}

func TestConstantLaws(t *testing.T) {
	for _, tc := range []struct {
		name string
		law  scenarios.Law
		want float64
	}{
		{"constant", scenarios.Law{Shape: "constant", Mean: 25}, 25},
		{"nothing said", scenarios.Law{}, 0},
		{"uniform of no width", scenarios.Law{Shape: "uniform", Low: 5, High: 5}, 5},
		{"triangular of no width", scenarios.Law{Shape: "triangular", Low: 5, Likely: 5, High: 5}, 5},
		{"pert of no width", scenarios.Law{Shape: "pert", Low: 5, Likely: 5, High: 5}, 5},
		{"normal without sd", scenarios.Law{Shape: "normal", Mean: 5}, 5},
		{"lognormal without sd", scenarios.Law{Shape: "lognormal", Mean: 5}, 5},
		{"gamma without sd", scenarios.Law{Shape: "gamma", Mean: 5}, 5},
		{"weibull without sd", scenarios.Law{Shape: "weibull", Mean: 5}, 5},
		{"exponential of no length", scenarios.Law{Shape: "exponential"}, 0},
		{"one reading", scenarios.Law{Shape: "empirical", Values: []float64{5}}, 5},
		{"equal readings", scenarios.Law{Shape: "empirical", Values: []float64{5, 5}}, 5},
	} {
		l, err := NewLaw(tc.law)
		if err != nil {
			t.Errorf("%s: %v", tc.name, err)
			continue
		}
		if l.Quantile(0.1) != tc.want || l.Quantile(0.9) != tc.want || l.Mean() != tc.want || l.SD() != 0 {
			t.Errorf("%s: not the constant %g", tc.name, tc.want)
		}
		d := NewDraw(l, Named(1, 0, "x"), "x")
		if c, ok := d.Constant(); !ok || float64(c) != tc.want*1e6 || d.At(77) != c {
			t.Errorf("%s: draw is %d, %v", tc.name, c, ok)
		}
	}
}

func TestEmpirical(t *testing.T) {
	values := []float64{9, 2, 5, 2} // sorted when made; the caller's own are left alone
	l, err := NewLaw(scenarios.Law{Shape: "empirical", Values: values})
	if err != nil {
		t.Fatal(err)
	}
	for _, tc := range []struct{ u, want float64 }{
		{unit(0), 2}, {0.25, 2}, {0.499, 2}, {0.5, 5}, {0.7499, 5}, {0.75, 9}, {unit(math.MaxUint64), 9},
	} {
		if got := l.Quantile(tc.u); got != tc.want {
			t.Errorf("quantile of %g: %g, want %g", tc.u, got, tc.want)
		}
	}
	within(t, "mean", l.Mean(), 4.5, 1e-15)
	within(t, "sd", l.SD(), sqrt(33./4), 1e-15) // 20.25 + 6.25 + 0.25 + 6.25 over 4
	if low, high := Bounds(l); low != 2 || high != 9 || values[0] != 9 {
		t.Error("bounds", low, high, values)
	}
}

// TestHandCases is O10 of the hand-worked cases.
func TestHandCases(t *testing.T) {
	l, err := NewLaw(scenarios.Law{Shape: "normal", Mean: 10, SD: 8})
	if err != nil || math.Abs(l.Mean()-11.634) > 0.0005 {
		t.Errorf("normal 10, sd 8, negative draws taken again: mean %v, want 11.634 (%v)", l, err)
	}
	l, _ = NewLaw(scenarios.Law{Shape: "exponential", Mean: 15})
	if rate := 3600 / l.Mean(); rate != 240 {
		t.Errorf("exponential of mean 15 s: %g an hour, want 240", rate)
	}
	l, _ = NewLaw(scenarios.Law{Shape: "lognormal", Mean: 20, SD: 10})
	ln := l.(lognormal)
	for _, tc := range []struct {
		what            string
		got, want, half float64
	}{
		{"median", l.Quantile(0.5), 17.89, 0.005}, {"mu", ln.mu, 2.8842, 5e-5}, {"sigma", ln.sigma, 0.4724, 5e-5},
	} {
		if math.Abs(tc.got-tc.want) > tc.half {
			t.Errorf("lognormal 20, sd 10: %s %g, want %g", tc.what, tc.got, tc.want)
		}
	}
}

func TestNewLawRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, tc := range []struct {
		name string
		law  scenarios.Law
		want string
	}{
		{"a negative constant", scenarios.Law{Shape: "constant", Mean: -1}, "constant: value -1 is negative"},
		{"no number", scenarios.Law{Shape: "exponential", Mean: nan}, "exponential: mean is not a number"},
		{"no bound", scenarios.Law{Shape: "uniform", Low: 1, High: inf}, "uniform: high is not a number"},
		{"bounds changed over", scenarios.Law{Shape: "uniform", Low: 3, High: 1}, "uniform: high 1 is below low 3"},
		{"peak below", scenarios.Law{Shape: "triangular", Low: 3, Likely: 2, High: 5}, "triangular: likely 2 is below low 3"},
		{"peak above", scenarios.Law{Shape: "pert", Low: 3, Likely: 6, High: 5}, "pert: high 5 is below likely 6"},
		{"negative sd", scenarios.Law{Shape: "gamma", Mean: 3, SD: -1}, "gamma: sd -1 is negative"},
		{"gamma too wide", scenarios.Law{Shape: "gamma", Mean: 1, SD: 6}, "gamma: sd 6 must be 0.01 to 5 times the mean 1"},
		{"weibull too narrow", scenarios.Law{Shape: "weibull", Mean: 100, SD: 4}, "weibull: sd 4 must be 0.05 to 5 times the mean 100"},
		{"sd without mean", scenarios.Law{Shape: "lognormal", SD: 4}, "lognormal: sd 4 must be"},
		{"no readings", scenarios.Law{Shape: "empirical"}, "empirical: no readings"},
		{"a negative reading", scenarios.Law{Shape: "empirical", Values: []float64{1, -2}}, "empirical: reading -2 is negative"},
		{"unknown shape", scenarios.Law{Shape: "cauchy", Mean: 1, SD: 1}, "cauchy: not a known shape"},
	} {
		if l, err := NewLaw(tc.law); err == nil || l != nil || !strings.HasPrefix(err.Error(), tc.want) {
			t.Errorf("%s: got %v, %v, want %q", tc.name, l, err, tc.want)
		}
	}
}

// TestSpreadsAreThoseOfScenarios: what a scenario takes can be drawn from, and nothing that can be drawn from is refused, up to the limits on both sides.
func TestSpreadsAreThoseOfScenarios(t *testing.T) {
	for _, shape := range []scenarios.Shape{scenarios.Lognormal, scenarios.Gamma, scenarios.Weibull} {
		least, most := shape.Spreads()
		for cv, takes := range map[float64]bool{least: true, least * 0.999: false, least * 1.001: true, most: true, most * 0.999: true, most * 1.001: false} {
			l := scenarios.Law{Shape: shape, Mean: 1, SD: cv}
			if _, err := NewLaw(l); (err == nil) != takes || (l.Refused() == "") != takes {
				t.Errorf("%s, sd %g of the mean: drawn from %v, scenario says %q", shape, cv, err, l.Refused())
			}
		}
	}
}

// TestScaledResidual: the time to the next event when all intervals are 3 times as long is 3 times as long. By hand, of readings of 4 and 12 s: 1-F is 1 up to
// 4 s and 1/2 up to 12 s, so that Fe(4) = 4/8 = 0.5 and Fe(8) = 0.75, and the mean is (16 + 144)/2 / (2 x 8) = 5 s; times 3 it is 15 s, the half is at 12 s and three
// quarters are at 24 s, and nothing is above 36 s.
func TestScaledResidual(t *testing.T) {
	l, err := NewLaw(scenarios.Law{Shape: "empirical", Values: []float64{4, 12}})
	if err != nil {
		t.Fatal(err)
	}
	r := Residual(Scaled(l, 3))
	within(t, "mean", r.Mean(), 15, 1e-12)
	within(t, "median", r.Quantile(0.5), 12, 1e-12)
	within(t, "three quarters", r.Quantile(0.75), 24, 1e-12)
	if low, high := Bounds(r); low != 0 || high != 36 {
		t.Errorf("from %g to %g", low, high)
	}
	if low, high := Bounds(Scaled(l, 3)); low != 12 || high != 36 {
		t.Errorf("scaled from %g to %g, want 12 to 36", low, high)
	}
}
