package export

import (
	"math"
	"strings"

	"pascaline/sim/result"
)

// replaceSide puts b or o in for S in a formula.
func replaceSide(f, side string) string {
	f = strings.ReplaceAll(f, "{S:", "{"+side+":")
	return strings.ReplaceAll(f, " S}", " "+side+"}")
}

// sideValues are the values stored beside the formulas of one side: the same sums, worked out here.
type sideValues struct {
	p    *plan
	base bool
}

func (v *sideValues) side() *result.MoneySide {
	if v.base {
		return &v.p.r.Base.Side
	}
	return &v.p.o.Side
}

func (v *sideValues) sold(t int) float64 {
	s := v.side()
	if s.Endless {
		return s.PacksPerWeek
	}
	return min(s.PacksPerWeek, s.Demand*math.Pow(1+s.Growth, float64(t-1)))
}

func (v *sideValues) used(t int) float64 {
	if s := v.side(); s.PacksPerWeek > 0 {
		return v.sold(t) / s.PacksPerWeek
	}
	return 1
}

func (v *sideValues) level(t int) float64 { return math.Pow(1+v.side().Rise, float64(t-1)) }

func (v *sideValues) earned(t int) float64 {
	s := v.side()
	return v.sold(t) * s.Weeks * (s.PerPack - s.Variable) * v.level(t)
}

func (v *sideValues) people(t int) float64 {
	s, sum := v.side(), 0.0
	for k, h := range s.People {
		hours := h.HoursWeek * v.used(t)
		if h.PaidAll {
			hours = h.HoursWeek
			if !v.base {
				hours = max(hours, v.p.r.Base.Side.People[k].HoursWeek)
			}
		}
		sum += float64(h.Cost * (hours + float64(h.OvertimeH*v.used(t)*(1+s.Premium)))) // no fused products: the same bytes everywhere
	}
	return sum * s.Weeks * v.level(t)
}

func (v *sideValues) running(t int) float64 {
	s := v.side()
	return s.CyclesPerWeek * v.used(t) * s.Weeks * v.level(t) * (s.Energy + s.Water + s.Wear)
}
