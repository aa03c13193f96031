package study

import (
	"pascaline/sim/clock"
	"pascaline/sim/line"
	"pascaline/sim/measure"
	"pascaline/sim/result"
)

// shown are the states in the order of result.States.
var shown = [...]measure.State{measure.Processing, measure.Starved, measure.Blocked, measure.WaitOperator, measure.Changeover, measure.UnderRepair, measure.WaitRepair}

// stationTotal is one station over replications.
type stationTotal struct {
	name, piece     string
	side            bool
	times           [measure.NStates]clock.Tick
	each            [][measure.NStates]clock.Tick
	names           []string
	shares          [len(shown)]Sample
	handled         Sample
	active, periods int64
	asides          int64
	lacked          clock.Tick
	sole, shifting  clock.Tick
	waits           measure.Tally
}

// baseOf is server time without off shift and planned stops.
func baseOf(t *[measure.NStates]clock.Tick) (base clock.Tick) {
	for _, x := range shown {
		base += t[x]
	}
	return base
}

func (x *stationTotal) add(r *line.StationRecord, rostered clock.Tick) {
	x.name, x.piece, x.side = r.Name, r.Piece, r.Side
	if x.each == nil {
		x.each = make([][measure.NStates]clock.Tick, len(r.Servers))
		x.names = make([]string, len(r.Servers))
	}
	var sum [measure.NStates]clock.Tick
	for i := range r.Servers {
		s := &r.Servers[i]
		x.names[i] = s.Name
		x.active += s.Active
		x.periods += s.Periods
		for k, v := range s.Times {
			sum[k] += v
			x.each[i][k] += v
			x.times[k] += v
		}
	}
	base := float64(baseOf(&sum))
	for i, k := range shown {
		x.shares[i] = append(x.shares[i], per(float64(sum[k]), base))
	}
	x.handled = append(x.handled, per(float64(r.Handled), hours(rostered)))
	x.asides += r.Asides
	x.lacked += r.Lacked
	x.sole, x.shifting = x.sole+r.Sole, x.shifting+r.Shifting
	x.waits.Merge(&r.Waits)
}

// activeShare is the share of its base in which the station was at work or down, not held by others.
func (x *stationTotal) activeShare() float64 {
	t := x.times
	return per(float64(t[measure.Processing]+t[measure.Changeover]+t[measure.UnderRepair]+t[measure.WaitRepair]), float64(baseOf(&t)))
}

func (x *stationTotal) meanActive() float64 {
	return per(float64(x.active), float64(x.periods)) / 1e6
}

func (x *stationTotal) result(n int) result.Station {
	s := result.Station{
		Name: x.name, Servers: len(x.each), Piece: x.piece, Handled: x.handled.Estimate(), ActiveS: x.meanActive(),
		BaseH: hours(baseOf(&x.times)) / float64(n), OffH: hours(x.times[measure.OffShift]) / float64(n),
		PlannedH: hours(x.times[measure.PlannedStop]) / float64(n), SetAside: float64(x.asides) / float64(n),
		WaitMeanS: x.waits.Mean() / 1e6, WaitP95S: seconds(x.waits.Quantile(0.95)),
	}
	base := float64(baseOf(&x.times))
	for i, k := range shown {
		half, _ := x.shares[i].Half()
		s.Shares = append(s.Shares, result.StateShare{State: result.States[i], Share: per(float64(x.times[k]), base), Half: half})
	}
	if len(x.each) > 1 {
		for i := range x.each {
			own := &x.each[i]
			b := baseOf(own)
			row := result.Server{Name: x.names[i], BaseH: hours(b) / float64(n)}
			for _, k := range shown {
				row.Shares = append(row.Shares, per(float64(own[k]), float64(b)))
			}
			s.Each = append(s.Each, row)
		}
	}
	return s
}

// vesselTotal is all vessels over replications.
type vesselTotal struct {
	cycles, part, repeated, aside  Sample
	cycleS, intervalS              Sample
	carriers, packsOut, cycleCount int64
	slowLost, slowShared           clock.Tick
	phaseSum                       []clock.Tick
	phaseN                         []int64
}

func (x *vesselTotal) add(r *line.Record) {
	v := r.Vessel
	x.cycles = append(x.cycles, float64(v.Cycles))
	x.part = append(x.part, float64(v.Part))
	x.repeated = append(x.repeated, float64(v.Repeated))
	x.aside = append(x.aside, float64(v.Aside))
	if v.Cycles > 0 {
		x.cycleS = append(x.cycleS, seconds(v.CycleSum)/float64(v.Cycles))
		x.intervalS = append(x.intervalS, seconds(r.Rostered)/float64(v.Cycles))
	}
	x.carriers += v.Carriers
	x.packsOut += v.PacksOut
	x.cycleCount += v.Cycles
	x.slowLost, x.slowShared = x.slowLost+v.SlowLost, x.slowShared+v.SlowShared
	if x.phaseSum == nil {
		x.phaseSum, x.phaseN = make([]clock.Tick, len(v.PhaseSum)), make([]int64, len(v.PhaseN))
	}
	for i := range v.PhaseSum {
		x.phaseSum[i] += v.PhaseSum[i]
		x.phaseN[i] += v.PhaseN[i]
	}
}

// poolTotal is one pool over replications.
type poolTotal struct {
	rec  line.PoolRecord
	busy Sample
}

func (x *poolTotal) add(r *line.PoolRecord) {
	on := r.Busy + r.Free + r.Kept
	x.busy = append(x.busy, per(float64(r.Busy), float64(on)))
	t := &x.rec
	if t.Name == "" {
		*t = *r
		t.BusyAt, t.WaitSum, t.WaitN, t.ByShift = clone(r.BusyAt), clone(r.WaitSum), clone(r.WaitN), clone(r.ByShift)
		for i := range t.ByShift {
			t.ByShift[i].Waited = clone(r.ByShift[i].Waited)
		}
		return
	}
	t.Busy, t.Free, t.Kept = t.Busy+r.Busy, t.Free+r.Free, t.Kept+r.Kept
	t.Away, t.Overtime, t.OffShift = t.Away+r.Away, t.Overtime+r.Overtime, t.OffShift+r.OffShift
	t.Walking += r.Walking
	t.Standing += r.Standing
	t.Longest = max(t.Longest, r.Longest)
	for i := range r.BusyAt {
		t.BusyAt[i] += r.BusyAt[i]
		t.WaitSum[i] += r.WaitSum[i]
		t.WaitN[i] += r.WaitN[i]
	}
	for i := range r.ByShift {
		t.ByShift[i].Busy += r.ByShift[i].Busy
		t.ByShift[i].Free += r.ByShift[i].Free
		t.ByShift[i].Longest = max(t.ByShift[i].Longest, r.ByShift[i].Longest)
		for k, w := range r.ByShift[i].Waited {
			t.ByShift[i].Waited[k] += w
		}
	}
}

func clone[T any](a []T) []T { return append([]T(nil), a...) }
