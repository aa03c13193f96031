package press

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func water(t interface{ Fatal(...any) }, c float64) *Water {
	w, err := NewWater(c)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// TestFit holds the water against the published fit q = 0.17182 ln(1 + P/354.3) from 10 C, good to 0.0003 L/L.
func TestFit(t *testing.T) {
	w := water(t, 10)
	for mpa := 20.0; mpa <= 600; mpa += 20 {
		if got, want := w.PushIn(mpa), 0.17182*math.Log(1+mpa/354.3); math.Abs(got-want) > 0.0004 {
			t.Errorf("%g MPa: %.5f L/L, the fit says %.5f", mpa, got, want)
		}
	}
}

func TestWaterOutside(t *testing.T) {
	for _, c := range []float64{-0.1, 40.1, math.NaN(), math.Inf(1)} {
		if _, err := NewWater(c); err == nil {
			t.Errorf("water of %g C was taken", c)
		}
	}
	if w := water(t, 10); w.PushIn(0) != 0 || w.Warming(0) != 0 {
		t.Error("something goes in, or warms, without pressure")
	}
}

// TestWaterRises: more pressure is denser from every temperature, and warmer from 5 C on; colder water cools a little at first.
func TestWaterRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Float64Range(0, 40).Draw(t, "c")
		w := water(t, c)
		a := rapid.Float64Range(0, MostMPa-1).Draw(t, "a")
		b := rapid.Float64Range(a+0.5, MostMPa).Draw(t, "b")
		if w.Density(b) <= w.Density(a) || c >= 5 && w.Warming(b) <= w.Warming(a) {
			t.Fatalf("%g to %g MPa: density %g to %g, warming %g to %g", a, b, w.Density(a), w.Density(b), w.Warming(a), w.Warming(b))
		}
	})
}
