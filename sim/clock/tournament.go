package clock

// A stamp is the place of an entry in the order of all entries.
type stamp struct {
	key   int64
	order uint64 // of scheduling
}

func (a stamp) before(b stamp) bool { return a.key < b.key || a.key == b.key && a.order < b.order }

// tournament finds the first of all slots. Inner node i holds the winner of nodes 2i and 2i+1; leaf n+s is slot s.
// A change replays the matches of one slot: log2(n) comparisons at most, and mostly few.
type tournament struct {
	stamps []stamp // by slot; key never when not set
	slots  int     // stamps beyond these only fill the tree
	win    []int32 // win[1] is the first of all
	leaves int     // a power of two; 0 until build
}

func (t *tournament) add() Slot {
	t.stamps = append(t.stamps[:t.slots], stamp{never, 0})
	t.slots++
	t.leaves = 0
	return Slot(t.slots - 1)
}

// build plays all matches, once all slots are known.
func (t *tournament) build() {
	if t.leaves > 0 {
		return
	}
	n := 1
	for n < t.slots {
		n *= 2
	}
	for len(t.stamps) < n {
		t.stamps = append(t.stamps, stamp{never, 0})
	}
	t.leaves, t.win = n, make([]int32, 2*n)
	for i := range n {
		t.win[n+i] = int32(i)
	}
	for i := n - 1; i >= 1; i-- {
		t.win[i] = first(t.stamps, t.win[2*i], t.win[2*i+1])
	}
}

func (t *tournament) winner() int32 { return t.win[1] }

func first(stamps []stamp, a, b int32) int32 {
	x, y := &stamps[a], &stamps[b]
	if y.key < x.key || y.key == x.key && y.order < x.order {
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
	if t.leaves == 0 { // before Run
		return
	}
	win, stamps := t.win, t.stamps
	for i := uint(t.leaves+int(s)) >> 1; i >= 1; i >>= 1 {
		w := first(stamps, win[2*i], win[2*i+1])
		if win[i] == w && w != s {
			return
		}
		win[i] = w
	}
}
