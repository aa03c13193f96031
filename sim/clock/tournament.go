package clock

// A stamp is the place of an entry in the order of all entries: by key, then by the tick at which it was set, then by order of
// scheduling. Where each was set when it was, the last alone would do; what is set for an earlier tick (SetAsOf) needs both.
type stamp struct {
	key   int64
	set   Tick
	order uint64 // of scheduling
}

func (a stamp) before(b stamp) bool {
	if a.key != b.key {
		return a.key < b.key
	}
	return a.set < b.set || a.set == b.set && a.order < b.order
}

// tournament finds the first of all slots. Inner node i holds the winner of nodes 2i and 2i+1. Below node 3 play all slots but those of the one
// who goes ahead, which are few and mostly changed together: the first of them is found by looking at each and stands at node 2.
// A change replays the matches of one slot: log2(n) comparisons at most, and mostly few.
type tournament struct {
	stamps []stamp // by slot, and one more that is never set; key never when not set
	ahead  []bool  // by slot: belongs to who goes ahead
	few    []int32 // slots of the one who goes ahead
	leaf   []int32 // by slot: its node
	win    []int32 // win[1] is the first of all
	built  bool
}

const (
	aheads = 2 // the first of those who go ahead
	others = 3 // root of all others
)

func (t *tournament) add() Slot {
	if len(t.stamps) == 0 {
		t.stamps = append(t.stamps, stamp{key: never})
	}
	s := len(t.ahead)
	t.stamps[s] = stamp{key: never}
	t.stamps = append(t.stamps, stamp{key: never})
	t.ahead = append(t.ahead, false)
	t.built = false
	return Slot(s)
}

// build plays all matches, once all slots are known.
func (t *tournament) build() {
	if t.built {
		return
	}
	if len(t.stamps) == 0 {
		t.stamps = append(t.stamps, stamp{key: never})
	}
	none := int32(len(t.ahead)) // the stamp that is never set
	width := int32(1)
	for width < none {
		width *= 2
	}
	t.win, t.leaf, t.few = make([]int32, (others+1)*width), make([]int32, len(t.ahead)), t.few[:0]
	for i := range t.win {
		t.win[i] = none
	}
	next := others * width
	for s, is := range t.ahead {
		if is {
			t.few = append(t.few, int32(s))
			continue
		}
		t.leaf[s] = next
		t.win[next] = int32(s)
		next++
	}
	t.built = true
	for s := range t.ahead {
		t.replay(int32(s))
	}
}

func (t *tournament) winner() int32 { return t.win[1] }

func first(stamps []stamp, a, b int32) int32 {
	x, y := &stamps[a], &stamps[b]
	if y.key < x.key || y.key == x.key && y.before(*x) {
		return b
	}
	return a
}

// replay plays the matches of slot s again, until one has the winner that it had and s is not it. (The same without
// branches was measured slower: it waits for every load, where the processor learns the rhythm of a line.)
//
// A slot that fires has its key taken away first and is replayed after its action, when that did not set it again.
// Until then its path holds a winner that is none; a replay of another slot within the action may stop at such a
// node, since the replay that follows plays the whole path: the firing slot had won every match on it.
func (t *tournament) replay(s int32) {
	if !t.built { // before Run
		return
	}
	if t.ahead[s] {
		t.replayAhead()
		return
	}
	win, stamps := t.win, t.stamps
	for i := uint(t.leaf[s]) >> 1; i >= 1; i >>= 1 {
		w := first(stamps, win[2*i], win[2*i+1])
		if win[i] == w && w != s {
			return
		}
		win[i] = w
	}
}

// replayAhead looks again who is first of those who go ahead, whatever was changed.
func (t *tournament) replayAhead() {
	stamps, best := t.stamps, t.few[0]
	for _, s := range t.few[1:] {
		best = first(stamps, best, s)
	}
	t.win[aheads] = best
	t.win[1] = first(stamps, best, t.win[others])
}
