package line

import (
	"pascaline/scenarios"
	"pascaline/sim/clock"
)

// feedLots lets lots come in here, counted as the station counts.
func (b *builder) feedLots(f *feed, piece string) {
	q := &lotFeed{ls: b.l.lots, feed: f}
	q.size = eachKind(b, func(s *scenarios.Scenario) int64 {
		switch p := &s.Product; {
		case piece == "carriers", piece == "packs" && s.Loading != nil:
			return int64(p.PacksPerCarrier)
		case piece == "cases":
			return int64(p.PacksPerCase)
		}
		return 1
	})
	f.lots = q
}

// turns makes the turns of lots at every station that they come through.
func (b *builder) turns() {
	ls := b.l.lots
	if ls == nil || b.err != nil {
		return
	}
	for _, st := range b.l.stations {
		if st.stretch != b.l.stretchs[0] || st.side {
			continue
		}
		_, packs := packingOf(st)
		if packs && b.apart("table") || st.in != nil && st.in.tubs != nil { // from tubs a lot could be overtaken
			st.before = b.turn(st.in.name, st)
			st.before.apart, st.before.places = true, st.in
			st.in.turn = st.before
		}
		st.turn = b.turn(st.section, st)
		st.turn.apart = b.apart(st.section)
		b.rules(st.turn, st.section)
	}
	for _, st := range b.l.stations { // beside the line: wiping, tubs
		for _, t := range ls.turns {
			if st.side && (t.name == st.section || st.section == "table" && t.name == "packing" && st.turn == nil) {
				st.turn = t
			}
		}
	}
	if len(ls.turns) == 0 {
		b.fail("lots need a station that works on them")
		return
	}
	b.rules(ls.turns[0], "line")
	for i := range ls.list {
		ls.list[i].legs = make([]leg, len(ls.turns))
	}
	b.inOrder()
	b.l.stretchs[0].feed.lots.turn = ls.turns[0]
	b.settle()
	b.stands()
}

func packingOf(st *station) (*packing, bool) {
	if st.bench == nil {
		return nil, false
	}
	k, ok := st.bench.job.(*packing)
	return k, ok
}

func (b *builder) turn(name string, st *station) *turn {
	ls := b.l.lots
	t := &turn{ls: ls, no: len(ls.turns), name: name, station: st}
	ls.turns = append(ls.turns, t)
	return t
}

func (b *builder) apart(section string) bool {
	for _, x := range b.s.KeptApart {
		if spaced(string(x)) == section || string(x) == section {
			return true
		}
	}
	return false
}

// rules gives a turn the changeovers of its station.
func (b *builder) rules(t *turn, station string) {
	for i := range b.s.Changeovers {
		x := &b.s.Changeovers[i]
		if spaced(string(x.Station)) != station {
			continue
		}
		r := rule{from: string(x.From), to: string(x.To), before: clock.Tick(x.Before), pool: b.pool(x.By.Pool), crew: max(1, x.By.Least), whole: station == "line"}
		r.takes = b.draw(station+"/changeover "+string(x.From)+" to "+string(x.To), &x.Takes)
		t.rules = append(t.rules, r)
	}
}

// inOrder says where lots must leave in their order because units can overtake each other there, for the sake of a later station that
// takes one lot after the other. Packs sent round can only do so if the next lot waits before the belt.
func (b *builder) inOrder() {
	turns := b.l.lots.turns
	needed := false
	for i := len(turns) - 1; i >= 0; i-- {
		t := turns[i]
		if needed && t.places == nil {
			t.ordered = overtakes(t.station)
			t.apart = t.apart || sentRound(t.station)
		}
		_, packs := packingOf(t.station)
		needed = needed || t.apart || len(t.rules) > 0 || packs || t.name == "vessel"
	}
}

func sentRound(st *station) bool {
	a, ok := st.servers[0].(*lane)
	return ok && a.b.rounds > 0
}

func overtakes(st *station) bool {
	if a, ok := st.servers[0].(*lane); ok && a.b.wipe != nil {
		return true
	}
	return len(st.servers) > 1
}

// settle says which lot is let in first, after the changeover from what the line is set for.
func (b *builder) settle() {
	ls := b.l.lots
	for _, t := range ls.turns {
		if len(t.rules) > 0 {
			t.change = &changeover{l: b.l, t: t}
			t.change.ask = ask{by: t.change, station: len(b.l.stations) + 1}
		}
		if t.change != nil && len(ls.seq) > 0 {
			if due := b.atFirst(t); len(due) > 0 {
				t.change.atFirst, t.in = due, -1
			}
		}
	}
}

// atFirst is the changeovers from what the line is set for to the first lot.
func (b *builder) atFirst(t *turn) []*rule {
	was, to := string(b.s.SetFor), b.l.lots.kindNames(0)
	from := kindOfLot{was, was}
	same := was == to.group
	for i := range b.s.Products {
		if b.s.Products[i].Name == was {
			from.group, same = string(b.s.Products[i].Group), was == to.product
		}
	}
	if was == "" || same {
		return nil
	}
	return t.due(from, to)
}

// begin lets the changeovers and the first lots begin.
func (ls *lots) begin() {
	for _, t := range ls.turns {
		if t.change != nil {
			t.change.task = ls.l.cal.Go("changeover of "+t.name, t.change.live)
		}
	}
	for i := range ls.list {
		if x := &ls.list[i]; x.ready == 0 {
			ls.l.stretchs[0].feed.level.Add(x.toCome(), 0)
		}
	}
	for _, t := range ls.turns {
		t.advance()
		t.letIn()
	}
}
