package study

import (
	"fmt"
	"slices"

	"pascaline/sim/clock"
	"pascaline/sim/line"
	"pascaline/sim/result"
)

// result sums up all records. Sentences, program version and replications are filled in by others.
func (t *total) result() *result.Run {
	s := t.m.Scenario()
	r := &result.Run{
		Head: result.NewHead(result.KindRun), Scenario: string(s.Name), Note: string(s.Note), Seed: t.seed,
		Headline: t.headline(), PerReplication: t.each, Stops: []result.Stop{}, People: []result.Pool{}, Warnings: []result.Warning{},
	}
	n := float64(t.n)
	for i := range t.stations {
		r.Stations = append(r.Stations, t.stations[i].result(t.n))
	}
	t.vesselResult(r)
	r.HandCheck = HandCheck(s, r.Headline.PacksPerH.Mean)
	r.Lots = t.lotsResult()
	r.Bottleneck = t.bottleneck()
	r.Waterfall = t.waterfall()
	r.Profile = t.profile()
	for i := range t.buffers {
		r.Buffers = append(r.Buffers, t.buffers[i].result(t))
	}
	for i := range t.pools {
		r.People = append(r.People, t.pools[i].result(t))
	}
	r.Staffing = t.staffing()
	for i := range t.shifts {
		x := &t.shifts[i]
		r.Shifts = append(r.Shifts, result.Shift{Name: x.name, Hours: x.hours, Packs: perShift(t.shifts[i : i+1]), OvertimeH: hours(x.overtime) / n})
	}
	for _, x := range t.stops {
		r.Stops = append(r.Stops, result.Stop{Station: x.Station, Name: x.Name, Times: float64(x.Times) / n, DownH: hours(x.Down) / n, WaitH: hours(x.Waited) / n, Planned: x.Planned, Slows: x.Slows})
	}
	r.Stops = mergeStops(r.Stops)
	t.lostToStops(r.Stops)
	if m := s.Money; m != nil && m.Contribution != nil {
		r.Contribution = &result.Contribution{PerPack: m.Contribution.Central(), Currency: m.Currency()}
	}
	for _, x := range t.pieces {
		r.Stretches = append(r.Stretches, result.Stretch{From: x.From, To: x.To, Piece: x.Piece, Pieces: float64(x.Pieces) / n, Packs: float64(x.Packs) / n})
	}
	r.Balance = result.Balance{In: t.balance.In / n, Finished: t.balance.Finished / n, SetAside: t.balance.SetAside / n, OnLine: t.balance.OnLine / n}
	t.coldChain(r)
	t.carriersResult(r)
	return r
}

func (t *total) headline() result.Headline {
	h := result.Headline{PacksPerH: t.rate.Estimate(), PacksPerRun: t.packs.Estimate()}
	some := func(s Sample) *result.Estimate {
		for _, x := range s {
			if x != 0 {
				e := s.Estimate()
				return &e
			}
		}
		return nil
	}
	h.CasesPerH, h.CarriersPerH = some(t.cases), some(t.carriers)
	if t.last.Vessel != nil {
		e := t.cycles.Estimate()
		h.CyclesPerH = &e
	}
	if mass := float64(t.m.Scenario().Product.Pack.Mass); len(t.kg) > 0 {
		h.KgPerH = some(t.kg)
	} else if mass > 0 {
		kg := make(Sample, len(t.rate))
		for i, x := range t.rate {
			kg[i] = x * mass
		}
		h.KgPerH = some(kg)
	}
	if e := perShift(t.shifts); e.Mean != 0 {
		h.PacksPerShift = &e
	}
	return h
}

// mergeStops adds up the same stop of a station's several servers.
func mergeStops(list []result.Stop) []result.Stop {
	out := []result.Stop{}
	for _, x := range list {
		found := false
		for i := range out {
			if y := &out[i]; y.Station == x.Station && y.Name == x.Name {
				y.Times, y.DownH, y.WaitH = y.Times+x.Times, y.DownH+x.DownH, y.WaitH+x.WaitH
				found = true
			}
		}
		if !found {
			out = append(out, x)
		}
	}
	return out
}

func (t *total) vesselResult(r *result.Run) {
	if t.last.Vessel == nil {
		return
	}
	s := t.m.Scenario()
	x := &t.vessel
	full := float64(s.Vessel.CarriersPerLoad)
	mixed := mixOf(s)
	v := &result.Vessel{
		CycleS: x.cycleS.Estimate(), IntervalS: x.intervalS.Estimate(), Cycles: x.cycles.Estimate(), Repeated: x.repeated.Estimate(),
		SetAsideLoads: x.aside.Estimate(), PartLoads: x.part.Estimate(), MeanLoadShare: per(float64(x.carriers), float64(x.cycleCount)*full),
	}
	if s.Vessel.Volume > 0 {
		v.Fill = full * mixed.litres / float64(s.Vessel.Volume)
	}
	if r.Headline.CyclesPerH != nil {
		v.Wear = wear(s, *r.Headline.CyclesPerH, s.WeekHours(""))
	}
	r.Vessel = v
	for i := range t.stations {
		if t.stations[i].name != "vessel" {
			continue
		}
		base := float64(baseOf(&t.stations[i].times))
		for ph, name := range line.PhaseNames() {
			if x.phaseN[ph] > 0 {
				r.Stations[i].Phases = append(r.Stations[i].Phases, result.PhaseShare{
					Phase: name, Share: per(float64(x.phaseSum[ph]), base), MeanS: seconds(x.phaseSum[ph]) / float64(x.phaseN[ph]),
				})
			}
		}
	}
}

func (t *total) profile() result.Profile {
	start, rostered := line.StartOf(t.m.Scenario())
	p := result.Profile{StepS: seconds(t.last.Step), StartMin: int(start / clock.Minute), Roster: rostered}
	for _, s := range t.steps[:t.stepsSeen()] {
		p.PacksPerH = append(p.PacksPerH, s.Mean())
		p.P10 = append(p.P10, s.Quantile(0.1))
		p.P90 = append(p.P90, s.Quantile(0.9))
	}
	if plan := t.m.Scenario().Run.Plan; plan != nil {
		p.Plan = 3600 * float64(*plan)
	}
	for _, x := range line.ShiftHours(t.m.Scenario(), t.last.Length) {
		p.Shifts = append(p.Shifts, result.Span{FromS: seconds(x.From), ToS: seconds(x.To), What: x.What})
	}
	for _, x := range line.OffHours(t.m.Scenario(), t.longest) {
		p.Shaded = append(p.Shaded, result.Span{FromS: seconds(x.From), ToS: seconds(x.To), What: x.What})
	}
	return p
}

// stepsSeen is how many steps of time the longest replication reached: one that ends with the last lot may end long before it must.
func (t *total) stepsSeen() int {
	n := 1
	for i := range t.buffers {
		n = max(n, len(t.buffers[i].steps))
	}
	return min(max(n, int((t.longest+t.last.Step-1)/t.last.Step)), len(t.steps))
}

// fitted is values with one for each of n steps.
func fitted(values []float64, n int) []float64 {
	if len(values) > n {
		return values[:n]
	}
	return append(values, make([]float64, n-len(values))...)
}

func (x *bufferTotal) result(t *total) result.Buffer {
	n := float64(t.n)
	b := result.Buffer{
		Name: x.name, Piece: x.piece, Places: x.places, Mean: x.mean / n, Max: float64(x.max), Full: per(float64(x.full), float64(t.length)),
		WaitMeanS: x.waits.Mean() / 1e6, WaitP95S: seconds(x.waits.Quantile(0.95)), StepsMax: fitted(x.most, t.stepsSeen()),
	}
	for _, v := range x.steps {
		b.Steps = append(b.Steps, v/n)
	}
	b.Steps = fitted(b.Steps, t.stepsSeen())
	return b
}

func (x *poolTotal) result(t *total) result.Pool {
	r := &x.rec
	n := float64(t.n)
	on := float64(r.Busy + r.Free + r.Kept)
	p := result.Pool{
		Name: r.Name, RosterH: hours(r.Busy+r.Free+r.Kept) / n, Busy: x.busy.Estimate(), FreeShare: per(float64(r.Free), on),
		KeptShare: per(float64(r.Kept), on), WalkShare: per(float64(r.Walking), on), BreakH: hours(r.Away) / n,
		OvertimeH: hours(r.Overtime) / n, StandsH: hours(r.Standing) / n, LongestS: seconds(r.Longest),
	}
	for i := range r.BusyAt {
		if r.BusyAt[i] == 0 && r.WaitN[i] == 0 {
			continue
		}
		p.Tasks = append(p.Tasks, result.PoolTask{Station: t.taskName(i), Share: per(float64(r.BusyAt[i]), on), WaitS: per(seconds(r.WaitSum[i]), float64(r.WaitN[i]))})
	}
	var heads []int
	for i := range t.shifts {
		s := r.ByShift[i]
		p.ByShift = append(p.ByShift, result.PoolShift{Shift: t.shifts[i].name, Heads: s.Heads, RosterH: hours(s.Busy+s.Free) / n, Busy: per(float64(s.Busy), float64(s.Busy+s.Free))})
		heads = append(heads, s.Heads)
	}
	if len(heads) == 0 {
		heads = []int{r.People}
	}
	p.Heads = fmt.Sprint(slices.Min(heads))
	if most := slices.Max(heads); most > slices.Min(heads) {
		p.Heads += fmt.Sprintf(" to %d", most)
	}
	return p
}

func (t *total) coldChain(r *result.Run) {
	c := &r.ColdChain
	c.FromStart = t.start.times()
	from := &t.start
	if t.out.all.N() > 0 {
		x := t.out.times()
		c.FromVessel = &x
	}
	if lim := t.m.Scenario().ColdChain; lim != nil {
		c.LimitS, c.LimitFrom = seconds(clock.Tick(lim.Limit)), string(lim.From)
		if lim.From == "leaving the vessel" {
			from = &t.out
		}
		c.OverShare = per(float64(from.all.Over()), float64(from.all.N()))
	}
}

func (t *total) carriersResult(r *result.Run) {
	s := t.m.Scenario()
	if s.Loading == nil {
		return
	}
	c := &result.Carriers{}
	if s.Carriers != nil {
		c.Owned = int(s.Carriers.Owned)
	}
	for i := range t.buffers {
		if t.buffers[i].name == "empty carriers" {
			c.MeanEmpty = t.buffers[i].mean / float64(t.n)
		}
	}
	if c.Owned > 0 {
		c.Short = t.shortOfCarriers()
	}
	r.Carriers = c
}

// shortOfCarriers is the share of loading's base in which it was starved for want of an empty carrier.
func (t *total) shortOfCarriers() float64 {
	for i := range t.stations {
		if x := &t.stations[i]; x.name == "loading" {
			return per(float64(x.lacked), float64(baseOf(&x.times)))
		}
	}
	return 0
}
