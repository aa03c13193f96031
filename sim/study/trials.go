package study

import (
	"pascaline/scenarios"
	"pascaline/sim/line"
)

// yardstick is how a record is held against the target of a size block.
type yardstick struct {
	rule   rule
	target *scenarios.Target
	hours  map[string]float64 // of the shifts that count, where packs per hour are asked for
}

func newYardstick(s *scenarios.Scenario) *yardstick {
	t := &s.Size.Target
	m := &yardstick{target: t, rule: rule{target: t.Packs(), share: float64(t.In), tolerance: float64(t.Tolerance), confidence: float64(t.Confidence)}}
	if s.Roster != nil && t.PacksPerHour > 0 {
		m.hours = map[string]float64{}
		for i := range s.Roster.Shifts {
			m.hours[s.Roster.Shifts[i].Name] = s.ShiftHours(s.Roster.Shifts[i].Name)
		}
	}
	return m
}

// trial is what a record says. Without a roster the replication counts as a shift.
func (m *yardstick) trial(r *line.Record) trial {
	var made Sample
	for i := range r.Shifts {
		x := &r.Shifts[i]
		if !counts(m.target, x.Name) {
			continue
		}
		for _, packs := range x.Packs {
			v := float64(packs)
			if m.hours != nil {
				v = per(v, m.hours[x.Name])
			}
			made = append(made, v)
		}
	}
	if len(made) == 0 {
		made = Sample{per(float64(r.Packs), hours(r.Rostered))}
	}
	t := trial{mean: made.Mean()}
	for _, v := range made {
		if v >= m.rule.target {
			t.full++
		}
		if v >= m.rule.low() {
			t.nearly++
		}
	}
	t.full, t.nearly = t.full/float64(len(made)), t.nearly/float64(len(made))
	return t
}

// overtime is the time worked after shifts, per shift, in hours.
func overtime(r *line.Record) float64 {
	sum, n := 0.0, 0
	for i := range r.Shifts {
		sum += hours(r.Shifts[i].Overtime)
		n += len(r.Shifts[i].Packs)
	}
	return per(sum, float64(n))
}
