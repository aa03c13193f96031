package line

import (
	"math"

	"pascaline/scenarios"
	"pascaline/scenarios/units"
	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// section is one section of the scenario file that is part of the line.
type section struct {
	name  string
	piece string // what comes in
	fed   *scenarios.Feed
	build func(in *inbox) // nil: places
	here  *scenarios.Places
	table *scenarios.Table
	takes string // places: the section that empties them
}

// sections lists what is there, in the order of the line.
func (b *builder) sections() (list []section) {
	s := b.s
	add := func(there bool, x func() section) {
		if there {
			list = append(list, x())
		}
	}
	machine := func(name, piece string, m *scenarios.Machine) {
		add(m != nil, func() section {
			return section{name: name, piece: piece, fed: m.Fed, build: func(in *inbox) { b.machine(name, piece, m, in) }}
		})
	}
	add(s.Loading != nil, func() section {
		return section{name: "loading", piece: "packs", fed: s.Loading.Fed, build: func(*inbox) { b.loading(s.Loading) }}
	})
	add(s.Infeed != nil, func() section {
		return section{name: "infeed", piece: "carriers", fed: s.Infeed.Fed, here: s.Infeed, takes: "vessel"}
	})
	add(s.Vessel != nil, func() section {
		return section{name: "vessel", piece: "carriers", fed: s.Vessel.Fed, build: func(in *inbox) { b.vessels(s.Vessel, in) }}
	})
	add(s.Drain != nil, func() section {
		return section{name: "drain", piece: "carriers", fed: s.Drain.Fed, here: s.Drain, takes: "tip"}
	})
	add(s.Tip != nil, func() section {
		return section{name: "tip", piece: "carriers", fed: s.Tip.Fed, build: func(in *inbox) { b.tip(s.Tip, in) }}
	})
	for _, x := range []struct {
		name string
		belt *scenarios.Belt
	}{{"shaker", s.Shaker}, {"dryer", s.Dryer}} {
		add(x.belt != nil, func() section {
			return section{name: x.name, piece: "packs", fed: x.belt.Fed, build: func(*inbox) { b.belt(x.name, x.belt) }}
		})
	}
	machine("labeller", "packs", s.Labeller)
	machine("checkweigher", "packs", s.Checkweigher)
	add(s.Table != nil, func() section {
		return section{name: "table", piece: "packs", fed: s.Table.Fed, table: s.Table, takes: "packing"}
	})
	add(s.Packing != nil, func() section {
		return section{name: "packing", piece: "packs", fed: s.Packing.Fed, build: func(in *inbox) { b.packing(s.Packing, in) }}
	})
	machine("sealer", "cases", s.Sealer)
	machine("case labeller", "cases", s.CaseLabeller)
	machine("palletiser", "cases", s.Palletiser)
	return list
}

// build builds the whole line.
func (b *builder) build() {
	b.horizon()
	b.lotList()
	b.people()
	list := b.sections()
	if len(list) == 0 {
		b.fail("there is no station in this scenario")
	}
	for i, x := range list {
		if i == 0 || x.fed != nil {
			b.endStretch(list, i)
			b.beginStretch(x, i == 0)
		}
		if x.build == nil {
			b.places(x, i+1 < len(list) && list[i+1].name == x.takes && list[i+1].fed == nil)
		} else {
			x.build(b.pending)
			b.pending = nil
		}
		if b.err != nil {
			return
		}
	}
	b.endStretch(list, len(list))
	b.ranks()
	b.turns()
	b.rosters()
	b.stopTasks()
	b.chains()
	b.movers()
	b.start()
}

// movers numbers the servers of the stations in the line, for the search for who holds it.
func (b *builder) movers() {
	var group []int
	var early []bool
	for _, s := range b.l.stations {
		if s.side {
			continue
		}
		for _, o := range s.servers {
			o.base().mover = len(group)
			group, early = append(group, s.no), append(early, b.l.chain.has(o))
		}
	}
	b.l.moving = measure.NewMoving(group, early)
}

// horizon fixes how long the replication is and the steps of pictures over time.
func (b *builder) horizon() {
	r := &b.s.Run
	b.l.end, b.l.until = Longest(b.s)
	b.step = max(clock.Second, clock.Tick(r.Steps))
	if r.Steps == 0 {
		b.step = 30 * clock.Minute
	}
	for b.l.end/b.step >= 2000 {
		b.step *= 2
	}
	b.steps = int((b.l.end + b.step - 1) / b.step)
	b.l.step = b.step
	b.startsAt, _ = StartOf(b.s)
}

// beginStretch makes what comes in.
func (b *builder) beginStretch(x section, first bool) {
	l := b.l
	fed := x.fed
	if fed == nil && first {
		fed = b.s.Supply
	}
	if fed == nil {
		fed = &scenarios.Feed{WithoutEnd: true}
	}
	st := &stretch{store: &store{l: l, from: x.name}}
	b.stretch = st
	b.pending, b.givers, b.setNext = nil, nil, nil
	st.feed = b.feed(x, fed)
	l.stretchs = append(l.stretchs, st)
	if x.name != "loading" {
		b.givers = []int{st.feed.node}
		b.setNext = []func(taker){func(t taker) { st.feed.next = t }}
	}
}

func (b *builder) feed(x section, fed *scenarios.Feed) *feed {
	perUnit := int64(b.s.Product.PacksIn(x.piece))
	name := "supply of " + x.name
	f := &feed{l: b.l, name: name, packs: perUnit, batch: max(1, int64(fed.Batch)), first: none, level: measure.NewLevel(0)}
	f.level.Record(b.step, b.steps)
	f.node = b.l.agenda.add(f)
	f.reader = f.node
	carriers := x.piece == "carriers"
	f.make = func(no uint64, now clock.Tick) unit {
		if carriers {
			b.l.outside++
		}
		return unit{no: no, born: now, out: none, box: none, n: int32(perUnit)}
	}
	if b.l.lots != nil && len(b.l.stretchs) == 0 {
		b.feedLots(f, x.piece)
	} else {
		b.fill(f, fed, x)
	}
	b.l.buffers = append(b.l.buffers, &buffer{name: "store before " + x.name, piece: x.piece, level: f.level, waits: &f.waits, each: func(func(unit)) {}})
	return f
}

// fill says what comes: without end, a quantity, at times, or one after another.
func (b *builder) fill(f *feed, fed *scenarios.Feed, x section) {
	switch {
	case fed.Every != nil:
		f.paced, f.left = true, math.MaxInt64
		if fed.Quantity > 0 {
			f.left = int64(fed.Quantity)
		}
		f.drawn = b.draw(x.name+everyFed, fed.Every)
		if fed.First != nil {
			f.first = clock.Tick(*fed.First)
		}
	case len(fed.At) > 0:
		for _, at := range fed.At {
			f.list = append(f.list, arrival{clock.Tick(at), 1})
		}
		f.left = int64(len(fed.At))
	case len(fed.Timetable) > 0:
		for _, a := range fed.Timetable {
			f.list = append(f.list, arrival{clock.Tick(a.At), int64(a.Quantity)})
			f.left += int64(a.Quantity)
		}
	case fed.Quantity > 0:
		f.store = int64(fed.Quantity)
	default:
		f.endless = true
	}
}

// endStretch ends the stretch before section i with the chilled store.
func (b *builder) endStretch(list []section, i int) {
	if b.stretch == nil || i == 0 {
		return
	}
	last := list[i-1]
	st := b.stretch.store
	st.to, st.piece = last.name, last.piece
	switch last.name {
	case "loading":
		st.piece = "carriers"
	case "tip":
		st.piece = "packs"
	case "packing":
		st.piece = "cases"
	}
	st.steps = measure.NewCounts(b.step, b.steps)
	st.last = i == len(list)
	if c := b.s.ColdChain; c != nil {
		st.start.SetLimit(clock.Tick(c.Limit))
		st.vessel.SetLimit(clock.Tick(c.Limit))
	}
	b.link(st, nil)
}

// link joins what was built so far to what comes next.
func (b *builder) link(t taker, in *inbox) {
	for _, set := range b.setNext {
		set(t)
	}
	if in != nil {
		in.givers = append(in.givers, b.givers...)
	}
	b.setNext, b.givers = nil, nil
}

// inbox makes waiting places before a station.
func (b *builder) inbox(name, piece string, places int64) *inbox {
	in := &inbox{l: b.l, name: name, places: places}
	limit := places
	if places >= endless {
		limit = 0
	}
	in.level = measure.NewLevel(limit)
	in.level.Record(b.step, b.steps)
	b.l.buffers = append(b.l.buffers, &buffer{name: name, piece: piece, places: limit, level: in.level, waits: &in.waits, each: func(f func(unit)) {
		for i := range in.q.n {
			f(in.q.at(i).u)
		}
	}})
	return in
}

// station makes a station and gives it its place in the line.
func (b *builder) station(name, piece string, in *inbox) *station {
	s := &station{l: b.l, no: len(b.l.stations), name: name, section: name, piece: piece, stretch: b.stretch, in: in}
	s.out = asides{b.l, s}
	b.l.stations = append(b.l.stations, s)
	return s
}

func (b *builder) holder(node int, h holder) {
	b.stretch.nodes = append(b.stretch.nodes, node)
	b.stretch.holders = append(b.stretch.holders, h)
}

func placesOf(c units.Count, none bool) int64 {
	if c == 0 && !none {
		return endless
	}
	return int64(c)
}

// places makes places for carriers or the packing table. Where no station of its own empties them, a passage does.
func (b *builder) places(x section, consumed bool) {
	var in *inbox
	if x.table != nil {
		n := endless
		if x.table.Places != nil {
			n = int64(*x.table.Places)
		}
		in = b.inbox(x.name, x.piece, n)
	} else {
		in = b.inbox(x.name, x.piece, placesOf(x.here.Places, x.here.None))
		in.stay = b.draw(x.name+"/time", &x.here.Time)
		if d, ok := in.stay.Constant(); !ok || d > 0 {
			in.stays = true
			in.slot = b.l.cal.Add(x.name, in, 0)
		}
	}
	b.link(in, in)
	if x.table != nil && x.table.Tubs != nil {
		b.tubs("table", x.table.Tubs, in)
	}
	if consumed {
		b.pending = in
		return
	}
	p := &passage{l: b.l, in: in}
	p.node = b.l.agenda.add(p)
	in.owner = p.node
	b.holder(p.node, p)
	b.givers = []int{p.node}
	b.setNext = []func(taker){func(t taker) { p.next = t }}
}

func portionOf(b *builder, name string, share units.Share, drawn units.Word) *portion {
	if share == 0 {
		return nil
	}
	return &portion{share: float64(share), count: drawn == "by count", stream: b.stream(name)}
}

func ticksOf(n int) clock.Tick { return clock.Tick(n) }
