package press

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.6g, want %.6g within %g", what, got, want, within)
	}
}

// TestPureWater: 100 L of water alone from 10 C to 600 MPa take 17.031 L, so 60 s at 17.031 L/min, and 100 times the table's 0.011168 kWh (its
// 600 MPa count the atmosphere, ours do not).
func TestPureWater(t *testing.T) {
	c := Content{Vessel: 100}
	u := c.ComeUp(water(t, 10), Pumps{Flow: 17.031, Efficiency: 0.5}, 600)
	near(t, "litres", u.In, 17.031, 0.002)
	near(t, "seconds", u.S, 60, 0.01)
	near(t, "ideal kWh", u.IdealKWh, 1.1168, 0.0005)
	near(t, "kWh", u.KWh, 2.2336, 0.001)
	near(t, "prefill of an empty vessel at 200 L/min", c.Prefill(200), 30, 1e-9)
}

// TestPowerShort: with next to no power the come-up takes the whole work over the power: 1.1168 kWh at 10 kW and 50 % are 804 s.
func TestPowerShort(t *testing.T) {
	c := Content{Vessel: 100}
	u := c.ComeUp(water(t, 10), Pumps{Flow: 1e6, Power: 10, Efficiency: 0.5}, 600)
	near(t, "seconds", u.S, 1.1168/(10*0.5)*3600, 0.5)
	near(t, "seconds short", u.ShortS, u.S, 0.1)
	near(t, "most kW", u.MostKW, 10, 1e-6)
	free := c.ComeUp(water(t, 10), Pumps{Flow: 17.031, Power: 1e6, Efficiency: 0.5}, 600)
	near(t, "seconds with power enough", free.S, 60, 0.01)
	near(t, "seconds short with power enough", free.ShortS, 0, 0)
}

// TestParts: a litre of room takes as many litres as the water in it is dense: r = 1.17031 at 600 MPa from 10 C.
func TestParts(t *testing.T) {
	c := Content{Vessel: 100, Packs: 60, Gas: 0.05, Plastic: 10, Growth: 0.012}
	p := c.PushIn(water(t, 10), 600)
	near(t, "free", c.Free(), 30, 0)
	near(t, "water", p.Water, 30*0.17031, 0.002)
	near(t, "packs", p.Packs, 57*0.17031, 0.002)
	near(t, "gas", p.Gas, 3*1.17031, 0.01)
	near(t, "bore", p.Bore, 1.2*1.17031, 0.001)
	near(t, "plastic", p.Plastic, 10*0.0894*math.Log(3)*1.17031, 0.001)
	near(t, "fuller carriers fill faster", c.Prefill(60), 30, 1e-9)
}

func TestLost(t *testing.T) {
	for _, x := range []struct {
		name     string
		of, lost int
		want     float64
	}{{"one of two", 2, 1, 2}, {"one of four", 4, 1, 4.0 / 3}, {"none", 3, 0, 1}, {"all", 3, 3, math.Inf(1)}} {
		t.Run(x.name, func(t *testing.T) {
			if got := Lost(x.of, x.lost); got != x.want {
				t.Errorf("%g, want %g", got, x.want)
			}
		})
	}
}

func TestLength(t *testing.T) { near(t, "525 L of 380 mm bore", Length(525, 380), 4.629, 0.001) }

// TestComeUpHolds: the curve rises in all it has; more flow or more power never takes longer; a second of short power is a second of
// come-up; and energy taken up is at least the work done.
func TestComeUpHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(5, 1000).Draw(t, "volume")
		c := Content{Vessel: v, Packs: v * rapid.Float64Range(0, 0.8).Draw(t, "fill"), Gas: rapid.Float64Range(0, 0.2).Draw(t, "gas"),
			Plastic: v * rapid.Float64Range(0, 0.2).Draw(t, "plastic"), Growth: rapid.Float64Range(0, 0.02).Draw(t, "growth")}
		p := Pumps{Flow: rapid.Float64Range(1, 100).Draw(t, "flow"), Power: rapid.Float64Range(5, 500).Draw(t, "power"), Efficiency: rapid.Float64Range(0.3, 1).Draw(t, "efficiency")}
		w := water(t, rapid.Float64Range(0, 40).Draw(t, "c"))
		mpa := rapid.Float64Range(10, 900).Draw(t, "mpa")
		u := c.ComeUp(w, p, mpa)
		for i := 1; i < len(u.Points); i++ {
			a, b := u.Points[i-1], u.Points[i]
			if b.MPa <= a.MPa || b.S < a.S || b.In < a.In {
				t.Fatalf("point %d falls: %v after %v", i, b, a)
			}
		}
		more := Pumps{Flow: p.Flow * 1.1, Power: p.Power * 1.1, Efficiency: p.Efficiency}
		if got := c.ComeUp(w, more, mpa).S; got > u.S/1.1*(1+1e-9) {
			t.Fatalf("10 %% more of flow and power: %g s after %g s", got, u.S)
		}
		if u.S < u.FreeS-1e-9 || u.ShortS > u.S+1e-9 || u.KWh < u.IdealKWh || u.MostKW > p.Power*(1+1e-9) {
			t.Fatalf("out of bounds: %+v", u)
		}
	})
}

// TestComeUpTakesAllParts: what is pushed in over a come-up is the sum of the parts at its end, with gas, plastic and the growth of the bore; each part
// counts.
func TestComeUpTakesAllParts(t *testing.T) {
	for name, c := range map[string]Content{
		"water": {Vessel: 100}, "packs": {Vessel: 100, Packs: 60}, "gas": {Vessel: 100, Packs: 60, Gas: 0.05},
		"plastic": {Vessel: 100, Plastic: 10}, "bore": {Vessel: 100, Growth: 0.012}, "all": {Vessel: 100, Packs: 60, Gas: 0.05, Plastic: 10, Growth: 0.012},
	} {
		near(t, name, c.ComeUp(water(t, 10), Pumps{Flow: 20}, 600).In, c.PushIn(water(t, 10), 600).Sum(), 1e-9)
	}
	// By hand: 100 L of vessel that grow by 0.012 take 1.2 L x 1.17031 more than one that does not.
	grows, stays := Content{Vessel: 100, Growth: 0.012}, Content{Vessel: 100}
	near(t, "growth", grows.ComeUp(water(t, 10), Pumps{Flow: 20}, 600).In-stays.ComeUp(water(t, 10), Pumps{Flow: 20}, 600).In, 1.2*1.17031, 0.001)
}
