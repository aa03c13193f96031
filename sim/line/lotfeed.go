package line

import (
	"slices"

	"pascaline/sim/clock"
)

// lotFeed brings lots into the first station of the line, one after the other: carriers, cases or packs of one lot each. The last of a lot
// holds what is left of it.
type lotFeed struct {
	ls   *lots
	feed *feed
	turn *turn
	size []int64 // packs of a full one, by kind of product
	at   int     // rank of the lot that comes in
	gone int64   // packs of it that are in
	n    uint64  // carriers, cases or packs of it that are in
}

// peek is the lot of the one after asked others, and what is left of it then.
func (q *lotFeed) peek(asked int) (rank int, left int64) {
	rank, left = q.at, q.leftAt(q.at)-q.gone
	for ; asked > 0 && rank < len(q.ls.seq); asked-- {
		left -= q.size[q.ls.list[q.ls.seq[rank]].kind]
		if left <= 0 {
			rank++
			left = q.leftAt(rank)
		}
	}
	return rank, left
}

func (q *lotFeed) leftAt(rank int) int64 {
	if rank >= len(q.ls.seq) {
		return 0
	}
	return q.ls.list[q.ls.seq[rank]].toCome()
}

// ready tells whether one more than asked can come in now.
func (q *lotFeed) ready(asked int) bool {
	now := q.ls.l.cal.Now()
	rank, _ := q.peek(asked)
	if rank >= len(q.ls.seq) && q.ls.any && asked == 0 {
		q.ls.chooseReady(now)
	}
	if rank >= len(q.ls.seq) {
		return false
	}
	x := &q.ls.list[q.ls.seq[rank]]
	return x.ready <= now && rank <= q.turn.in
}

// stocked tells whether more of a lot was ready before now.
func (q *lotFeed) stocked() bool {
	now := q.ls.l.cal.Now()
	if q.at < len(q.ls.seq) {
		return q.ls.list[q.ls.seq[q.at]].ready < now && q.at <= q.turn.in
	}
	for i := range q.ls.list {
		if x := &q.ls.list[i]; x.rank == unranked && x.ready < now {
			return true
		}
	}
	return false
}

// take takes the next out of the chilled store.
func (q *lotFeed) take(now clock.Tick) unit {
	i := q.ls.seq[q.at]
	x := &q.ls.list[i]
	left := q.leftAt(q.at) - q.gone
	n := min(q.size[x.kind], left)
	u := unit{no: x.no + q.n, born: now, out: none, box: none, n: int32(n), lot: int32(i + 1)}
	q.ls.l.blame.settle(now)
	q.gone += n
	q.n++
	q.ls.l.in += n
	q.feed.level.Add(-n, now)
	if n == left {
		q.at++
		q.gone, q.n = 0, 0
		if q.done() {
			q.ls.l.closingChanged()
		}
	}
	return u
}

// done tells that all lots are in.
func (q *lotFeed) done() bool { return q.at >= len(q.ls.list) }

// live tells at which times lots become ready.
func (q *lotFeed) live(t *clock.Task) {
	order := make([]int, len(q.ls.list))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return int(q.ls.list[a].ready - q.ls.list[b].ready) })
	for _, i := range order {
		if q.ls.list[i].ready == 0 { // there from the start
			continue
		}
		t.SleepUntil(q.ls.list[i].ready, clock.End)
		q.ls.l.blame.settle(t.Now())
		q.feed.level.Add(q.ls.list[i].toCome(), t.Now())
		q.ls.l.agenda.poke(q.feed.node)
		q.ls.l.agenda.poke(q.feed.reader)
	}
}
