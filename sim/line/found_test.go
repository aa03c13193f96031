package line

import (
	"fmt"
	"slices"
	"testing"

	"pascaline/scenarios"
)

// found are scenarios of a few lines that random ones once showed to go wrong.
var found = []struct{ name, text string }{
	{"a leaker by chance beside wet packs by count is foreseen", `
lots: [{lot: L0, quantity: 500 packs}]
tip: {per_pack: 1 s}
dryer: {travel: 10 s, rate: 30/min, places_before: 4, leakers: 5 %, wet: {share: 5 %, drawn: by count, then: wiped by hand, takes: 3 s}}
packing: {time: 6 s}`},
	{"a wet pack by chance beside leakers by count is foreseen", `
tip: {per_pack: 1 s}
dryer: {travel: 10 s, rate: 30/min, places_before: 4, leakers: {share: 5 %, drawn: by count}, wet: {share: 5 %, then: wiped by hand, takes: 3 s}}
packing: {time: 6 s}`},
	{"a tub is not fed back to a place that is promised", `
checkweigher: {rate: 30/min, places_before: 1, blocking: before}
table: {places: 1, tubs: {tubs: 1, packs_per_tub: 1, fed_back_below: 1, takes: 20 s}}
packing: {time: {mean: 6 s, as: exponential}}`},
	{"of several heads only so many are promised a place in a tub as there are", `
checkweigher: {rate: 30/min, heads: 3, blocking: before}
table: {places: 1, tubs: {tubs: 1, packs_per_tub: 1, fed_back_below: 1, takes: 20 s}}
packing: {time: {mean: 6 s, as: exponential}}`},
	{"of a lot that stands on the table with all its packs nothing more comes in", `
lots: [{lot: L0, quantity: 2 packs}, {lot: L1, quantity: 5 packs}]
shaker: {travel: 10 s, rate: 30/min, places_before: 4}
table: {places: 10}
packing: {time: 6 s}
run: {starts: {lot: L0, left: 0, table: 2}}`},
	{"a load is not kept for a lot that may not come into the vessel yet", `
lots: [{lot: L0, quantity: 5 packs}, {lot: L1, quantity: 60 packs}]
kept_apart: [vessel]
vessel: {carriers_per_load: 2, mixed_loads: same hold and pressure}`},
	{"nor for one that waits for a changeover of the whole line", `
lots: [{lot: L0, quantity: 5 packs}, {lot: L1, quantity: 60 packs}]
changeovers: [{station: line, to: any, takes: 10 min}]
vessel: {carriers_per_load: 2, mixed_loads: same hold and pressure}`},
	{"a load of two lots leaves the second of two vessels in one", `
lots: [{lot: L0, quantity: 5 packs}, {lot: L1, quantity: 5 packs}]
infeed: {places: 4}
vessel: {vessels: 2, carriers_per_load: 2, unloading: push_through, phases: {transfer: 25 s}, mixed_loads: same hold and pressure}`},
	{"what stands on the table has been before the dryer, where tubs keep lots apart", `
lots: [{lot: L0, quantity: 28 packs}, {lot: L1, quantity: 9 packs}]
shaker: {travel: 1 s, rate: 14/min}
dryer: {lanes: 2, travel: 22 s, rate: 10/min, places: 1, places_before: 1, tubs: {tubs: 1, packs_per_tub: 1, fed_back_below: 1, takes: 20 s}}
table: {places: 4}
packing: {time: 6 s}
run: {starts: {lot: L0, table: 1}}`},
	{"packs of the next lot whose places on the table are promised let a tub be fed back", `
lots: [{lot: L0, quantity: 9 packs}, {lot: L1, quantity: 9 packs}]
kept_apart: [table]
checkweigher: {rate: 30/min, heads: 2, blocking: before}
table: {places: 1, tubs: {tubs: 1, packs_per_tub: 1, fed_back_below: 1, takes: 20 s}}
packing: {time: {mean: 6 s, as: exponential}}`},
	{"tubs at a table from which nobody takes", `
lots: [{lot: L0, quantity: 9 packs}, {lot: L1, quantity: 9 packs}]
dryer: {lanes: 2, travel: 1 s, rate: 10/min}
table: {places: 1, tubs: {tubs: 1, packs_per_tub: 1, fed_back_below: 1, takes: 20 s}}`},
	{"a finished load is not kept for a lot that is in the other vessel already", `
lots: [{lot: L0, quantity: 1 packs}, {lot: L1, quantity: 1 packs}, {lot: L2, quantity: 1 packs, group: b}]
changeovers: [{station: vessel, to: other group, takes: 3 min}]
infeed: {places: 1}
vessel: {vessels: 2, unloading: push_through, phases: {transfer: 25 s}, mixed_loads: same hold and pressure}`},
	{"the last load of a lot is drawn out when the other vessel has given its part of the lot", `
lots: [{lot: L0, quantity: 30 packs}, {lot: L1, quantity: 120 packs}, {lot: L2, quantity: 30 packs}]
loading: {hand_time: {mean: 5 s, as: constant, per: carrier}, swap: 5 s}
infeed: {places: 2}
vessel: {vessels: 2, carriers_per_load: 2, unloading: push_through, phases: {transfer: 25 s, come_up: {mean: 60 s, as: exponential}}, mixed_loads: same hold and pressure}
drain: {places: 2}
tip: {stations: 2, swap: 0 s, per_pack: 0.1 s}
table: {places: 30}
packing: {time: 6 s}`},
	{"a stop that lasts beyond its next stated time", `
shaker: {travel: 10 s, rate: 30/min}
stops: [{station: shaker, name: jam, at: [5 min, 6 min], takes: 20 min}]`},
}

// Each ends with its balances whole and its lots finished, and is the same both ways.
func TestWhatRandomScenariosFound(t *testing.T) {
	for _, c := range found {
		t.Run(c.name, func(t *testing.T) {
			m := modelFrom(t, c.text)
			for n := range 5 {
				if l := runOf(t, m, n); l.lots != nil && !(l.allDone() && l.onLine() == 0) {
					t.Fatalf("replication %d: lots are not finished: %+v", n, l.Record(n).Lots)
				}
				if diff, _, err := bothWays(m, 1, n, false); err != nil || diff != "" {
					t.Fatalf("replication %d: %v\n%s", n, err, diff)
				}
			}
		})
	}
}

// A place on the table that is promised to a pack of the next lot does not let that in early, where lots are kept apart.
func TestPromisedPlaceKeepsLotsApart(t *testing.T) {
	l := runOf(t, modelFrom(t, `
lots: [{lot: L0, quantity: 1 packs}, {lot: L1, quantity: 1 packs}, {lot: L2, quantity: 1 packs}, {lot: L3, quantity: 1 packs}]
kept_apart: [table]
shaker: {travel: 0 s, rate: 20/min}
checkweigher: {rate: 20/min, heads: 2, blocking: before}
table: {places: 2}
packing: {time: 6 s}`), 1)
	for _, turn := range l.lots.turns {
		for i := range 3 {
			if before, next := l.lots.list[i].legs[turn.no], l.lots.list[i+1].legs[turn.no]; turn.apart && next.first < before.last {
				t.Errorf("%s: lot %d came in at %d, the one before left at %d", turn.name, i+1, next.first, before.last)
			}
		}
	}
}

// Of a lot that is ready later only what does not stand on the line yet comes into the store, which is empty at the end.
func TestStoreIsEmptyAtTheEnd(t *testing.T) {
	l := runOf(t, modelFrom(t, `
lots: [{lot: L0, quantity: 5 packs, ready: 10 min}, {lot: L1, quantity: 5 packs}]
shaker: {travel: 10 s, rate: 30/min, places_before: 4}
table: {places: 10}
packing: {time: 6 s}
run: {starts: {lot: L0, table: 2}}`), 1)
	if n := l.stretchs[0].feed.level.Value(); n != 0 {
		t.Errorf("%d packs in the store when all are finished", n)
	}
}

// Wet packs with too few places to wait for another round can fill the belt so that nothing moves on: that is said.
func TestWedgedBeltIsSaid(t *testing.T) {
	for places, want := range map[int]bool{1: true, 1000: false} {
		l := runOf(t, modelFrom(t, fmt.Sprintf(`
dryer: {travel: 20 s, rate: 60/min, places_before: 10, wet: {share: 20 %%, then: sent round once, takes: 5 s, places: %d}}
run: {one_replication: 2 h}`, places)), 1)
		is := slices.ContainsFunc(l.warnings, func(w Warning) bool { return w.Code == "wet packs wait for each other" })
		if is != want {
			t.Errorf("%d places: said %v, want %v; %d packs finished", places, is, want, l.finished)
		}
	}
}

// Whoever tips stays until the last pack is handed on. With one packer for both, the tip fills the table and nobody packs: a run of whole days
// says so, once for a replication; with two, one packs, and at the end of a shift nothing of it is said.
func TestPeopleWhoAreHeldAtTheTipAreTold(t *testing.T) {
	for heads, want := range map[int]int{1: 1, 2: 0} {
		l := runOf(t, modelFrom(t, fmt.Sprintf(`
tip: {fed: {every: 120 s}, swap: 10 s, per_pack: 1 s, by: 1 packer}
table: {places: 24 packs}
packing: {benches: 1, crew: 1 packer, time: 20 s}
people: {packers: {serve: [tip, packing]}}
roster: {shifts: {day: {hours: 06:00 to 14:00, people: {packers: %d}}}}
run: {one_replication: day, starts: Mon 06:00}`, heads)), 1)
		said := 0
		for _, w := range l.warnings {
			if w.Code == "people wait for each other" {
				said++
			}
		}
		if said != want {
			t.Errorf("%d heads: said %d times, want %d; %d packs finished", heads, said, want, l.finished)
		}
	}
}

// modelFrom is the model of a scenario of a few lines, with 30 packs to a carrier.
func modelFrom(t *testing.T, text string) *Model {
	t.Helper()
	s, faults := scenarios.ReadBytes("found.yaml", []byte("scenario: found\nproduct: {packs_per_carrier: 30}"+text))
	if len(faults) > 0 {
		t.Fatal(faults[0])
	}
	m, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// runOf is one replication that ended with its balances whole.
func runOf(t *testing.T, m *Model, number int) *Line {
	t.Helper()
	l, err := m.Line(Options{Seed: 1, Replication: number})
	if err != nil {
		t.Fatal(err)
	}
	if err := l.Run(); err != nil {
		t.Fatal(err)
	}
	return l
}
