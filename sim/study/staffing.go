package study

import (
	"cmp"
	"slices"

	"pascaline/sim/clock"
	"pascaline/sim/line"
	"pascaline/sim/result"
)

// staffing is a row for each pool and shift: people, how busy, how long without a pause, what waited for them. Tasks that waited are those
// of a shift on average.
func (t *total) staffing() []result.Staffing {
	var rows []result.Staffing
	for i := range t.pools {
		r := &t.pools[i].rec
		for k := range r.ByShift {
			x := &r.ByShift[k]
			row := result.Staffing{
				Pool: r.Name, People: x.Heads, Busy: per(float64(x.Busy), float64(x.Busy+x.Free)), LongestS: seconds(x.Longest), HoldsUp: []result.HeldUp{},
			}
			times := t.n
			switch {
			case k < len(t.shifts):
				row.Shift, times = t.shifts[k].name, len(t.shifts[k].packs)
			case len(t.shifts) > 0:
				continue // after the end of the last shift
			}
			if x.Busy+x.Free == 0 {
				continue
			}
			row.HoldsUp = t.heldUp(x, times)
			rows = append(rows, row)
		}
	}
	return rows
}

// heldUp are the stations whose work waited for the pool, the longest first.
func (t *total) heldUp(x *line.PoolShift, times int) []result.HeldUp {
	list := []result.HeldUp{}
	for i, w := range x.Waited {
		if w < clock.Minute {
			continue
		}
		name := t.taskName(i)
		list = append(list, result.HeldUp{Station: name, WaitH: per(hours(w), float64(times))})
	}
	slices.SortStableFunc(list, func(a, b result.HeldUp) int { return cmp.Compare(b.WaitH, a.WaitH) })
	return list
}

// taskName is what row i of a pool's tables is about: a station, and after these mending and changeovers.
func (t *total) taskName(i int) string {
	switch {
	case i < len(t.stations):
		return t.stations[i].name
	case i > len(t.stations):
		return "changeovers"
	}
	return "mending"
}
