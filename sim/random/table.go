package random

import "math"

// The quantile functions of the gamma and beta laws have no closed form and take microseconds. They are tabulated once,
// when the law is made, in coordinates in which both ends are nearly straight: t = log(u/(1-u)) against the logarithm
// of the value (gamma) or log(x/(1-x)) (beta), with their slopes, by cubic pieces (Hermite). Values and slopes are
// kept to 24 bits, which leaves out the last bits of the library's functions. Against those functions the value is
// right to 2e-5 of itself for u from 1e-6 to 1-1e-6 and any spread that is allowed, to 1e-6 for usual ones.
const (
	knotsPerUnit = 8
	halfRange    = 37 // u of 2^-53 has t of -36.7
	knots        = 2*halfRange*knotsPerUnit + 1
)

type table [knots]knot

// knot is a value and its slope per step of the table.
type knot struct{ y, slope float32 }

// A curve is a distribution in a coordinate y that runs from minus to plus infinity.
type curve interface {
	below(y float64) float64   // share of draws below y
	above(y float64) float64   // share above, without loss where it is small
	density(y float64) float64 // their rate of change
}

// newTable follows the curve upwards from a start near its lowest knot. Newton's steps are taken on the logarithm of
// the smaller share, which is concave: they come from one side and do not overshoot.
func newTable(c curve, start float64) *table {
	const (
		step   = 1.0 / knotsPerUnit
		enough = 1e-12
		tries  = 50
	)
	tab, y := new(table), start
	for i := range tab {
		t := float64(i)*step - halfRange
		u, rest := 1/(1+math.Exp(-t)), 1/(1+math.Exp(t))
		for range tries {
			var d float64
			if u < rest {
				share := c.below(y)
				d = -math.Log(share/u) * share / c.density(y)
			} else {
				share := c.above(y)
				d = math.Log(share/rest) * share / c.density(y)
			}
			y += d
			if math.Abs(d) < enough {
				break
			}
		}
		slope := step * u * rest / c.density(y)
		tab[i] = knot{float32(y), float32(slope)}
		y += slope
	}
	return tab
}

// at is y for the share u.
func (tab *table) at(u float64) float64 {
	t := float64(log(u/(1-u))*knotsPerUnit) + halfRange*knotsPerUnit
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
