package scenarios

import "pascaline/scenarios/units"

// In is how many people of a pool are there in a shift: as the shift says, else as the pool does.
func (p *Pool) In(s *Shift) units.Count {
	for _, h := range s.People {
		if h.Pool == p.Name {
			return h.Count
		}
	}
	return p.Heads
}

// MostHeads is the most people of a pool that are ever there.
func (s *Scenario) MostHeads(p *Pool) units.Count {
	most := p.Heads
	if s.Roster != nil {
		for i := range s.Roster.Shifts {
			most = max(most, p.In(&s.Roster.Shifts[i]))
		}
	}
	return most
}

// LastShift is the last shift of the roster in which people of a pool are there; nil where there is none.
func (s *Scenario) LastShift(p *Pool) *Shift {
	if s.Roster == nil {
		return nil
	}
	for i := len(s.Roster.Shifts) - 1; i >= 0; i-- {
		if x := &s.Roster.Shifts[i]; p.In(x) > 0 {
			return x
		}
	}
	return nil
}
