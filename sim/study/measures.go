package study

import (
	"pascaline/sim/clock"
	"pascaline/sim/line"
	"pascaline/sim/result"
)

// gauge is a measure of a replication; has is false where a replication has none.
type gauge struct {
	result.Measure
	of func(m *line.Model, r *line.Record) (x float64, has bool)
}

var (
	packsPerH = gauge{result.Measure{Name: "packs/h", Unit: "packs/h", Says: "finished packs per rostered hour", More: "better"},
		func(_ *line.Model, r *line.Record) (float64, bool) {
			return per(float64(r.Packs), hours(r.Rostered)), r.Rostered > 0
		}}
	carriersPerH = gauge{result.Measure{Name: "carriers/h", Unit: "carriers/h", Says: "finished carriers per rostered hour", More: "better"},
		func(_ *line.Model, r *line.Record) (float64, bool) {
			return per(float64(r.Carriers), hours(r.Rostered)), r.Rostered > 0
		}}
	cyclesPerH = gauge{result.Measure{Name: "cycles/h", Unit: "cycles/h", Says: "vessel cycles per rostered hour", More: "better"},
		func(_ *line.Model, r *line.Record) (float64, bool) {
			if r.Vessel == nil || r.Rostered == 0 {
				return 0, false
			}
			return per(float64(r.Vessel.Cycles), hours(r.Rostered)), true
		}}
	peopleHours = gauge{result.Measure{Name: "people-hours per 1,000 packs", Unit: "h", Says: "hours of all people on shift, breaks and overtime included, per 1,000 finished packs", More: "worse"},
		func(_ *line.Model, r *line.Record) (float64, bool) {
			h := 0.0
			for i := range r.Pools {
				p := &r.Pools[i]
				h += hours(p.Busy + p.Free + p.Kept + p.Standing + p.Away + p.Overtime)
			}
			return per(1000*h, float64(r.Packs)), r.Packs > 0 && len(r.Pools) > 0
		}}
	outOfChill = gauge{result.Measure{Name: "out-of-chill P95", Unit: "s", Says: "time out of the chilled store that 95 % of the packs stay within", More: "worse"},
		func(m *line.Model, r *line.Record) (float64, bool) {
			t := &r.Start
			if c := m.Scenario().ColdChain; c != nil && c.From == "leaving the vessel" {
				t = &r.Out
			}
			return seconds(t.Quantile(0.95)), t.N() > 0
		}}
)

var (
	lotsDone = gauge{result.Measure{Name: "lots done", Unit: "h", Says: "hours from the start until all lots are done, of the replications in which they are", More: "worse"},
		func(_ *line.Model, r *line.Record) (float64, bool) {
			end := 0.0
			for i := range r.Lots {
				if r.Lots[i].Done < 0 {
					return 0, false
				}
				end = max(end, hours(r.Lots[i].Done))
			}
			return end, len(r.Lots) > 0
		}}
	lotsLate = gauge{result.Measure{Name: "lots late", Unit: "lots", Says: "lots that were not done when due", More: "worse"},
		func(m *line.Model, r *line.Record) (float64, bool) {
			s := m.Scenario()
			late, due := 0.0, false
			from := len(s.Lots) - len(r.Lots) // those before the lot in work are left out
			for i := range r.Lots {
				l := &s.Lots[from+i]
				if l.Due == nil {
					continue
				}
				due = true
				if done := r.Lots[i].Done; done < 0 || done > clock.Tick(l.Due.After(s.Run.Starts.At.At)) {
					late++
				}
			}
			return late, due
		}}
)

// gaugesOf are the measures of a comparison, its headline first: packs, or carriers where the base's line ends with them.
func gaugesOf(base *line.Record) []gauge {
	first := packsPerH
	if base.Packs == 0 && base.Carriers > 0 {
		first = carriersPerH
	}
	return []gauge{first, cyclesPerH, peopleHours, outOfChill, lotsDone, lotsLate}
}
