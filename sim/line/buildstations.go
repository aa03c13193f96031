package line

import (
	"fmt"
	"math"
	"slices"

	"pascaline/scenarios"
	"pascaline/scenarios/units"
	"pascaline/sim/clock"
	"pascaline/sim/measure"
	"pascaline/sim/random"
)

// benchOf makes a bench with n places and joins it to the line.
func (b *builder) benchOf(st *station, job job, n int, crew units.Crew, in *inbox) *bench {
	k := &bench{l: b.l, station: st, in: in, job: job, pool: b.pool(crew.Pool), least: max(1, crew.Least), most: max(1, crew.Most), out: 1, crewed: true}
	switch job := job.(type) {
	case *tipping, *passing:
		k.needs = []int{1}
	case *packing:
		k.needs = job.n
	}
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
		in.owner, in.stirs = k.node, k.stirs
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
	return server{l: b.l, name: name, st: measure.NewStates(measure.Starved, 0), does: measure.Starved, mover: none}
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
	st := b.station("loading", "carriers", nil)
	f := &filling{feed: b.stretch.feed, packs: int(b.s.Product.PacksPerCarrier)}
	b.carriers(f)
	hand := b.drawEach("loading/hand", func(s *scenarios.Scenario) *scenarios.Time { return &s.Loading.HandTime.Time })
	for i, s := range b.kinds() {
		f.hand = append(f.hand, handOf(s, hand[i]))
	}
	f.swap = b.drawEach("loading/swap", func(s *scenarios.Scenario) *scenarios.Time { return &s.Loading.Swap.Time })
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

// handOf is the hand time of loading as it was measured.
func handOf(s *scenarios.Scenario, d random.Draw) readings {
	p := &s.Product
	packs := int(p.PacksPerCarrier)
	size := map[per]int{perTask: packs, perCase: int(p.PacksPerCase), perPack: packs, perPackAndPerson: packs}
	how := map[units.Word]per{"pack and person": perPackAndPerson, "pack": perPack, "carrier": perTask, "case": perCase}[s.Loading.HandTime.Per]
	return readings{per: how, draw: d, size: size[how]}
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
	job := &tipping{
		swap: b.drawEach("tip/swap", func(s *scenarios.Scenario) *scenarios.Time { return &s.Tip.Swap }),
		gap:  b.drawEach("tip/per pack", func(s *scenarios.Scenario) *scenarios.Time { return &s.Tip.PerPack }),
	}
	for _, s := range b.kinds() {
		job.packs = max(job.packs, int(s.Product.PacksPerCarrier))
	}
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
	for i, s := range b.kinds() {
		job.time = append(job.time, b.machineTime(name, s.Machine(name), i, s))
	}
	k := b.benchOf(st, job, int(m.Heads), m.By, in)
	k.before = m.Blocking == "before"
	in.extra = k.spare
}

// machineTime is the time of one piece, from a time or a rate, for product number i.
func (b *builder) machineTime(name string, m *scenarios.Machine, i int, s *scenarios.Scenario) random.Draw {
	law := scenarios.Law{Shape: scenarios.Constant}
	switch {
	case m.Time != nil && m.Time.Law().Shape != "":
		law = m.Time.Law()
	case m.Rate != nil:
		law.Mean = 1 / float64(*m.Rate)
	}
	if i == 0 {
		return b.drawLaw(name+"/time", law)
	}
	return b.drawLaw(name+"/time of "+string(s.Product.Name), law).From(b.stream(name + "/time"))
}

func (b *builder) packing(s *scenarios.Packing, in *inbox) {
	sizes := eachKind(b, func(s *scenarios.Scenario) int { return int(s.Product.PacksPerCase) })
	n := slices.Max(sizes)
	places := int64(0)
	if n > 1 { // without a table each bench collects its case
		places = int64(n) * int64(s.Benches)
	}
	in = b.before("packing", "packs", places, in)
	st := b.station("packing", "packs", in)
	job := &packing{
		n: sizes, rest: b.s.Product.LastCase != "left open", cases: make([]uint64, len(b.s.Lots)),
		perCase: b.drawEach("packing/per case", func(s *scenarios.Scenario) *scenarios.Time { return &s.Packing.PerCase }),
	}
	hand := b.drawEach("packing/time", func(s *scenarios.Scenario) *scenarios.Time { return &s.Packing.Time.Time })
	for i, s := range b.kinds() {
		how := perTask
		if s.Packing.Time.Per == "pack" {
			how = perPack
		}
		job.hand = append(job.hand, readings{per: how, draw: hand[i], size: sizes[i]})
	}
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
	b.belts = append(b.belts, k)
	k.node = b.l.agenda.add(k)
	st.node, in.owner, in.stirs = k.node, k.node, k.stirs
	b.holder(k.node, k)
	b.link(k, in) // a belt takes for itself: with no waiting places a pack steps straight on a lane
	k.gate = b.l.cal.Add(name+", gate", k, fireGate)
	for i := range int(s.Lanes) {
		a := &lane{b: k, on: new(ring[waiting]), lastIn: longAgo, lastOut: longAgo, next: clock.Never}
		a.server = b.server(serverName(name, "lane", i, int(s.Lanes)))
		a.slot = b.l.cal.Add(a.name, a, 0)
		k.lanes = append(k.lanes, a)
		st.servers = append(st.servers, a)
	}
	for _, own := range b.kinds() {
		x := own.Belt(name)
		k.leakers = append(k.leakers, portionOf(b, name+"/leakers", x.Leakers.Share, x.Leakers.Drawn))
		k.wet = append(k.wet, nil)
	}
	b.givers = []int{k.node}
	b.setNext = []func(taker){func(t taker) { k.next = t }}
	if s.Wet != nil {
		b.wet(name, k, s.Wet)
	}
	if len(k.lanes) == 1 && in.places > 0 && k.rounds == 0 { // packs leave the lane as they came before it
		in.keeps, k.lanes[0].on = true, &in.q
	}
}

func (b *builder) beltPlaces(k *belt, s *scenarios.Belt) {
	k.places = math.MaxInt32
	if s.Rate != nil {
		k.gap = clock.Tick(math.Round(1e6 / float64(*s.Rate) * b.m.quicker.factor(k.station.name+"/rate")))
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
	for i, own := range b.kinds() {
		x := own.Belt(name).Wet
		k.wet[i] = portionOf(b, name+"/wet", x.Share, x.Drawn)
	}
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
	w := b.benchOf(st, &passing{time: b.drawEach("wiping/time", func(s *scenarios.Scenario) *scenarios.Time { return &s.Belt(name).Wet.Takes })}, places, s.By, in)
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
	st.section, st.side, st.inside = name, true, true
	job := &feedingBack{t: t}
	one := b.draw("tubs at "+name+"/time", &s.Takes)
	job.time = eachKind(b, func(*scenarios.Scenario) random.Draw { return one })
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
