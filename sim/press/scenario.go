package press

import (
	"fmt"
	"math"

	"pascaline/scenarios"
	"pascaline/scenarios/units"
)

// Setup is what a scenario says of its vessels, as the formulas want it.
type Setup struct {
	s      *scenarios.Scenario
	Pumps  Pumps
	Set    *scenarios.Pumps // as written, or the typical ones
	Stated bool             // the scenario says something of the pumps
	Water  *Water
	MPa    float64
}

// SetupOf reads a scenario's vessel. The error says what is outside the table of water; nil where there is no vessel.
func SetupOf(s *scenarios.Scenario) (*Setup, error) {
	if s.Vessel == nil {
		return nil, nil
	}
	x := &Setup{s: s, Set: s.Vessel.Pumps, Stated: s.Vessel.Pumps != nil, MPa: float64(s.Product.Pressure)}
	if !x.Stated {
		x.Set = scenarios.TypicalPumps()
	}
	x.Pumps = Pumps{Efficiency: float64(x.Set.Efficiency)}
	if x.Set.Flow != nil {
		x.Pumps.Flow = float64(*x.Set.Flow)
	}
	if x.Set.Power != nil {
		x.Pumps.Power = float64(*x.Set.Power)
	}
	var err error
	x.Water, err = NewWater(float64(x.Set.Water))
	return x, err
}

// Known tells whether the volumes of vessel and packs are given, without which nothing can be worked out.
func (x *Setup) Known() bool { return x.s.Vessel.Volume > 0 && x.s.Product.Pack.Volume > 0 }

// Content is what a vessel holds with so many full carriers in it.
func (x *Setup) Content(carriers int) *Content {
	v := float64(x.s.Vessel.Volume)
	each := float64(x.s.Product.PacksPerCarrier) * float64(x.s.Product.Pack.Volume)
	return &Content{
		Vessel: v, Packs: float64(carriers) * each, Gas: float64(x.Set.GasInPacks),
		Plastic: v * float64(x.Set.CarrierPlastic) * float64(carriers) / float64(x.s.Vessel.CarriersPerLoad), Growth: float64(x.Set.BoreGrowth),
	}
}

// Full is the number of carriers in a full load.
func (x *Setup) Full() int { return int(x.s.Vessel.CarriersPerLoad) }

// PrefillS is the prefill in seconds with so many carriers; 0 where its flow or a volume is not known.
func (x *Setup) PrefillS(carriers int) float64 {
	if x.Set.PrefillFlow == nil || !x.Known() {
		return 0
	}
	return hundredths(x.Content(carriers).Prefill(float64(*x.Set.PrefillFlow)))
}

// ComeUpS is the come-up in seconds with so many carriers; 0 where the flow or a volume is not known.
func (x *Setup) ComeUpS(carriers int) float64 {
	if x.Pumps.Flow == 0 || !x.Known() {
		return 0
	}
	return hundredths(x.Content(carriers).ComeUp(x.Water, x.Pumps, x.MPa).S)
}

// hundredths is a time to a hundredth of a second: finer than any of it is known, and the same on every processor.
func hundredths(s float64) float64 { return math.Round(s*100) / 100 }

// Worked are the times that are worked out because nobody took them, by the number of carriers in a load (first for one); empty where
// a stopwatch time is given or a flow is not.
type Worked struct{ Prefill, ComeUp []float64 }

// WorkedOut gives the times that a scenario leaves to be worked out. The error says why they cannot be.
func WorkedOut(s *scenarios.Scenario) (Worked, error) {
	var w Worked
	x, err := SetupOf(s)
	if err != nil || x == nil {
		return w, err
	}
	if !x.Known() && (s.Vessel.PrefillUnknown() || s.Vessel.ComeUpUnknown()) {
		return w, fmt.Errorf("product %q: without the volumes of vessel and pack neither prefill nor come-up can be worked out", s.Product.Name)
	}
	for n := 1; n <= x.Full(); n++ {
		if s.Vessel.PrefillUnknown() {
			w.Prefill = append(w.Prefill, x.PrefillS(n))
		}
		if s.Vessel.ComeUpUnknown() {
			w.ComeUp = append(w.ComeUp, x.ComeUpS(n))
		}
	}
	return w, nil
}

// Phases are those of a full load, with the times that are worked out filled in.
func Phases(s *scenarios.Scenario) scenarios.Phases {
	p := s.Vessel.Phases
	x, err := SetupOf(s)
	if err != nil || !x.Known() {
		return p // where something is to be worked out, such a scenario is refused when a line is made of it
	}
	if s.Vessel.PrefillUnknown() {
		p.Prefill = fixed(x.PrefillS(x.Full()))
	}
	if s.Vessel.ComeUpUnknown() {
		p.ComeUp = fixed(x.ComeUpS(x.Full()))
	}
	return p
}

// fixed is a time that is always the same.
func fixed(seconds float64) *scenarios.Time {
	return scenarios.ConstantTime(units.Duration(math.Round(seconds * float64(units.Second))))
}
