package random

import "math"

// The quantile functions of the gamma and beta laws have no closed form and take microseconds. They are tabulated once,
// when the law is made, in coordinates in which both ends are nearly straight: t = log(u/(1-u)) against the logarithm
// of the value (gamma) or log(x/(1-x)) (beta), with their slopes, by cubic pieces (Hermite). Values and slopes are
// kept to 24 bits, which leaves out the last bits of the library's functions. Against those functions the value is
// right to 1e-5 of itself for u from 1e-6 to 1-1e-6, and for any spread that is allowed.
const (
	knotsPerUnit = 8
	halfRange    = 37 // u of 2^-53 has t of -36.7
	knots        = 2*halfRange*knotsPerUnit + 1
)

type table [knots]knot

// knot is a value and its slope per step of the table.
type knot struct{ y, slope float32 }

// newTable asks value for y and dy/dt at each knot. It hands over t, and u and 1-u both without loss.
func newTable(value func(t, u, rest float64) (y, slope float64)) *table {
	tab := new(table)
	for i := range tab {
		t := float64(i-halfRange*knotsPerUnit) / knotsPerUnit
		y, slope := value(t, 1/(1+math.Exp(-t)), 1/(1+math.Exp(t)))
		tab[i] = knot{float32(y), float32(slope / knotsPerUnit)}
	}
	return tab
}

// at is y for the share u.
func (tab *table) at(u float64) float64 {
	t := log(u/(1-u))*knotsPerUnit + halfRange*knotsPerUnit
	i := min(int(t), knots-2)
	a, b := &tab[i], &tab[i+1]
	return hermite(t-float64(i), float64(a.y), float64(a.slope), float64(b.y), float64(b.slope))
}

// hermite is the cubic on 0..1 with the given values and slopes at both ends.
func hermite(s, y0, m0, y1, m1 float64) float64 {
	d := y1 - y0
	c2 := float64(3*d) - float64(2*m0) - m1
	c3 := m0 + m1 - float64(2*d)
	return y0 + float64(s*(m0+float64(s*(c2+float64(s*c3)))))
}
