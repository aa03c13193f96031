package line

import (
	"math"
	"slices"
	"strings"

	"pascaline/scenarios"
	"pascaline/scenarios/units"
	"pascaline/sim/clock"
)

func (b *builder) vessels(s *scenarios.Vessel, in *inbox) {
	in = b.before("vessel", "carriers", 0, in)
	st := b.station("vessel", "carriers", in)
	l := b.l
	c := &chambers{
		l: l, station: st, in: in, load: int(s.CarriersPerLoad), push: s.Unloading == "push_through",
		after: clock.Never, rest: s.PartLoad.AtEnd != "left", mixed: s.MixedLoads == "same hold and pressure", keepEnds: b.o.CycleEnds,
	}
	if s.PartLoad.After != nil {
		c.after = clock.Tick(*s.PartLoad.After)
	}
	b.phases(c, s)
	c.atMost = math.MaxInt32 // a load that stops broke is repeated as often as it takes, unless the scenario says how often
	if m := s.PressureMissed; m != nil {
		c.missed, c.missedBy = float64(m.Chance), b.stream("vessel/pressure missed")
		c.missedAside, c.atMost = m.Then == "set aside", int(m.AtMost)
	}
	c.node = l.agenda.add(c)
	st.node, in.owner, in.extra = c.node, c.node, c.spare
	for i := range int(s.Vessels) {
		v := &vessel{c: c}
		v.server = b.server(serverName("vessel", "no.", i, int(s.Vessels)))
		v.ask = ask{by: v, station: st.no}
		v.pumps = b.pumpsOf(c, s.Pumps)
		c.each = append(c.each, v)
		st.servers = append(st.servers, v)
	}
	l.vessels = c
	l.blame.at = st.no
	b.holder(c.node, c)
	b.givers = []int{c.node}
	b.setNext = []func(taker){func(t taker) { c.next = t }}
}

// phases makes the times of a cycle, by kind of product. The hold is the product's, a constant.
func (b *builder) phases(c *chambers, s *scenarios.Vessel) {
	if x := s.Started; x != nil {
		c.starters, c.startCrew = b.pool(x.By.Pool), max(1, x.By.Least)
	}
	if x := s.FinishedLoad; x != nil {
		c.drawers, c.drawCrew = b.pool(x.By.Pool), max(1, x.By.Least)
	}
	for i, own := range b.kinds() {
		k := chamberKind{hold: clock.Tick(own.Product.Hold), pressure: float64(own.Product.Pressure)}
		for ph, t := range phaseTimes(own, c.push) {
			if i == 0 {
				k.time[ph] = b.draw("vessel/"+phaseNames[ph], t)
			} else {
				k.time[ph] = b.drawFor("vessel/"+phaseNames[ph], own, t)
			}
		}
		w := b.worked(own)
		k.worked[phPrefill], k.worked[phComeUp] = b.ticksOf("vessel/prefill", w.Prefill), b.ticksOf("vessel/come-up", w.ComeUp)
		c.kinds = append(c.kinds, k)
	}
}

// phaseTimes are the times of a product's cycle as the scenario gives them.
func phaseTimes(s *scenarios.Scenario, push bool) [vesselPhases]*scenarios.Time {
	v := s.Vessel
	p := &v.Phases
	in := p.TransferIn
	if push {
		in = p.Transfer
	}
	times := [vesselPhases]*scenarios.Time{phTransferIn: in, phClose: p.Close, phPrefill: p.Prefill, phComeUp: p.ComeUp, phDecompress: p.Decompress,
		phOpen: p.Open, phDrain: p.Drain, phTransferOut: p.TransferOut, phDrawOut: p.Transfer}
	if w := s.Product.GasWait; w > 0 {
		times[phGasWait] = scenarios.ConstantTime(w)
	}
	if x := v.Started; x != nil {
		times[phStart] = &x.Takes
	}
	if x := v.FinishedLoad; x != nil {
		times[phDrawOut] = &x.Takes
	}
	return times
}

// people makes the pools, before anything that needs them.
// What happens at one tick must not depend on the order in the file, so pools look around in the order of their names.
func (b *builder) people() {
	order := make([]int, len(b.s.People))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int { return strings.Compare(b.s.People[i].Name, b.s.People[j].Name) })
	b.l.written = make([]*pool, len(order))
	for _, i := range order {
		s := &b.s.People[i]
		p := &pool{l: b.l, name: s.Name, walk: clock.Tick(s.Walk), pace: 1, byShift: make([][presences]clock.Tick, b.shiftRows())}
		p.longestIn, p.waitedIn = make([]clock.Tick, b.shiftRows()), make([][]clock.Tick, b.shiftRows())
		p.node = b.l.agenda.add(p)
		for len(b.l.pools) <= p.node {
			b.l.pools = append(b.l.pools, nil)
		}
		b.l.pools[p.node], b.l.written[i] = p, p
		for range b.s.MostHeads(s) {
			p.people = append(p.people, person{at: none, stopped: none})
		}
		if s.ShiftPace > 0 {
			d, err := pacesOf(float64(s.ShiftPace), b.stream("people/"+s.Name+"/pace"), s.Name)
			if err != nil {
				b.fail("shift_pace of %s: %w", s.Name, err)
			}
			p.paced, p.paces = true, d
		}
	}
}

// shiftRows is the rows of the table of people by shift: the shifts and the time outside them.
func (b *builder) shiftRows() int {
	if b.s.Roster == nil {
		return 1
	}
	return len(b.s.Roster.Shifts) + 1
}

// ranks gives every pool its priorities: as listed, or mending first and then the order of the line.
func (b *builder) ranks() {
	n := len(b.l.stations)
	for _, p := range b.l.pools {
		if p == nil {
			continue
		}
		p.rank = make([]int, n+2)
		p.busyAt, p.waitSum, p.waitN = make([]clock.Tick, n+2), make([]clock.Tick, n+2), make([]int64, n+2)
		for i := range p.waitedIn {
			p.waitedIn[i] = make([]clock.Tick, n+2)
		}
		serve := b.serves(p.name)
		for _, st := range b.l.stations {
			p.rank[st.no] = rankOf(serve, st.section, 1+st.no)
		}
		p.rank[n] = rankOf(serve, "stops", 0)
		p.rank[n+1] = p.rank[n]
		if slices.Contains(serve, "changeovers") {
			p.rank[n+1] = rankOf(serve, "changeovers", 0)
		}
	}
}

func (b *builder) serves(name string) []units.Text {
	for i := range b.s.People {
		if b.s.People[i].Name == name {
			return b.s.People[i].Serve
		}
	}
	return nil
}

func rankOf(serve []units.Text, section string, otherwise int) int {
	for i, s := range serve {
		if string(s) == section || spaced(string(s)) == section {
			return i
		}
	}
	if len(serve) > 0 {
		return len(serve) + otherwise
	}
	return otherwise
}

// spaced is a field name as people say it: case_labeller is the case labeller.
func spaced(name string) string {
	out := []byte(name)
	for i, c := range out {
		if c == '_' {
			out[i] = ' '
		}
	}
	return string(out)
}

func (b *builder) rosters() {
	l := b.l
	if b.s.Roster == nil {
		return
	}
	r := &roster{l: l, present: none, ended: none}
	l.roster = r
	r.node = l.agenda.add(r)
	r.slot = l.cal.Add("wash-down", r, 0)
	r.plan(b.s.Roster, b.s.People, b.startsAt, l.end)
	l.off = true
	l.setOff(true)
}

// start lets everything begin.
func (b *builder) start() {
	l := b.l
	if b.err != nil {
		return
	}
	for i := range l.carriers - b.standing() {
		l.empties.take(unit{no: uint64(i), box: none, out: none})
	}
	if l.roster != nil {
		l.cal.Go("roster", l.roster.live)
	} else {
		for _, p := range l.pools {
			if p != nil {
				p.staff(len(p.people), 0)
			}
		}
		l.setOff(false)
	}
	for _, s := range l.stretchs {
		if s.feed.paced || len(s.feed.list) > 0 || s.feed.lots != nil {
			s.feed.task = l.cal.Go(s.feed.name, s.feed.live)
		}
	}
	l.pace()
	if l.vessels != nil {
		for _, v := range l.vessels.each {
			v.task = l.cal.Go(v.name, v.live)
		}
	}
	if l.lots != nil {
		l.lots.begin()
	}
	for _, s := range l.stops {
		s.task = l.cal.Go(s.station.name+", "+s.name, s.live)
	}
	l.agenda.pokeAll()
}
