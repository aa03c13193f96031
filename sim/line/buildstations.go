package line

import (
	"fmt"
	"math"

	"pascaline/scenarios"
	"pascaline/scenarios/units"
	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// benchOf makes a bench with n places and joins it to the line.
func (b *builder) benchOf(st *station, job job, n int, crew units.Crew, in *inbox) *bench {
	k := &bench{l: b.l, station: st, in: in, job: job, pool: b.pool(crew.Pool), least: max(1, crew.Least), most: max(1, crew.Most), out: 1, crewed: true}
	k.node = b.l.agenda.add(k)
	st.bench, st.node = k, k.node
	what := map[bool]string{true: "bench", false: "head"}[k.pool != nil]
	if st.piece == "carriers" {
		what = "station"
	}
	for i := range n {
		p := &place{b: k, i: i, due: clock.Never}
		p.server = b.server(serverName(st.name, what, i, n))
		p.slot = b.l.cal.Add(p.name, p, 0)
		p.ask = ask{by: p, station: st.no, least: k.least, most: k.most}
		k.places = append(k.places, p)
		st.servers = append(st.servers, p)
	}
	if in != nil {
		in.owner = k.node
	}
	b.holder(k.node, k)
	b.givers = append(b.givers, k.node)
	b.setNext = append(b.setNext, func(t taker) { k.next = t })
	return k
}

func serverName(station, what string, i, n int) string {
	if n == 1 {
		return station
	}
	return fmt.Sprintf("%s, %s %d", station, what, i+1)
}

func (b *builder) server(name string) server {
	return server{l: b.l, name: name, st: measure.NewStates(measure.Starved, 0), does: measure.Starved}
}

// before joins a station with its own waiting places to the line, unless it takes from places that stand there already.
func (b *builder) before(name, piece string, places int64, in *inbox) *inbox {
	if in != nil {
		return in
	}
	in = b.inbox("before "+name, piece, places)
	b.link(in, in)
	return in
}

func (b *builder) loading(s *scenarios.Loading) {
	p := &b.s.Product
	st := b.station("loading", "carriers", nil)
	f := &filling{feed: b.stretch.feed, packs: int(p.PacksPerCarrier)}
	b.carriers(f)
	size := map[per]int{perTask: f.packs, perCase: int(p.PacksPerCase), perPack: f.packs, perPackAndPerson: f.packs}
	how := map[units.Word]per{"pack and person": perPackAndPerson, "pack": perPack, "carrier": perTask, "case": perCase}[s.HandTime.Per]
	f.hand = b.readings("loading/hand", &s.HandTime.Time, how, size[how])
	f.swap = b.draw("loading/swap", &s.Swap.Time)
	k := b.benchOf(st, f, int(s.Stations), s.Crew, f.empties)
	k.before = s.Blocking == "before"
	k.crewed = s.Swap.By != "machine"
	b.stretch.feed.reader = k.node
	b.stretch.loading = f
	if f.empties != nil {
		k.lacks = func() bool { return f.empties.ready() == 0 && f.feed.has() > 0 && !b.l.closed }
	}
	st.in = nil
}

// carriers makes the carriers that go round. Where their number does not matter there are none to count.
func (b *builder) carriers(f *filling) {
	c := b.s.Carriers
	if c == nil || c.Owned == 0 {
		return
	}
	l := b.l
	l.carriers = int64(c.Owned)
	l.empties = b.inbox("empty carriers", "carriers", endless)
	f.empties = l.empties
	time := b.draw("carriers/return", &c.Return)
	l.returns = &returns{l: l, to: l.empties, time: time.At}
	l.returns.slot = l.cal.Add("carriers on their way back", l.returns, 0)
}

func (b *builder) tip(s *scenarios.Tip, in *inbox) {
	in = b.before("tip", "carriers", 0, in)
	st := b.station("tip", "carriers", in)
	job := &tipping{swap: b.draw("tip/swap", &s.Swap), gap: b.draw("tip/per pack", &s.PerPack), packs: int(b.s.Product.PacksPerCarrier)}
	k := b.benchOf(st, job, int(s.Stations), s.By, in)
	k.before, k.keeps, k.out = s.Blocking == "before", true, job.packs
	in.extra = k.spare
}

func (b *builder) machine(name, piece string, m *scenarios.Machine, in *inbox) {
	places := int64(m.PlacesBefore)
	if m.Endless {
		places = endless
	}
	in = b.before(name, piece, places, in)
	st := b.station(name, piece, in)
	job := &passing{rejects: portionOf(b, name+"/rejects", m.Rejects.Share, m.Rejects.Drawn)}
	switch {
	case m.Time != nil:
		job.time = b.draw(name+"/time", m.Time)
	case m.Rate != nil:
		job.time = b.drawLaw(name+"/time", scenarios.Law{Shape: scenarios.Constant, Mean: 1 / float64(*m.Rate)})
	default:
		job.time = b.draw(name+"/time", nil)
	}
	k := b.benchOf(st, job, int(m.Heads), m.By, in)
	k.before = m.Blocking == "before"
	in.extra = k.spare
}

func (b *builder) packing(s *scenarios.Packing, in *inbox) {
	n := int(b.s.Product.PacksPerCase)
	places := int64(0)
	if n > 1 { // without a table each bench collects its case
		places = int64(n) * int64(s.Benches)
	}
	in = b.before("packing", "packs", places, in)
	st := b.station("packing", "packs", in)
	how := perTask
	if s.Time.Per == "pack" {
		how = perPack
	}
	job := &packing{n: n, rest: b.s.Product.LastCase != "left open", hand: b.readings("packing/time", &s.Time.Time, how, n), perCase: b.draw("packing/per case", &s.PerCase)}
	k := b.benchOf(st, job, int(s.Benches), s.Crew, in)
	k.before, k.byHeads = s.Blocking == "before", true
	if n == 1 {
		in.extra = k.spare
	}
}

func (b *builder) belt(name string, s *scenarios.Belt) {
	in := b.inbox("before "+name, "packs", int64(s.PlacesBefore))
	if s.Tubs != nil {
		b.tubs(name, s.Tubs, in)
	}
	st := b.station(name, "packs", in)
	k := &belt{l: b.l, station: st, in: in, travel: b.constant(name+"/travel", &s.Travel), still: s.Standing == "belt stands still"}
	b.beltPlaces(k, s)
	k.node = b.l.agenda.add(k)
	st.node, in.owner = k.node, k.node
	b.holder(k.node, k)
	b.link(k, in) // a belt takes for itself: with no waiting places a pack steps straight on a lane
	k.gate = b.l.cal.Add(name+", gate", k, fireGate)
	for i := range int(s.Lanes) {
		a := &lane{b: k, lastIn: longAgo, lastOut: longAgo}
		a.server = b.server(serverName(name, "lane", i, int(s.Lanes)))
		a.slot = b.l.cal.Add(a.name, a, 0)
		k.lanes = append(k.lanes, a)
		st.servers = append(st.servers, a)
	}
	k.leakers = portionOf(b, name+"/leakers", s.Leakers.Share, s.Leakers.Drawn)
	b.givers = []int{k.node}
	b.setNext = []func(taker){func(t taker) { k.next = t }}
	if s.Wet != nil {
		b.wet(name, k, s.Wet)
	}
}

func (b *builder) beltPlaces(k *belt, s *scenarios.Belt) {
	k.places = math.MaxInt32
	if s.Rate != nil {
		k.gap = clock.Tick(math.Round(1e6 / float64(*s.Rate)))
		k.places = max(1, int(math.Ceil(float64(k.travel)/float64(max(1, k.gap)))))
	}
	if s.Places != nil {
		k.places = int(*s.Places)
	}
	if k.places < math.MaxInt32 {
		k.pitch = k.travel / clock.Tick(k.places)
	}
}

// wet makes what becomes of wet packs.
func (b *builder) wet(name string, k *belt, s *scenarios.Wet) {
	k.wet = portionOf(b, name+"/wet", s.Share, s.Drawn)
	k.backMax = endless
	if s.Places != nil {
		k.backMax = int64(*s.Places)
	}
	switch s.Then {
	case "sent round once":
		k.rounds = 1
	case "sent round every time":
		k.rounds = math.MaxInt32
	default:
		b.wiping(name, k, s)
		return
	}
	k.backTime = b.draw(name+"/way round", &s.Takes)
	k.backLev = measure.NewLevel(limitOf(k.backMax))
	k.backLev.Record(b.step, b.steps)
	k.backSlot = b.l.cal.Add(name+", packs sent round", k, fireBack)
	b.l.buffers = append(b.l.buffers, &buffer{name: "sent round to " + name, piece: "packs", places: limitOf(k.backMax), level: k.backLev, waits: &measure.Tally{}, each: func(f func(unit)) {
		for i := range k.back.n {
			f(k.back.at(i).u)
		}
	}})
}

// wiping makes the bench where wet packs are wiped by hand. It gives to what the dryer gives to.
func (b *builder) wiping(name string, k *belt, s *scenarios.Wet) {
	in := b.inbox("wet packs", "packs", k.backMax)
	st := b.station("wiping", "packs", in)
	st.section, st.side = name, true
	in.givers = []int{k.node}
	places := 1
	if p := b.pool(s.By.Pool); p != nil {
		places = max(1, len(p.people)/max(1, s.By.Least))
	}
	w := b.benchOf(st, &passing{time: b.draw("wiping/time", &s.Takes)}, places, s.By, in)
	w.byHeads = true
	if k.backMax < endless {
		in.extra = w.spare
	}
	k.wipe = in
}

func limitOf(places int64) int64 {
	if places >= endless {
		return 0
	}
	return places
}

// tubs makes tubs for packs that have no place in the inbox, and the bench that feeds them back.
func (b *builder) tubs(name string, s *scenarios.Tubs, in *inbox) {
	t := &tubs{l: b.l, into: in, per: int(s.PacksPerTub), max: int64(s.Tubs) * int64(s.PacksPerTub), below: int64(s.FedBack), level: measure.NewLevel(int64(s.Tubs) * int64(s.PacksPerTub))}
	t.level.Record(b.step, b.steps)
	st := b.station("tubs at "+name, "packs", nil)
	st.section, st.side = name, true
	job := &feedingBack{t: t}
	job.time = b.draw("tubs at "+name+"/time", &s.Takes)
	givers, next := b.givers, b.setNext
	k := b.benchOf(st, job, 1, s.By, nil)
	b.givers, b.setNext = givers, next
	k.keeps = true
	k.next = in
	t.node = k.node
	in.tubs = t
	b.l.buffers = append(b.l.buffers, &buffer{name: "tubs at " + name, piece: "packs", places: t.max, level: t.level, waits: &measure.Tally{}, each: func(f func(unit)) {
		for i := range t.q.n {
			f(*t.q.at(i))
		}
	}})
}
