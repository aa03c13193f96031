package capital

import (
	"slices"

	"pascaline/scenarios"
	"pascaline/sim/clock"
	"pascaline/sim/line"
)

// Row is a pool in a shift; the shift is "" where there is no roster, or the pool is there in all shifts alike.
type Row struct{ Pool, Shift string }

// rowsOf are the pools and shifts of several scenarios, each once, in their order.
func rowsOf(list []*scenarios.Scenario) (rows []Row) {
	for _, s := range list {
		for _, p := range s.People {
			for _, r := range poolRows(s, &p) {
				if !slices.Contains(rows, r) {
					rows = append(rows, r)
				}
			}
		}
	}
	return rows
}

func poolRows(s *scenarios.Scenario, p *scenarios.Pool) (rows []Row) {
	if s.Roster == nil {
		return []Row{{p.Name, ""}}
	}
	for _, sh := range s.Roster.Shifts {
		rows = append(rows, Row{p.Name, sh.Name})
	}
	return rows
}

// week is what the roster of a scenario says of one week; what is made in it is not known yet.
func week(s *scenarios.Scenario, rows []Row) Week {
	w := Week{Hours: make([]float64, len(rows)), Overtime: make([]float64, len(rows)), Rostered: s.WeekHours("")}
	if s.Roster == nil {
		for _, p := range s.People {
			w.Hours[slices.Index(rows, Row{p.Name, ""})] = float64(float64(p.Heads) * w.Rostered)
		}
		return w
	}
	for _, sh := range s.Roster.Shifts {
		hours := s.WeekHours(sh.Name)
		for _, p := range s.People {
			w.Hours[slices.Index(rows, Row{p.Name, sh.Name})] = float64(float64(p.In(&sh)) * hours)
		}
	}
	return w
}

// Output is what one replication showed, for each rostered hour of the line.
type Output struct {
	Packs, Cycles float64
	Overtime      []float64 // person-hours by pool, in the order of the scenario
}

// outputOf is what a replication showed for each rostered hour; false where no hour was rostered.
func outputOf(r *line.Record) (Output, bool) {
	per := hours(r.Rostered)
	if per <= 0 {
		return Output{}, false
	}
	o := Output{Packs: float64(r.Packs) / per}
	if r.Vessel != nil {
		o.Cycles = float64(r.Vessel.Cycles) / per
	}
	for _, p := range r.Pools {
		o.Overtime = append(o.Overtime, hours(p.Overtime)/per)
	}
	return o, true
}

// lastRows are the rows in which the pools of a scenario work their overtime, in their order: that of the shift that ends latest of those in which
// the pool is there; -1 where there is none, or no roster.
func lastRows(s *scenarios.Scenario, rows []Row) (last []int) {
	for i := range s.People {
		k := -1
		if x := s.LastShift(&s.People[i]); x != nil {
			k = slices.Index(rows, Row{s.People[i].Name, x.Name})
		}
		last = append(last, k)
	}
	return last
}

// fill puts the mean output into a week; last are the rows of the pools' overtime.
func (w *Week) fill(mean Output, last []int, n int) {
	w.Packs, w.Cycles = float64(mean.Packs*w.Rostered), float64(mean.Cycles*w.Rostered)
	w.Overtime = make([]float64, n)
	for i, k := range last {
		if k >= 0 && i < len(mean.Overtime) {
			w.Overtime[k] = float64(mean.Overtime[i] * w.Rostered)
		}
	}
}

func hours(t clock.Tick) float64 { return float64(t) / float64(clock.Hour) }
