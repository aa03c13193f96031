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

// tournament finds the first of all slots. Inner node i holds the winner of nodes 2i and 2i+1. Below node 2 play the slots of the one who
// goes ahead, below node 3 all others, so that the first of the others is known at any time.
// A change replays the matches of one slot: log2(n) comparisons at most, and mostly few.
type tournament struct {
	stamps []stamp // by slot, and one more that is never set; key never when not set
	ahead  []bool  // by slot: belongs to who goes ahead
	leaf   []int32 // by slot: its node
	win    []int32 // win[1] is the first of all
	built  bool
	width  int32 // leaves of those who go ahead
}

const (
	aheads = 2 // root of those who go ahead
	others = 3
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
	first := [2]int32{aheads, others}
	var n [2]int32
	for _, is := range t.ahead {
		n[half(is)]++
	}
	size := int32(4)
	for h := range first {
		width := int32(1)
		for width < n[h] {
			width *= 2
		}
		first[h] *= width
		if h == half(true) {
			t.width = width
		}
		size = max(size, first[h]+width)
	}
	t.win, t.leaf = make([]int32, 2*size), make([]int32, len(t.ahead))
	for i := range t.win {
		t.win[i] = none
	}
	for s, is := range t.ahead {
		t.leaf[s] = first[half(is)]
		t.win[t.leaf[s]] = int32(s)
		first[half(is)]++
	}
	t.built = true
	for s := range t.ahead {
		t.replay(int32(s))
	}
}

func half(ahead bool) int {
	if ahead {
		return 0
	}
	return 1
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
	win, stamps := t.win, t.stamps
	for i := uint(t.leaf[s]) >> 1; i >= 1; i >>= 1 {
		w := first(stamps, win[2*i], win[2*i+1])
		if win[i] == w && w != s {
			return
		}
		win[i] = w
	}
}

// replayAhead plays all matches of those who go ahead, whatever was changed.
func (t *tournament) replayAhead() {
	win, stamps := t.win, t.stamps
	for width := t.width / 2; width >= 1; width /= 2 {
		for i := aheads * width; i < (aheads+1)*width; i++ {
			win[i] = first(stamps, win[2*i], win[2*i+1])
		}
	}
	win[1] = first(stamps, win[aheads], win[others])
}
