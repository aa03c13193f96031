package random

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

func TestElementaryFunctions(t *testing.T) {
	for i := -7000; i <= 7000; i++ {
		x := float64(i) / 10
		within(t, "exp", exp(x), math.Exp(x), 1e-15*(1+math.Abs(x)/10))
		y := math.Exp(x)
		if got, want := log(y), math.Log(y); math.Abs(got-want) > 2e-16*math.Max(1, math.Abs(want))+4e-16*math.Abs(want) {
			t.Errorf("log %g: %g, want %g", y, got, want)
		}
	}
	for i := -999; i <= 3000; i++ {
		f := float64(i) / 1000
		within(t, "log1p", log1p(f), math.Log1p(f), 1e-15)
		within(t, "log1p near 0", log1p(f*1e-9), math.Log1p(f*1e-9), 1e-15)
	}
	if exp(800) != math.Inf(1) || exp(-800) != 0 || exp(0) != 1 || log(1) != 0 {
		t.Error("edges of exp and log")
	}
}

func TestNormalQuantile(t *testing.T) {
	for _, u := range shares() {
		within(t, "normal quantile", normalQuantile(u), distuv.UnitNormal.Quantile(u), 1e-13)
	}
	within(t, "far tail", normalQuantile(1e-300), distuv.UnitNormal.Quantile(1e-300), 1e-13)
	if z := normalQuantile(0.975); math.Abs(z-1.959963984540054) > 1e-15 { // any table
		t.Errorf("97.5 %%: %.17g", z)
	}
}

func TestSteady(t *testing.T) {
	for _, x := range []float64{0.1, math.Pi, 1e-9, 12345.678} {
		s := steady(x)
		within(t, "steady", s, x, 5e-13)
		for _, same := range []float64{math.Nextafter(x, 0), math.Nextafter(x, 1e9)} {
			if steady(same) != s {
				t.Errorf("%g: its neighbour is another constant", x)
			}
		}
	}
}
