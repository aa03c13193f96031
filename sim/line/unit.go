package line

import "pascaline/sim/clock"

// A unit is what goes through: a pack, a carrier with its packs, or a case with its packs. By value, never allocated.
type unit struct {
	no   uint64     // number within its kind: what is drawn for it is drawn by this
	born clock.Tick // loading of its carrier began, or it came out of the store
	out  clock.Tick // it left the vessel; none where it never was in one
	box  int32      // contents of a case in Line.boxes, or none
	n    int32      // packs in it: 1 for a pack
	pass int32      // times it was sent round
	lot  int32      // its lot, counted from 1; 0 where there are no lots
}

const none = -1

// A box holds the packs of one case. Boxes are used again, so that nothing is allocated for a case.
type box struct{ packs []unit }

// boxes is the store of boxes.
type boxes struct {
	all  []box
	free []int32
}

// open gives an empty box.
func (b *boxes) open() int32 {
	if n := len(b.free); n > 0 {
		i := b.free[n-1]
		b.free = b.free[:n-1]
		return i
	}
	b.all = append(b.all, box{})
	return int32(len(b.all) - 1)
}

// pack lays the first n packs of a queue into box i, and tells whether they are of one lot. Only their times are asked for when the box is closed:
// packs of one carrier are one entry.
func (b *boxes) pack(i int32, q *ring[waiting], n int) bool {
	packs := b.all[i].packs
	last := &unit{}
	for k := range n {
		u := &q.at(k).u
		if k > 0 && last.born == u.born && last.out == u.out && last.lot == u.lot {
			last.n += u.n
			continue
		}
		packs = append(packs, *u)
		last = &packs[len(packs)-1]
	}
	b.all[i].packs = packs
	return n == 0 || packs[0].lot == last.lot
}

// put lays a pack into box i.
func (b *boxes) put(i int32, u *unit) { b.all[i].packs = append(b.all[i].packs, *u) }

// close empties box i for its next use and gives what was in it, valid until then.
func (b *boxes) close(i int32) []unit {
	packs := b.all[i].packs
	b.all[i].packs = packs[:0]
	b.free = append(b.free, i)
	return packs
}

// A taker is whatever units can be given to. Room tells whether there are n places for the asker now; where there are
// not, the asker is called (try) when that changes. Take gives one unit, only after room said yes in this tick.
type taker interface {
	room(n int) bool
	take(u unit)
	promise(n int) // n places are kept for units that are being worked on; -n gives them up again, as does who then takes
}

// ring is a first-in first-out queue that grows when it must. What was taken out can stay behind the first one until it is released: packs that
// step on a belt need not be copied.
type ring[T any] struct {
	a       []T
	head, n int
	past    int // taken out and not released
}

func (r *ring[T]) push(x T) { *r.next() = x }

// next makes room for one more at the end, to be written in place: copying what has just been written costs a stall.
func (r *ring[T]) next() *T {
	if r.n+r.past == len(r.a) {
		r.grow()
	}
	r.n++
	return &r.a[(r.head+r.n-1)&(len(r.a)-1)]
}

func (r *ring[T]) grow() {
	b := make([]T, max(8, 2*len(r.a)))
	for i := range r.n + r.past {
		b[i] = *r.at(i - r.past)
	}
	r.a, r.head = b, r.past
}

// drop takes the first one out, which can be read until another is added.
func (r *ring[T]) drop() *T {
	x := &r.a[r.head]
	r.head = (r.head + 1) & (len(r.a) - 1)
	r.n--
	return x
}

// keep takes the first one out and lets it stay behind.
func (r *ring[T]) keep() *T {
	r.past++
	return r.drop()
}

// release lets go the one that was kept first. It can be read until another is added.
func (r *ring[T]) release() *T {
	x := r.kept(0)
	r.past--
	return x
}

func (r *ring[T]) pop() T { return *r.drop() }

func (r *ring[T]) front() *T     { return &r.a[r.head] }
func (r *ring[T]) at(i int) *T   { return &r.a[(r.head+i)&(len(r.a)-1)] }
func (r *ring[T]) kept(i int) *T { return r.at(i - r.past) } // the ith of those kept
