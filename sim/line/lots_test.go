package line

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"pascaline/scenarios"
)

// list writes lots of up to three products, and what is between them.
func (w *writer) list(perCase int) {
	products := []string{""}
	if w.yes("several products") {
		products = []string{", product: north", ", product: south", ", product: east"}
		w.products(perCase)
	}
	w.say("lots:")
	for i := range w.n("lots", 1, 6) {
		w.say("  - {lot: L%d%s, quantity: %d packs, ready: %d min, group: %s}", i, w.one("product", products...), w.n("quantity", 1, 150), w.n("ready", 0, 300)*w.n("at once", 0, 1), w.one("group", "nuts", "milk"))
	}
	w.say("lot_order: %s", w.one("order", "as listed", "next ready lot"))
	stations := slices.DeleteFunc(slices.Clone(w.here), func(s string) bool { return s == "infeed" || s == "drain" })
	if w.yes("apart") {
		var apart []string
		for range w.n("kept apart", 1, 3) {
			if s := w.one("kept apart at", stations...); !slices.Contains(apart, s) {
				apart = append(apart, s)
			}
		}
		w.say("kept_apart: [%s]", strings.Join(apart, ", "))
	}
	if w.yes("changeovers") {
		stations = append(slices.DeleteFunc(stations, func(s string) bool { return s == "table" }), "line")
		w.say("changeovers:")
		for range w.n("changes", 1, 3) {
			w.say("  - {station: %s, from: %s, to: %s, takes: {%s}, before_the_stop: %d s, by: %s}", w.one("changed", stations...),
				w.one("from", "any", "nuts"), w.one("to", "any", "other group", "other product", "same product", "milk"), w.time("change", 200), w.n("before the stop", 0, 60), w.one("changed by", "machine", "1 hand", "2 packers"))
		}
	}
}

// products writes three that differ in what a product can have of its own.
func (w *writer) products(perCase int) {
	w.say("products:\n  north: {hold: %d s, group: nuts}", w.n("north hold", 1, 60))
	w.say("  south: {packs_per_carrier: %d, packs_per_case: %d, gas_wait: %d s%s}", w.n("south carrier", 1, 20), w.n("south case", 1, perCase), w.n("gas", 0, 20), w.ownTimes("south"))
	w.say("  east: {packs_per_case: %d%s}", w.n("east case", 1, perCase), w.ownTimes("east"))
	w.say("set_for: %s", w.one("set for", "north", "south", "nuts"))
}

// ownTimes are values of a product's own at stations that there are.
func (w *writer) ownTimes(product string) (own string) {
	if slices.Contains(w.here, "packing") {
		own += fmt.Sprintf(", packing.time: {mean: %d s, as: constant, per: case}", w.n(product+" case time", 1, 30))
	}
	if slices.Contains(w.here, "tip") && w.yes(product+" tip") {
		own += fmt.Sprintf(", tip.per_pack: 0.%d s", w.n(product+" gap", 0, 9))
	}
	for _, s := range []string{"shaker", "dryer"} {
		if slices.Contains(w.here, s) && w.yes(product+" leakers") {
			own += fmt.Sprintf(", %s.leakers.share: %d %%", s, w.n(product+" leakers of "+s, 0, 15))
		}
	}
	return own
}

// Every list of lots is treated to its last pack, whatever lies between: no lot waits for ever, each pack is finished or set aside, each in its
// own carriers, loads and cases, and lots leave every station in their order. Pure simgo agrees on every entry.
func TestRandomLots(t *testing.T) {
	ran, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		w := &writer{t: t, lots: true}
		src := w.scenario()
		s, faults := scenarios.ReadBytes("random.yaml", []byte(src))
		if len(faults) > 0 {
			refused++
			t.Skip(faults[0].String())
		}
		m, err := New(s)
		if err != nil {
			t.Fatalf("%v\n%s", err, src)
		}
		seed := rapid.Uint64().Draw(t, "seed")
		run := func(pure bool) *Line {
			l, err := m.Line(Options{Seed: seed, Replication: 1, Pure: pure})
			if err != nil {
				t.Fatalf("%v\n%s", err, src)
			}
			if err := l.Run(); err != nil {
				t.Fatalf("%v\n%s", err, src)
			}
			return l
		}
		l := run(false)
		ran++
		if !(l.allDone() && l.onLine() == 0) && !overrun(l) {
			t.Fatalf("not finished: %+v\n%s", l.Record(1).Lots, src)
		}
		whole(t, l, src)
		if seed%8 == 0 {
			a, b := l.Record(1), run(true).Record(1)
			a.Fired, b.Fired = 0, 0 // nobody goes ahead in pure simgo
			if !reflect.DeepEqual(a, b) {
				t.Fatalf("slots and pure simgo give different records\n%s", src)
			}
		}
	})
	t.Logf("%d ran, %d were refused", ran, refused)
}

// overrun tells of a scenario whose stops come faster than its work can be done, whose wet packs wait for each other, or whose people
// do: one is kept for a task that needs two, while the others stand at a station that is blocked.
func overrun(l *Line) bool {
	for _, p := range l.pools {
		if p != nil && len(p.asks) > 0 {
			return true
		}
	}
	for _, s := range l.stations {
		if s.bench != nil && s.bench.keeps && s.bench.pool != nil && s.bench.busyPlaces() > 0 {
			return true
		}
	}
	for _, w := range l.warnings {
		if w.Code == "never done" || w.Code == "wet packs wait for each other" {
			return true
		}
	}
	return false
}

// whole checks each lot's own balance, and that they left every station in their order.
func whole(t *rapid.T, l *Line, src string) {
	ls := l.lots
	for i := range ls.list {
		x := &ls.list[i]
		if l.doneAt > 0 && (x.out+x.aside != x.packs || x.done < x.begun) {
			t.Fatalf("lot %s of %d packs: %d finished, %d set aside\n%s", x.name, x.packs, x.out, x.aside, src)
		}
		for k, g := range x.legs {
			if g.past > x.packs || g.gone > g.in {
				t.Fatalf("lot %s at %s: %+v\n%s", x.name, ls.turns[k].name, g, src)
			}
		}
	}
	for _, turn := range ls.turns {
		if !turn.apart && len(turn.rules) == 0 {
			continue
		}
		for r := 1; r < len(ls.seq); r++ {
			before, next := &ls.list[ls.seq[r-1]].legs[turn.no], &ls.list[ls.seq[r]].legs[turn.no]
			apart := turn.apart || len(turn.between(r-1)) > 0
			if apart && before.gone > 0 && next.in > 0 && next.first < before.last {
				t.Fatalf("%s: the lot after came in at %d, before the last pack of the one before left at %d\n%s", turn.name, next.first, before.last, src)
			}
		}
	}
}
