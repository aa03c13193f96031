package scenarios

import (
	"math"
	"slices"

	"pascaline/scenarios/units"
)

// OneStretch tells whether all that is finished has gone through the whole line: nothing enters further down.
func (s *Scenario) OneStretch() bool {
	for i, name := range s.Stations() {
		if i > 0 && stationNamed(name).fed(s) != nil {
			return false
		}
	}
	return true
}

// Holds is how many packs the line can hold at most, from loading to the last case, while so many pass; false where some place is without
// limit. Of wet packs whose places have no limit no more can wait than their share of those that pass.
func (s *Scenario) Holds(passing float64) (packs float64, limited bool) {
	h := &holding{s: s, passing: passing, limited: true}
	if s.Loading != nil || s.Infeed != nil || s.Vessel != nil || s.Drain != nil || s.Tip != nil {
		if s.Carriers == nil || s.Carriers.Owned == 0 {
			return 0, false
		}
		h.packs += float64(s.Carriers.Owned) * float64(s.Product.PacksPerCarrier)
	}
	h.belt(s.Shaker)
	h.belt(s.Dryer)
	h.machine(s.Labeller, 1)
	h.machine(s.Checkweigher, 1)
	perCase := float64(s.Product.PacksPerCase)
	if t := s.Table; t != nil {
		h.limited = h.limited && t.Places != nil
		if t.Places != nil {
			h.packs += float64(*t.Places)
		}
		h.tubs(t.Tubs)
	}
	if s.Packing != nil {
		h.packs += float64(float64(s.Packing.Benches) * perCase)
	}
	for _, m := range []*Machine{s.Sealer, s.CaseLabeller, s.Palletiser} {
		h.machine(m, perCase)
	}
	return h.packs, h.limited
}

// holding adds up places.
type holding struct {
	s       *Scenario
	passing float64
	packs   float64
	limited bool
}

func (h *holding) belt(b *Belt) {
	if b == nil {
		return
	}
	lane := 0.0
	switch {
	case b.Places != nil:
		lane = float64(*b.Places)
	case b.Rate != nil:
		lane = float64(float64(*b.Rate)*b.Travel.Law().MeanUsed()) + 1
	default:
		h.limited = false
	}
	h.packs += float64(b.PlacesBefore) + float64(lane*float64(b.Lanes))
	switch {
	case b.Wet == nil:
	case b.Wet.Places != nil:
		h.packs += float64(*b.Wet.Places)
	default:
		h.packs += float64(float64(b.Wet.Share) * h.passing)
	}
	h.tubs(b.Tubs)
}

func (h *holding) tubs(t *Tubs) {
	if t != nil {
		h.packs += float64(t.Tubs) * float64(t.PacksPerTub)
	}
}

func (h *holding) machine(m *Machine, packs float64) {
	if m != nil {
		h.limited = h.limited && !m.Endless
		h.packs += float64(float64(m.Heads)+float64(m.PlacesBefore)) * packs
	}
}

// placesAt is how many packs at most can be given to an empty station at once, and the path of what says so. Tubs do not count: one that is not full
// stays where it is, and then there would be room for fewer.
func (s *Scenario) placesAt(name string) (n units.Count, path string) {
	const endless = math.MaxInt32
	switch {
	case s.Belt(name) != nil:
		b := s.Belt(name)
		n, path = max(1, b.PlacesBefore), name+".places_before"
	case s.Machine(name) != nil:
		m := s.Machine(name)
		n, path = m.PlacesBefore+m.Heads, name+".places_before"
		if m.Endless {
			n = endless
		}
	case name == "table":
		n, path = endless, "table.places"
		if s.Table.Places != nil {
			n = *s.Table.Places
		}
	case name == "packing":
		n, path = s.Packing.Benches*s.Product.PacksPerCase, "packing.benches"
	}
	return n, path
}

// ShiftHours are the hours of a shift of that name, 0 where there is none.
func (s *Scenario) ShiftHours(name string) float64 {
	if s.Roster == nil {
		return 0
	}
	i := slices.IndexFunc(s.Roster.Shifts, func(x Shift) bool { return x.Name == name })
	if i < 0 {
		return 0
	}
	x := &s.Roster.Shifts[i]
	return (x.Hours.To - x.Hours.From).Seconds() / 3600
}

// WeekHours are the hours in a week in which somebody is rostered, of one shift or, by "", of all; all hours without a roster.
func (s *Scenario) WeekHours(shift string) float64 {
	if s.Roster == nil {
		return 7 * 24
	}
	sum := 0.0
	for i := range s.Roster.Shifts {
		if name := s.Roster.Shifts[i].Name; shift == "" || name == shift {
			for _, works := range s.Roster.Days {
				if works {
					sum += s.ShiftHours(name)
				}
			}
		}
	}
	return sum
}
