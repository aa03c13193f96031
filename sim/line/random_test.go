package line

import (
	"fmt"
	"strings"

	"pgregory.net/rapid"
)

// writer writes a random valid scenario as a user would: as text.
type writer struct {
	t    *rapid.T
	b    strings.Builder
	lots bool // a list of lots comes in

	round bool     // times and rates that make much happen at one tick
	pumps bool     // the vessel's pumps are described
	here  []string // stations written so far
}

func (w *writer) say(format string, a ...any) { fmt.Fprintf(&w.b, format+"\n", a...) }

// station writes one station of the line.
func (w *writer) station(name, format string, a ...any) {
	w.here = append(w.here, name)
	w.say(name+": {"+format+"}", a...)
}

func (w *writer) n(what string, from, to int) int { return rapid.IntRange(from, to).Draw(w.t, what) }

func (w *writer) one(what string, words ...string) string {
	return rapid.SampledFrom(words).Draw(w.t, what)
}

func (w *writer) yes(what string) bool { return rapid.Bool().Draw(w.t, what) }

// some is one of the words, or as often as all of them together nothing.
func (w *writer) some(what string, words ...string) string {
	if !w.yes(what) {
		return ""
	}
	return w.one(what, words...)
}

// time is a time around s seconds, of some shape, without braces.
func (w *writer) time(what string, s int) string {
	if w.round {
		return fmt.Sprintf("mean: %d s, as: constant", s)
	}
	switch w.n(what+" shape", 0, 4) {
	case 0:
		return fmt.Sprintf("mean: %d s, as: exponential", s)
	case 1:
		return fmt.Sprintf("low: %d s, high: %d s", s/2, s*2)
	case 2:
		return fmt.Sprintf("low: %d s, likely: %d s, high: %d s", s/2, s, s*3)
	case 3:
		return fmt.Sprintf("mean: %d s, sd: %d s", s, max(1, s/2))
	}
	return fmt.Sprintf("mean: %d s, as: constant", s)
}

// rate is packs a minute.
func (w *writer) rate(what string, from, to int) int {
	if w.round {
		return rapid.SampledFrom([]int{20, 30, 60, 120}).Draw(w.t, what)
	}
	return w.n(what, from, to)
}

// scenario writes a whole line or a stretch of it.
func (w *writer) scenario() string {
	perCase, perCarrier := w.n("per case", 1, 8), w.n("per carrier", 1, 30)
	w.round = w.n("round", 0, 3) == 0
	from := w.one("from", "loading", "loading", "loading", "tip", "shaker")
	w.say("scenario: random")
	last := w.one("last case", "closed part full", "left open")
	if w.lots {
		last = "closed part full"
	}
	w.say("product: {packs_per_carrier: %d, packs_per_case: %d, hold: %d s, last_case: %s}", perCarrier, perCase, w.n("hold", 1, 200), last)
	if !w.lots {
		w.supply()
	}
	if from == "loading" {
		w.carriers()
	}
	if from != "shaker" {
		w.tip()
	}
	w.belts(!w.lots && w.n("two stretches", 0, 5) == 0)
	w.packing(perCase)
	if w.lots {
		w.list(perCase)
	}
	w.people()
	w.stops()
	return w.b.String()
}

func (w *writer) supply() {
	switch w.n("supply", 0, 4) {
	case 0:
		w.say("supply: %d", w.n("quantity", 1, 500))
	case 1:
		w.say("supply: {every: {mean: %d s, as: exponential}, batch: %d}", w.n("every", 1, 30), w.n("batch", 1, 12))
	case 2:
		w.say("supply: {every: {mean: %d s, as: constant}, batch: %d, quantity: %d}", w.n("every", 1, 30), w.n("batch", 1, 12), w.n("quantity", 1, 500))
	case 3:
		w.say("supply: {timetable: [{at: %d min, quantity: %d}, {at: %d min, quantity: %d}]}", w.n("first", 0, 20), w.n("quantity", 1, 200), w.n("second", 21, 100), w.n("quantity", 1, 200))
	}
}

// carriers writes the line from loading to the drain.
func (w *writer) carriers() {
	load, push, vessels := w.n("load", 1, 4), w.yes("push through"), w.n("vessels", 1, 2)
	owned := (vessels+1)*load + w.n("more carriers", 0, 6)
	w.station("loading", "stations: %d, crew: %s, hand_time: {%s, per: %s}, swap: {%s, by: %s}, blocking: %s", w.n("loading", 1, 3), w.one("crew", "1 hand", "2 hands", "1 to 3 hands"),
		w.time("hand", 2), w.one("per", "pack", "pack and person", "carrier"), w.time("swap", 10), w.one("swap by", "crew", "machine"), w.one("blocking", "after", "before"))
	if w.yes("carriers") {
		w.say("carriers: {owned: %d, return: %d s}", owned, w.n("return", 0, 60))
	}
	w.station("infeed", "places: %d", load+w.n("infeed", 0, 3))
	w.vessel(vessels, load, push)
	w.station("drain", "places: %d, time: %d s", load+w.n("drain", 0, 3), w.n("drain time", 0, 30))
}

func (w *writer) vessel(vessels, load int, push bool) {
	w.here = append(w.here, "vessel")
	how, in := "separate", "transfer_in: 20 s, transfer_out: 15 s"
	if push {
		how, in = "push_through", "transfer: 25 s"
	}
	w.say("vessel:\n  vessels: %d\n  carriers_per_load: %d\n  unloading: %s", vessels, load, how)
	w.say("  phases: {%s, prefill: {%s}, come_up: {%s}, drain: 10 s}", in, w.time("prefill", 20), w.time("come-up", 60))
	if w.yes("pumps") {
		w.say("  pumps: {intensifiers: 3, serve: %s}", w.one("serve", "each vessel has its own", "one vessel at a time", "all vessels at once"))
		w.pumps = true
	}
	if w.lots && w.yes("mixed") {
		w.say("  mixed_loads: %s", w.one("mixed loads", "never", "same hold and pressure"))
	}
	if w.yes("part load") {
		end := w.one("at end", "taken", "left")
		if w.lots {
			end = "taken"
		}
		w.say("  part_load: {after: %d s, at_end: %s}", w.n("after", 1, 900), end)
	}
	if w.yes("missed") {
		w.say("  pressure_missed: {chance: %d %%, then: %s, at_most: %d}", w.n("missed %", 1, 40), w.one("then", "repeat from prefill", "set aside"), w.n("at most", 1, 3))
	}
	if push && w.yes("drawn out") {
		w.say("  finished_load: {takes: 2 min, by: 1 hand}")
	}
	if w.yes("started") {
		w.say("  started: {by: 1 hand, takes: 20 s}")
	}
}

// tip writes one tip or two, with a pack after each gap.
func (w *writer) tip() {
	gap := fmt.Sprintf("0.%d s", w.n("gap", 0, 9))
	switch w.n("gap shape", 0, 3) {
	case 0:
		gap = fmt.Sprintf("%d s", w.n("long gap", 1, 4))
	case 1:
		gap = fmt.Sprintf("{mean: 0.%d s, as: exponential}", w.n("gap", 1, 9))
	}
	tips := 1
	if w.n("tips", 0, 3) == 0 {
		tips = 2
	}
	w.station("tip", "by: %s, swap: %d s, per_pack: %s, stations: %d, blocking: %s", w.one("tip by", "machine", "1 hand"), w.n("tip swap", 0, 30), gap, tips, w.one("tip blocking", "after", "after", "before"))
}
