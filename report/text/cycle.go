package text

import (
	"fmt"

	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

const cycleName = 34

// cycle is the screen of one cycle.
func (s *screen) cycle(r *result.Cycle) error {
	r, err := number.Shown(r)
	if err != nil {
		return err
	}
	s.answer(r.Answer, r.Warnings, false)
	s.line(none, "")
	for _, p := range r.Phases {
		s.line(none, s.left(p.Name, 14)+s.right(number.Fixed(p.S, 1), 8)+" s  "+words.Origin(r, p))
	}
	s.line(bold, s.left("cycle", 14)+s.right(number.Fixed(r.CycleS, 1), 8)+" s  "+number.Fixed(r.CyclesPerH, 2)+" cycles/h of one vessel")
	s.line(none, "")
	s.pair("packs in the vessel", fmt.Sprintf("%s of %s, fill %s", words.Litres(r.Load.PacksL), words.Litres(r.Load.VesselL), number.Percent(r.Load.Fill)))
	s.pair("water, prefill and pushed in", words.Litres(r.Water.PrefillL)+" and "+words.Litres(r.Water.PushedInL))
	if r.Water.PerKg > 0 {
		s.pair("water for a kg of packs", number.Fixed(r.Water.PerKg, 2)+" L")
	}
	energy := number.Figure(r.Energy.KWh, 3) + " kWh"
	if r.Energy.PerKg > 0 {
		energy += ", " + number.Figure(r.Energy.PerKg, 3) + " kWh a kg"
	}
	s.pair("energy of the pumps", energy)
	s.pair("water warms", number.Fixed(r.Warming.WaterFromC, 1)+" to "+number.Fixed(r.Warming.WaterToC, 1)+" C at most")
	s.pair("packs warm (as water)", number.Fixed(r.Warming.PacksFromC, 1)+" to "+number.Fixed(r.Warming.PacksToC, 1)+" C at most")
	if p := r.Plugs; p != nil {
		s.pair("force on each plug", fmt.Sprintf("%s MN, %s tonnes-force", number.Fixed(p.ForceMN, 1), number.Fixed(p.Tonnes, 0)))
	}
	for _, x := range r.Pumps.Lost {
		s.pair(fmt.Sprintf("with %d of %d intensifiers lost", x.Lost, r.Pumps.Intensifiers), fmt.Sprintf("come-up %s s, %s cycles/h", number.Fixed(x.ComeUpS, 0), number.Fixed(x.CyclesPerH, 2)))
	}
	s.notes(r.Warnings)
	return nil
}

// pair is a line of a name and a value.
func (s *screen) pair(name, value string) { s.line(none, s.left(name, cycleName)+value) }
