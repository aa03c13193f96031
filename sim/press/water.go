package press

import "fmt"

const (
	atmosphere = 0.101325 // MPa
	mostC      = 40.0     // the table's warmest start, degC
)

// MostMPa is the greatest pressure that the table of water reaches.
const MostMPa = 1000.0

// Water is water that is compressed from a temperature at atmospheric pressure, without loss of heat. Not all of this is so in a
// vessel: its steel takes heat, so warming is the most there can be.
type Water struct {
	rho, warm [len(pressures)]float64 // by pressure, for the temperature at the start
}

// NewWater is water at a temperature of 0 to 40 degC. The error says that it is outside.
func NewWater(c float64) (*Water, error) {
	if !(c >= 0 && c <= mostC) {
		return nil, fmt.Errorf("water of %g C: from 0 to %g C is known", c, mostC)
	}
	w := &Water{}
	for p := range pressures {
		var rho, warm [len(starts)]float64
		for t := range starts {
			rho[t], warm[t] = densities[t][p], warmings[t][p]
		}
		w.rho[p], w.warm[p] = between(starts[:], rho[:], c), between(starts[:], warm[:], c)
	}
	return w, nil
}

// Density in kg/m3 at a pressure in MPa above the atmosphere's, up to MostMPa; within 0.05 kg/m3 of IAPWS-95.
func (w *Water) Density(mpa float64) float64 { return between(pressures[:], w.rho[:], mpa+atmosphere) }

// Warming in K when it is brought to a pressure in MPa; within 0.02 K of IAPWS-95.
func (w *Water) Warming(mpa float64) float64 {
	if mpa <= 0 {
		return 0
	}
	return between(pressures[:], w.warm[:], mpa+atmosphere)
}

// Ratio is the density at a pressure in MPa over that at none.
func (w *Water) Ratio(mpa float64) float64 { return w.Density(mpa) / w.rho[0] }

// PushIn is the water, in litres as it is before the pumps, that goes into each litre of a rigid vessel full of water until it is at a
// pressure in MPa: 0.1703 to 600 MPa from 10 C. It is more than the 0.1455 by which water shrinks, since the new water shrinks too.
func (w *Water) PushIn(mpa float64) float64 { return w.Ratio(mpa) - 1 }

// between is the polynomial of third degree through the four points around x (Lagrange). The points are in rising order.
func between(xs, ys []float64, x float64) float64 {
	i := 0
	for i < len(xs)-4 && x > xs[i+2] {
		i++
	}
	sum := 0.0
	for a := i; a < i+4; a++ {
		term := ys[a]
		for b := i; b < i+4; b++ {
			if b != a {
				term *= (x - xs[b]) / (xs[a] - xs[b])
			}
		}
		sum += float64(term)
	}
	return sum
}
