package capital

import (
	"slices"

	"pascaline/scenarios"
	"pascaline/scenarios/units"
)

// Hands are the pools that fill carriers or pack by hand, and whose hours have a cost: those of whom more could be hired instead of
// buying.
func Hands(s *scenarios.Scenario) (pools []string) {
	add := func(c units.Crew) {
		paid := s.Money != nil && slices.ContainsFunc(s.Money.People, func(x scenarios.PoolCost) bool { return x.Pool == c.Pool })
		if c.Pool != "" && paid && !slices.Contains(pools, c.Pool) {
			pools = append(pools, c.Pool)
		}
	}
	if s.Loading != nil {
		add(s.Loading.Crew)
	}
	if s.Packing != nil {
		add(s.Packing.Crew)
	}
	return pools
}

// Hire adds one person to a pool in every shift in which anybody of it is there; at loading one more may join at a station. Nothing is
// bought: there is no new bench to pack at. The scenario is changed; read it anew for each.
func Hire(s *scenarios.Scenario, pool string) {
	for i := range s.People {
		if s.People[i].Name == pool && s.People[i].Heads > 0 {
			s.People[i].Heads++
		}
	}
	if s.Roster != nil {
		for i := range s.Roster.Shifts {
			for k := range s.Roster.Shifts[i].People {
				if h := &s.Roster.Shifts[i].People[k]; h.Pool == pool && h.Count > 0 {
					h.Count++
				}
			}
		}
	}
	if s.Loading != nil && s.Loading.Crew.Pool == pool {
		s.Loading.Crew.Most++
	}
}

// KindOf says what an option is: it buys something (be it training only, or hours in which the line stands), it hires, or it only changes how the line
// is run.
func KindOf(base, option *scenarios.Scenario) string {
	if b := planned(option.Money.Buy); !b.Empty() {
		return Buys
	}
	rows := rowsOf([]*scenarios.Scenario{base, option})
	if sum(week(option, rows).Hours) > sum(week(base, rows).Hours) {
		return Hires
	}
	return Changes
}

// Kinds of options.
const (
	Nothing = "do nothing"
	Buys    = "buy"
	Hires   = "hire"
	Changes = "change"
)

func sum(values []float64) (total float64) {
	for _, v := range values {
		total += v
	}
	return total
}
