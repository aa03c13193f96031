package press

// Plastic and gas under pressure.
const (
	taitC      = 0.0894 // Tait's equation for polymers: V/V0 = 1 - C ln(1 + P/B), C the same for all (Simha, Wilson, Olabisi 1973; from memory)
	plasticB   = 300.0  // MPa, polyethylene near 10 C (from memory): 9.8 % smaller at 600 MPa
	gasLeft    = 0.0016 // of the gas's volume, however great the pressure: the molecules' own volume, nitrogen 0.0387 L/mol of 24 L/mol (van der Waals; from memory)
	growthAt   = 600.0  // MPa at which the growth of the bore is stated
	densityOne = 1000.0 // kg/m3 in a kg/L
)

// Content is what one vessel holds. Volumes in litres.
type Content struct {
	Vessel  float64 // inner volume
	Packs   float64 // outer volume of the packs
	Gas     float64 // share (0 to 1) of the packs' volume that is gas
	Plastic float64 // volume of the carriers themselves
	Growth  float64 // share by which the vessel's volume grows to 600 MPa; in proportion at others
}

// Free is the volume that the prefill has to fill.
func (c *Content) Free() float64 { return max(0, c.Vessel-c.Packs-c.Plastic) }

// Parts is the water to push in, in litres as it is before the pumps, by what makes room for it.
type Parts struct {
	Water   float64 // the water that is there, and that follows
	Packs   float64 // what is in the packs, taken as water
	Gas     float64
	Plastic float64
	Bore    float64
}

// Sum of the parts.
func (p Parts) Sum() float64 { return p.Water + p.Packs + p.Gas + p.Plastic + p.Bore }

// PushIn is the water to push in until the vessel is at a pressure in MPa. Room is made by each part's shrinking and by the growth of
// the bore; a litre of room takes r litres, since the water in it is r times as dense:
//
//	water r - 1 a litre; packs' content (1 - 1/r) r = r - 1; gas (1 - left) r; plastic (shrinking) r; bore (growth) r.
func (c *Content) PushIn(w *Water, mpa float64) Parts {
	r := w.Ratio(mpa)
	gas := c.Packs * c.Gas
	return Parts{
		Water:   c.Free() * (r - 1),
		Packs:   (c.Packs - gas) * (r - 1),
		Gas:     gas * (1 - gasAt(mpa)) * r,
		Plastic: c.Plastic * shrinking(mpa) * r,
		Bore:    c.Vessel * c.Growth * mpa / growthAt * r,
	}
}

// gasAt is the volume of gas at a pressure over that at none: Boyle's law with the molecules' own volume.
func gasAt(mpa float64) float64 {
	return gasLeft + float64((1-gasLeft)*atmosphere/(mpa+atmosphere))
}

// BoreGrowth is the share by which the volume of a thick-walled steel cylinder grows at a pressure in MPa, where the ends are borne by a yoke (no
// pull along the wall): 2 eps(hoop) + eps(axial) at the bore, Lame 1833, with k the outer over the inner diameter, E = 205,000 MPa, nu = 0.3. It is
// 0.0109 at 600 MPa for k = 2; infinite at k = 1.
func BoreGrowth(mpa, k float64) float64 {
	const e, nu = 205000.0, 0.3
	q := (k*k + 1) / (k*k - 1)
	hoop := mpa / e * (q + nu)
	axial := -nu * mpa / e * (q - 1)
	return float64(2*hoop) + float64(axial)
}
