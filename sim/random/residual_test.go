package random

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"

	"pascaline/scenarios"
)

// residualCases give the equilibrium distribution Fe in closed form.
var residualCases = []struct {
	name string
	law  scenarios.Law
	fe   func(x float64) float64
}{
	{"constant", scenarios.Law{Shape: "constant", Mean: 8}, func(x float64) float64 { return x / 8 }},
	{"exponential", scenarios.Law{Shape: "exponential", Mean: 8}, func(x float64) float64 { return 1 - math.Exp(-x/8) }},
	{"uniform from 0", scenarios.Law{Shape: "uniform", High: 10}, func(x float64) float64 { return 1 - (10-x)*(10-x)/100 }},
	{"uniform", scenarios.Law{Shape: "uniform", Low: 4, High: 10}, func(x float64) float64 {
		if x < 4 {
			return x / 7
		}
		return 1 - (10-x)*(10-x)/12/7
	}},
	{"gamma", scenarios.Law{Shape: "gamma", Mean: 20, SD: 10}, gammaFe(20, 10)},
	{"gamma wide", scenarios.Law{Shape: "gamma", Mean: 20, SD: 60}, gammaFe(20, 60)},
	{"gamma that is exponential", scenarios.Law{Shape: "gamma", Mean: 20, SD: 20}, func(x float64) float64 { return 1 - math.Exp(-x/20) }},
	// The integral of exp(-x^2) is sqrt(pi)/2 erf(x), and the mean sqrt(pi)/2.
	{"weibull of shape 2", scenarios.Law{Shape: "weibull", Mean: sqrt(math.Pi) / 2, SD: sqrt(1 - math.Pi/4)}, math.Erf},
	{"lognormal", scenarios.Law{Shape: "lognormal", Mean: 60, SD: 90}, func(x float64) float64 {
		sigma := sqrt(math.Log(1 + 2.25))
		l := distuv.LogNormal{Mu: math.Log(60) - sigma*sigma/2, Sigma: sigma}
		return x/60*l.Survival(x) + distuv.UnitNormal.CDF((math.Log(x)-l.Mu)/sigma-sigma)
	}},
	{"readings", scenarios.Law{Shape: "empirical", Values: []float64{0, 2, 2, 6}}, func(x float64) float64 { // of total 10
		if x < 2 {
			return x * 3 / 10
		}
		return 0.6 + (x-2)/10
	}},
}

// gammaFe: the integral of 1-F is x(1-F(x)) + mean P(k+1, x).
func gammaFe(mean, sd float64) func(float64) float64 {
	k := mean / sd * mean / sd
	return func(x float64) float64 {
		s := x * k / mean
		return x/mean*mathext.GammaIncRegComp(k, s) + mathext.GammaIncReg(k+1, s)
	}
}

func TestResidual(t *testing.T) {
	for _, tc := range residualCases {
		t.Run(tc.name, func(t *testing.T) {
			l, err := NewLaw(tc.law)
			if err != nil {
				t.Fatal(err)
			}
			r := Residual(l)
			for _, u := range shares() {
				if got := tc.fe(r.Quantile(u)); math.Abs(got-u) > 1e-6 {
					t.Fatalf("share below the quantile of %g is %g", u, got)
				}
			}
			within(t, "mean", r.Mean(), (l.Mean()*l.Mean()+l.SD()*l.SD())/(2*l.Mean()), 1e-12)
			checkContract(t, r, 1e-6, 1e-4)
		})
	}
	if r := Residual(constant(0)); r.Mean() != 0 || r.Quantile(0.5) != 0 {
		t.Error("events without intervals")
	}
}

// TestResidualOfAnyLaw: bounds, order and moments hold for every law there is.
func TestResidualOfAnyLaw(t *testing.T) {
	for _, tc := range lawCases() {
		t.Run(tc.name, func(t *testing.T) {
			l, err := NewLaw(tc.law)
			if err != nil {
				t.Fatal(err)
			}
			r := Residual(l)
			within(t, "mean", r.Mean(), (l.Mean()*l.Mean()+l.SD()*l.SD())/(2*l.Mean()), 1e-12)
			checkContract(t, r, 1e-3, 2e-2)
		})
	}
}
