package study

import (
	"slices"

	"pascaline/sim/clock"
	"pascaline/sim/line"
	"pascaline/sim/measure"
	"pascaline/sim/result"
)

// total takes in records one after another, in order of their numbers. Times and counts are summed as whole numbers; what needs an interval
// is kept as a sample, a few numbers for each replication.
type total struct {
	m    *line.Model
	seed uint64
	n    int
	last *line.Record // for names and shapes

	length, rostered clock.Tick
	longest          clock.Tick // replication
	rate             Sample     // finished packs per rostered hour
	packs, cases     Sample
	carriers, cycles Sample
	each             []result.Replication

	stations []stationTotal
	vessel   vesselTotal
	charges  []line.Charge
	held     clock.Tick
	buffers  []bufferTotal
	pools    []poolTotal
	shifts   []shiftTotal
	stops    []line.StopRecord
	pieces   []line.StretchRecord
	start    timesTotal
	out      timesTotal
	steps    []Sample
	lots     []lotTotal
	ends     Sample // when the last lot was finished; +Inf where one was not
	changes  []line.ChangeRecord
	kg       Sample // where the products differ in mass
	balance  result.Balance
	steady   steady
	doubts   []line.Warning
	doubted  []int // replications with that doubt
}

func newTotal(m *line.Model, seed uint64) *total { return &total{m: m, seed: seed} }

func hours(t clock.Tick) float64   { return float64(t) / float64(clock.Hour) }
func seconds(t clock.Tick) float64 { return float64(t) / float64(clock.Second) }

// per is a/b, 0 where b is 0.
func per(a, b float64) float64 {
	if b == 0 {
		return 0
	}
	return a / b
}

// add takes in one replication.
func (t *total) add(r *line.Record) {
	if t.n == 0 {
		t.shape(r)
	}
	t.n++
	t.last = r
	t.length += r.Length
	t.longest = max(t.longest, r.Length)
	t.rostered += r.Rostered
	t.held += r.Held
	h := hours(r.Rostered)
	t.rate = append(t.rate, per(float64(r.Packs), h))
	t.packs = append(t.packs, float64(r.Packs))
	t.cases = append(t.cases, per(float64(r.Cases), h))
	t.carriers = append(t.carriers, per(float64(r.Carriers), h))
	rep := result.Replication{Number: r.Number, PacksPerH: per(float64(r.Packs), h), Packs: r.Packs, Cases: r.Cases, Carriers: r.Carriers, LengthH: hours(r.Length)}
	if r.Vessel != nil {
		t.cycles = append(t.cycles, per(float64(r.Vessel.Cycles), h))
		rep.Cycles = r.Vessel.Cycles
		t.vessel.add(r)
	}
	t.each = append(t.each, rep)
	for i := range r.Stations {
		t.stations[i].add(&r.Stations[i], r.Rostered)
	}
	for i := range r.Buffers {
		t.buffers[i].add(&r.Buffers[i])
	}
	for i := range r.Pools {
		t.pools[i].add(&r.Pools[i])
	}
	for i := range r.Shifts {
		t.shifts[i].add(&r.Shifts[i])
	}
	t.addFlow(r)
	t.addLots(r)
	t.addDoubts(r)
}

// shape makes room for what a record of this line holds.
func (t *total) shape(r *line.Record) {
	t.stations = make([]stationTotal, len(r.Stations))
	t.buffers = make([]bufferTotal, len(r.Buffers))
	t.pools = make([]poolTotal, len(r.Pools))
	t.shifts = make([]shiftTotal, len(r.Shifts))
	t.stops = make([]line.StopRecord, len(r.Stops))
	t.pieces = make([]line.StretchRecord, len(r.Stretches))
	t.steps = make([]Sample, len(r.Steps))
}

func (t *total) addFlow(r *line.Record) {
	for _, c := range r.Charges {
		t.charge(c)
	}
	for i, s := range r.Stops {
		x := &t.stops[i]
		x.Station, x.Name, x.Planned, x.Slows = s.Station, s.Name, s.Planned, s.Slows
		x.Times, x.Down, x.Waited = x.Times+s.Times, x.Down+s.Down, x.Waited+s.Waited
	}
	for i, s := range r.Stretches {
		x := &t.pieces[i]
		x.From, x.To, x.Piece = s.From, s.To, s.Piece
		x.Pieces, x.Packs = x.Pieces+s.Pieces, x.Packs+s.Packs
	}
	for i, n := range r.Steps {
		t.steps[i] = append(t.steps[i], per(float64(n), hours(t.stepLength(i, r))))
	}
	t.start.add(&r.Start)
	t.out.add(&r.Out)
	t.balance.In += float64(r.In)
	t.balance.Finished += float64(r.Finished)
	t.balance.SetAside += float64(r.Aside)
	t.balance.OnLine += float64(r.OnLine)
}

// stepLength is the length of step i of a replication: the last one is cut where the replication must end. One that ended before, with its last
// lot, makes nothing for the rest of its step.
func (t *total) stepLength(i int, r *line.Record) clock.Tick {
	end, _ := line.Longest(t.m.Scenario())
	return min(r.Step, end-clock.Tick(i)*r.Step)
}

func (t *total) charge(c line.Charge) {
	for i := range t.charges {
		x := &t.charges[i]
		if x.Way == c.Way && x.To == c.To && x.State == c.State {
			x.Time += c.Time
			return
		}
	}
	t.charges = append(t.charges, c)
}

// addDoubts counts in how many replications there was each kind of doubt, whatever its text and however often.
func (t *total) addDoubts(r *line.Record) {
	for k, w := range r.Warnings {
		if slices.ContainsFunc(r.Warnings[:k], func(x line.Warning) bool { return x.Code == w.Code }) {
			continue
		}
		i := slices.IndexFunc(t.doubts, func(x line.Warning) bool { return x.Code == w.Code })
		if i < 0 {
			i = len(t.doubts)
			t.doubts, t.doubted = append(t.doubts, w), append(t.doubted, 0)
		}
		t.doubted[i]++
	}
}

// timesTotal sums up times of packs over replications.
type timesTotal struct {
	all measure.Tally
	p95 Sample
}

func (x *timesTotal) add(t *measure.Tally) {
	x.all.Merge(t)
	if t.N() > 0 {
		x.p95 = append(x.p95, seconds(t.Quantile(0.95)))
	}
}

func (x *timesTotal) times() result.Times {
	return result.Times{N: x.all.N(), MeanS: x.all.Mean() / 1e6, P95S: x.p95.Estimate(), MaxS: seconds(x.all.Max())}
}

// bufferTotal is one buffer over replications.
type bufferTotal struct {
	name, piece string
	places, max int64
	mean        float64
	full        clock.Tick
	steps, most []float64
	waits       measure.Tally
}

func (x *bufferTotal) add(r *line.BufferRecord) {
	x.name, x.piece, x.places = r.Name, r.Piece, r.Places
	x.max = max(x.max, r.Max)
	x.mean += r.Mean
	x.full += r.Full
	x.waits.Merge(&r.Waits)
	for len(x.steps) < len(r.Steps) {
		x.steps, x.most = append(x.steps, 0), append(x.most, 0)
	}
	for i, v := range r.Steps {
		x.steps[i] += v
		x.most[i] = max(x.most[i], r.Most[i])
	}
}

// shiftTotal is one shift of the roster over replications.
type shiftTotal struct {
	name, hours string
	packs       Sample // each time it was on
	made, times Sample // by replication: packs of all times it was on, and how many those were
	overtime    clock.Tick
}

func (x *shiftTotal) add(r *line.ShiftRecord) {
	x.name, x.hours = r.Name, r.Hours
	made := 0.0
	for _, n := range r.Packs {
		x.packs = append(x.packs, float64(n))
		made += float64(n)
	}
	x.made, x.times = append(x.made, made), append(x.times, float64(len(r.Packs)))
	x.overtime += r.Overtime
}

// perShift is what a shift brings: the mean with an interval over replications, since shifts of one replication may hang together, a long stop in
// two of them, and shifts of several names differ without any chance. P10 and P90 are of the single shifts.
func perShift(shifts []shiftTotal) result.Estimate {
	var single, made, times Sample
	for i := range shifts {
		x := &shifts[i]
		single = append(single, x.packs...)
		for k := range x.made {
			if i == 0 {
				made, times = append(made, 0), append(times, 0)
			}
			made[k] += x.made[k]
			times[k] += x.times[k]
		}
	}
	e := ratioOf(made, times)
	e.P10, e.P90 = single.Quantile(0.1), single.Quantile(0.9)
	return e
}
