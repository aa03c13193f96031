package press

import "math"

const tonneForce = 9806.65 // N, by definition

// Force on each plug in MN: the pressure in MPa on the area of a bore in mm. 600 MPa on 300 mm is 42.4 MN.
func Force(mpa, boreMM float64) float64 { return mpa * area(boreMM) }

// TonnesForce is a force in MN as tonnes-force.
func TonnesForce(mn float64) float64 { return mn * 1e6 / tonneForce }

// Length in m of the bore of a vessel of so many litres.
func Length(litres, boreMM float64) float64 { return litres / 1000 / area(boreMM) }

// area of a bore in m2.
func area(boreMM float64) float64 { return math.Pi / 4 * boreMM * boreMM / 1e6 }

// shrinking is the share by which polyethylene gets smaller.
func shrinking(mpa float64) float64 { return taitC * math.Log(1+mpa/plasticB) }
