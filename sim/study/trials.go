package study

import (
	"pascaline/scenarios"
	"pascaline/sim/clock"
	"pascaline/sim/line"
)

// yardstick is how a record is held against the target of a size block.
type yardstick struct {
	s      *scenarios.Scenario
	rule   rule
	target *scenarios.Target
	hours  map[string]float64 // of the shifts that count, where packs per hour are asked for
}

func newYardstick(s *scenarios.Scenario) *yardstick {
	t := &s.Size.Target
	m := &yardstick{s: s, target: t, rule: rule{target: t.Value(), share: float64(t.In), tolerance: float64(t.Tolerance), confidence: float64(t.Confidence)}}
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
	if m.target.LotsOnTime > 0 {
		made = Sample{m.onTime(r)}
	}
	for i := range r.Shifts {
		x := &r.Shifts[i]
		if !counts(m.target, x.Name) || m.target.LotsOnTime > 0 {
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

// onTime is the share of the lots with a due time that were finished by then, in percent. A lot that was not finished is late.
func (m *yardstick) onTime(r *line.Record) float64 {
	due, met := 0, 0
	from := len(m.s.Lots) - len(r.Lots)
	for i := range r.Lots {
		l := &m.s.Lots[from+i]
		if l.Due == nil {
			continue
		}
		due++
		if done := r.Lots[i].Done; done >= 0 && done <= clock.Tick(l.Due.After(m.s.Run.Starts.At.At)) {
			met++
		}
	}
	return 100 * per(float64(met), float64(due))
}
