package line

import (
	"math/bits"

	"pascaline/sim/clock"
)

// A node is whatever may be able to go on after something changed elsewhere. Try does all that can be done now.
type node interface{ try() }

// agenda notes which nodes shall look again at this tick. They do in phase Begin, those downstream first, and pools of
// people last, so that everybody who wants people has asked before they are given out.
type agenda struct {
	l        *Line
	soon     *clock.Soon
	nodes    []node
	due      []uint64 // a bit for each node
	armed    bool
	patience int  // looks around in one go before that is called endless
	acts     acts // of the last of them
}

// agendaName is its name on the calendar.
const agendaName = "agenda"

func newAgenda(l *Line) *agenda {
	a := &agenda{l: l, patience: patience}
	a.soon = l.cal.Soon(agendaName, a, 0)
	return a
}

// add gives a node its number: the later it is added, the further downstream it is.
func (a *agenda) add(n node) int {
	a.nodes = append(a.nodes, n)
	if len(a.due)*64 < len(a.nodes) {
		a.due = append(a.due, 0)
	}
	return len(a.nodes) - 1
}

// poke asks node i to look again.
func (a *agenda) poke(i int) {
	a.due[i>>6] |= 1 << (i & 63)
	if !a.armed {
		a.armed = true
		a.soon.Set()
	}
}

// pokeAll asks every node to look again.
func (a *agenda) pokeAll() {
	for i := range a.nodes {
		a.poke(i)
	}
}

// Fire lets the nodes that are due look again until none is.
func (a *agenda) Fire(int) {
	left := a.patience
	for w := len(a.due) - 1; w >= 0; w-- {
		for a.due[w] != 0 {
			b := bits.Len64(a.due[w]) - 1
			a.due[w] &^= 1 << b
			n := a.nodes[w<<6+b]
			n.try()
			if left--; left < lookBack && !a.watch(n, left) {
				return
			}
			if w < len(a.due)-1 { // something further downstream may be due again
				w = len(a.due) - 1
			}
		}
	}
	a.armed = false
}
