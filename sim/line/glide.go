package line

import (
	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// upToAlone is upTo for a single lane that keeps its packs where they waited.
func (b *belt) upToAlone(bound int64, step bool) bool {
	for a := b.lanes[0]; ; {
		if !a.stuck && a.stood == 0 {
			stepped, on := b.glide(bound, step)
			if !on {
				return stepped
			}
			continue
		}
		key := stepKey(b.nextStep())
		if a.waitsForRoom() && b.down.upTo(min(key, bound), true) {
			if b.down.hasRoom() {
				b.pass(a, b.down.at)
			}
			continue
		}
		if key > bound || key>>1 >= b.chain.limit {
			return false
		}
		if b.stepAhead(key>>1) && step {
			return true
		}
	}
}

// glide does what upTo does while the lane runs and its first pack need not stand at the end. What a pack costs on a line that flows is spent
// here, so what one pack leaves to the next is in variables of its own. It tells whether a pack stepped on, with which it ended, and else
// whether there is more to do.
func (b *belt) glide(bound int64, step bool) (stepped, more bool) {
	a, in, q := b.lanes[0], b.in, &b.in.q
	limit := b.chain.limit
	lastExit, lastStep := min(bound>>1, limit-1), min((bound-1)>>1, limit-1)
	next, gate, at := a.next, a.lastIn+b.gap+a.lost, b.at
	for {
		on := clock.Never
		if q.n > 0 && q.past < b.places {
			on = max(gate, q.front().at, at)
		}
		switch {
		case next <= on && next > lastExit || on < next && on > lastStep:
			b.at, a.next = at, next
			return false, false
		case next <= on:
			b.at, a.next = at, next
			if !b.slides(next) {
				b.leaveAhead(a, next)
				return false, b.chain.limit == limit
			}
			at = next
			a.lastOut, a.moved = at-a.lost, true
			a.ended++
			if q.past == 0 {
				next = clock.Never
				a.doAt(measure.Starved, at)
				continue
			}
			next = max(q.kept(0).ripe+a.lost, at+b.pitch)
			b.arms++
			a.armed, a.arm = at, b.arms
		case in.wanted && !b.tells(on):
			b.at, a.next = at, next
			return false, false
		default:
			in.count(on)
			w := q.keep()
			in.ripe--
			in.waits.Add(on - w.at)
			in.level.Add(-1, on)
			at, gate = on, on+b.gap
			a.lastIn = on - a.lost
			w.ripe, w.fate = a.lastIn+b.travel, open
			if w.u.lot != 0 {
				b.station.enter(&w.u, on)
			}
			b.chain.did = true
			if q.past == 1 {
				a.set(on)
				next = a.next
				a.doAt(measure.Processing, on)
			}
			if step {
				b.at, a.next = at, next
				return true, false
			}
		}
	}
}

// slides hands the first pack of a single lane on, if nothing is to be asked about it.
func (b *belt) slides(at clock.Tick) bool {
	q := &b.in.q
	switch {
	case !b.plain && b.fateOf(q.kept(0)) != onward:
		return false
	case b.down != nil && !b.down.findsRoom(at):
		return false
	case b.down == nil && (b.need == 1 || b.behind.shut || !b.behind.fits(1)):
		return false
	}
	b.gives(&q.release().u, at)
	b.chain.did = true
	return true
}
