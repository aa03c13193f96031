package number

import (
	"math"

	"pascaline/sim/result"
)

// EstimateOf is a difference as an estimate, so that it is rounded like one.
func EstimateOf(d result.Difference) result.Estimate {
	e := result.Estimate{Mean: d.Mean, Level: d.Level}
	if d.Low != nil && d.High != nil {
		h := (*d.High - *d.Low) / 2
		e.HalfWidth = &h
	}
	return e
}

// Difference writes a difference with its sign, half width and unit: "+585 ± 21 packs/h"; "0 packs/h" where it is exactly nothing.
func Difference(d result.Difference) string {
	s := PlusMinus(EstimateOf(d), d.Unit)
	if d.Low != nil && *d.Low == 0 && *d.High == 0 {
		return "0 " + d.Unit
	}
	if d.Mean > 0 {
		s = "+" + s
	}
	return s
}

// Signed writes an estimate with its sign and half width, without its unit: "+585 ± 21".
func Signed(e result.Estimate) string {
	s := PlusMinus(e, "")
	if e.Mean > 0 {
		return "+" + s
	}
	return s
}

// Size writes a difference without its sign: "585 ± 21".
func Size(d result.Difference) string {
	if d.Mean < 0 {
		d.Mean = -d.Mean
	}
	return PlusMinus(EstimateOf(d), "")
}

// Interval writes the ends of a difference's interval, to the place to which the half width is known: "+564 to +606"; "none" with one replication.
func Interval(d result.Difference) string {
	if d.Low == nil || d.High == nil {
		return "none"
	}
	half := EstimateOf(d).HalfWidth
	end := func(v float64) string {
		s, _ := Rounded(result.Estimate{Mean: v, HalfWidth: half})
		if v > 0 && s != "0" {
			return "+" + s
		}
		return s
	}
	return end(*d.Low) + " to " + end(*d.High)
}

// SignedPercent writes a share with its sign: "+14.5 %"; "near 0 %" where it would round to nothing.
func SignedPercent(share float64) string {
	switch {
	case share != 0 && math.Abs(share) < 0.0005:
		return "near 0 %"
	case share > 0:
		return "+" + Percent(share)
	}
	return Percent(share)
}
