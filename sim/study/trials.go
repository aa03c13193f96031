package study

import (
	"fmt"
	"slices"
	"strings"

	"pascaline/scenarios"
	"pascaline/sim/clock"
	"pascaline/sim/line"
)

// yardstick is how a record of one setting is held against the target of a size block.
type yardstick struct {
	s      *scenarios.Scenario
	rule   rule
	target *scenarios.Target
	hours  map[string]float64 // of the shifts that count, where packs per hour are asked for
	most   clock.Tick         // length of a replication, or its cap
	whole  map[string][]bool  // by shift, each time it is on within most: all its hours lie within
}

func newYardstick(s *scenarios.Scenario, t *scenarios.Target) *yardstick {
	m := &yardstick{s: s, target: t, rule: rule{target: t.Value(), share: float64(t.In), tolerance: float64(t.Tolerance), confidence: float64(t.Confidence)}}
	if s.Roster != nil && t.PacksPerHour > 0 {
		m.hours = map[string]float64{}
		for i := range s.Roster.Shifts {
			m.hours[s.Roster.Shifts[i].Name] = s.ShiftHours(s.Roster.Shifts[i].Name)
		}
	}
	m.most, _ = line.Longest(s)
	m.whole = wholeShifts(s, m.most)
	return m
}

// wholeShifts tells of each shift, for each time it is on within a replication, whether all its hours lie within. One that the replication begins or
// ends in makes less, which says nothing of the line.
func wholeShifts(s *scenarios.Scenario, length clock.Tick) map[string][]bool {
	whole := map[string][]bool{}
	for _, x := range line.ShiftHours(s, length) {
		whole[x.What] = append(whole[x.What], hours(x.To-x.From) >= s.ShiftHours(x.What))
	}
	return whole
}

// A NoShift is a target that no replication can be held against.
type NoShift struct{ says string }

// Error says which shifts are missing and what to do.
func (e *NoShift) Error() string { return e.says }

// check is a NoShift where none of the shifts that count lies whole within a replication.
func (m *yardstick) check() error {
	if m.s.Roster == nil || m.target.LotsOnTime > 0 {
		return nil
	}
	var names []string
	for _, x := range m.target.Shifts {
		names = append(names, string(x))
	}
	if len(names) == 0 {
		names = []string{"any"}
	}
	for i := range m.s.Roster.Shifts {
		if name := m.s.Roster.Shifts[i].Name; counts(m.target, name) && slices.Contains(m.whole[name], true) {
			return nil
		}
	}
	return &NoShift{fmt.Sprintf("size.target counts the packs of whole shifts (%s), and a replication of %.4g h has none: let run.one_replication be longer, such as day or week, or begin elsewhere (run.starts)",
		strings.Join(names, ", "), hours(m.most))}
}

// trial is what a record says. Without a roster the replication counts as a shift.
func (m *yardstick) trial(r *line.Record) trial {
	made := m.made(r)
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

// made is what is held against the target: packs of each whole shift that counts, or packs an hour of it, or the lots on time. A replication that
// ended with its work before any such shift was over reached nothing that was asked for.
func (m *yardstick) made(r *line.Record) (made Sample) {
	switch {
	case m.target.LotsOnTime > 0:
		return Sample{m.onTime(r)}
	case m.s.Roster == nil:
		return Sample{per(float64(r.Packs), hours(r.Rostered))}
	}
	whole := m.whole
	if r.Length < m.most {
		whole = wholeShifts(m.s, r.Length)
	}
	for i := range r.Shifts {
		x := &r.Shifts[i]
		if !counts(m.target, x.Name) {
			continue
		}
		for k, packs := range x.Packs {
			v := float64(packs)
			if m.hours != nil {
				v = per(v, m.hours[x.Name])
			}
			if k < len(whole[x.Name]) && whole[x.Name][k] {
				made = append(made, v)
			}
		}
	}
	if len(made) == 0 {
		return Sample{0}
	}
	return made
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
