package press

import "math"

// Pumps bring a vessel to pressure.
type Pumps struct {
	Flow       float64 // L/min of water before the pumps, all intensifiers together, at any pressure unless the power is short; 0 where not known
	Power      float64 // kW taken up by the set at most; 0: never short
	Efficiency float64 // work done on the water over energy taken up, 0 to 1
}

// Point is one point of a come-up.
type Point struct {
	S   float64 // seconds from its start
	MPa float64
	In  float64 // litres pushed in, as they are before the pumps
}

// ComeUp is how a vessel comes to pressure.
type ComeUp struct {
	Points   []Point // from 0 to the end
	S        float64 // seconds it takes; 0 where the flow is not known
	In       float64 // litres pushed in
	IdealKWh float64 // work on the water without any loss
	KWh      float64 // energy that the pumps take up
	MostKW   float64 // the most they take up at a time; 0 where the flow is not known
	ShortS   float64 // seconds in which the power was short
	FreeS    float64 // seconds it would take if power were never short
}

const steps = 400 // of pressure in a come-up; halving them changes the time by less than a thousandth

// ComeUp brings a content to a pressure in MPa. Each step pushes in what the rise takes, at the flow of the pumps or, where that is less, at the
// flow that their power can bring to this pressure. The work on a litre is the rise of its enthalpy, the integral of v dP without loss of
// heat, so the whole is the integral of it over the water pushed in.
func (c *Content) ComeUp(w *Water, p Pumps, mpa float64) ComeUp {
	u := ComeUp{Points: []Point{{}}}
	work, last, ratio := 0.0, 0.0, 1.0 // kJ on a litre; litres in; density over that at none
	for i := 1; i <= steps; i++ {
		x := float64(i) / steps
		at := mpa * x * x // finer where the gas goes
		before := u.Points[i-1]
		r := w.Ratio(at)
		rise := (at - before.MPa) * 2 / (r + ratio) // MPa x L/L is kJ/L
		middle := work + float64(rise/2)
		work, ratio = work+rise, r
		in := c.PushIn(w, at).Sum()
		add := max(0, in-last)
		last = in
		u.IdealKWh += float64(add*middle) / 3600
		s, free, kw := p.step(add, middle)
		u.S, u.FreeS, u.MostKW = u.S+s, u.FreeS+free, max(u.MostKW, kw)
		if s > free*(1+1e-9) {
			u.ShortS += s
		}
		u.Points = append(u.Points, Point{S: u.S, MPa: at, In: in})
	}
	u.In = last
	u.KWh = u.IdealKWh / p.efficiency()
	return u
}

// step is the time in which so many litres go in that take so many kJ each, what it would be with power without limit, and the power.
func (p Pumps) step(litres, kJ float64) (s, free, kw float64) {
	if p.Flow <= 0 {
		return 0, 0, 0
	}
	free = litres / p.Flow * 60
	s = free
	if p.Power > 0 {
		s = max(free, litres*kJ/(p.Power*p.efficiency()))
	}
	return s, free, p.Flow / 60 * kJ / p.efficiency() * free / max(s, math.SmallestNonzeroFloat64)
}

func (p Pumps) efficiency() float64 {
	if p.Efficiency <= 0 {
		return 1
	}
	return p.Efficiency
}

// Lost is how many times as long a come-up takes when some intensifiers of a set are lost: each has its share of the flow and of the power,
// so N/(N - lost). Infinite when none is left.
func Lost(of, lost int) float64 {
	if lost >= of {
		return math.Inf(1)
	}
	return float64(of) / float64(of-lost)
}

// Prefill is the time in seconds in which a low-pressure flow in L/min fills the free volume.
func (c *Content) Prefill(flow float64) float64 { return c.Free() / flow * 60 }
