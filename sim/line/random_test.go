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

	pumps bool // the vessel's pumps are described
}

func (w *writer) say(format string, a ...any) { fmt.Fprintf(&w.b, format+"\n", a...) }

func (w *writer) n(what string, from, to int) int { return rapid.IntRange(from, to).Draw(w.t, what) }

func (w *writer) one(what string, words ...string) string {
	return rapid.SampledFrom(words).Draw(w.t, what)
}

func (w *writer) yes(what string) bool { return rapid.Bool().Draw(w.t, what) }

// time is a time around s seconds, of some shape, without braces.
func (w *writer) time(what string, s int) string {
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

// scenario writes a whole line or a stretch of it.
func (w *writer) scenario() string {
	load, perCase, perCarrier := w.n("load", 1, 4), w.n("per case", 1, 8), w.n("per carrier", 1, 30)
	push := w.yes("push through")
	vessels := w.n("vessels", 1, 2)
	owned := (vessels+1)*load + w.n("more carriers", 0, 6)
	w.say("scenario: random")
	last := w.one("last case", "closed part full", "left open")
	if w.lots {
		last = "closed part full"
	}
	w.say("product: {packs_per_carrier: %d, packs_per_case: %d, hold: %d s, last_case: %s}", perCarrier, perCase, w.n("hold", 1, 200), last)
	if w.lots {
		w.list(perCase)
	} else {
		w.supply()
	}
	w.say("loading: {stations: %d, crew: %s, hand_time: {%s, per: %s}, swap: {%s, by: %s}, blocking: %s}", w.n("loading", 1, 3), w.one("crew", "1 hand", "2 hands", "1 to 3 hands"),
		w.time("hand", 2), w.one("per", "pack", "pack and person", "carrier"), w.time("swap", 10), w.one("swap by", "crew", "machine"), w.one("blocking", "after", "before"))
	if w.yes("carriers") {
		w.say("carriers: {owned: %d, return: %d s}", owned, w.n("return", 0, 60))
	}
	w.say("infeed: {places: %d}", load+w.n("infeed", 0, 3))
	w.vessel(vessels, load, push)
	w.say("drain: {places: %d, time: %d s}", load+w.n("drain", 0, 3), w.n("drain time", 0, 30))
	w.say("tip: {by: %s, swap: %d s, per_pack: 0.%d s, stations: %d}", w.one("tip by", "machine", "1 hand"), w.n("tip swap", 0, 30), w.n("gap", 0, 9), w.n("tips", 1, 2))
	w.say("shaker: {travel: %d s, rate: %d/min, places_before: %d, leakers: %d %%, standing: %s}", w.n("travel", 0, 20), w.n("rate", 20, 200), w.n("before", 0, 20), w.n("leakers", 0, 10), w.one("standing", "packs close up", "belt stands still"))
	w.dryer()
	if w.yes("checkweigher") {
		w.say("checkweigher: {rate: %d/min, places_before: %d, rejects: %d %%, by: %s, heads: %d}", w.n("weigher rate", 20, 200), w.n("weigher before", 0, 5), w.n("rejects", 0, 9), w.one("weigher by", "machine", "1 hand"), w.n("heads", 1, 3))
	}
	w.say("table: {places: %d%s}", perCase+w.n("table", 0, 60), w.tubs())
	w.say("packing: {benches: %d, crew: %s, time: {%s, per: %s}, per_case: %d s, blocking: %s}", w.n("benches", 1, 4), w.one("packer", "machine", "1 hand", "2 packers", "1 packer"), w.time("pack", 6), w.one("pack per", "case", "pack"), w.n("per case s", 0, 9), w.one("pack blocking", "after", "before"))
	if w.yes("sealer") {
		w.say("sealer: {time: %d s, places_before: %d}", w.n("seal", 1, 20), w.n("seal before", 0, 3))
	}
	w.people()
	w.stops()
	return w.b.String()
}

func (w *writer) supply() {
	switch w.n("supply", 0, 3) {
	case 0:
		w.say("supply: %d packs", w.n("quantity", 1, 500))
	case 1:
		w.say("supply: {every: {mean: %d s, as: exponential}, batch: %d}", w.n("every", 1, 30), w.n("batch", 1, 12))
	}
}

func (w *writer) vessel(vessels, load int, push bool) {
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

func (w *writer) tubs() string {
	if !w.yes("tubs") {
		return ""
	}
	return fmt.Sprintf(", tubs: {tubs: %d, packs_per_tub: %d, fed_back_below: %d, takes: 20 s, by: %s}", w.n("tubs n", 1, 5), w.n("tub", 1, 30), w.n("below", 1, 10), w.one("tub by", "machine", "1 hand"))
}

func (w *writer) dryer() {
	wet := ""
	switch w.n("wet", 0, 3) {
	case 0:
		wet = fmt.Sprintf(", wet: {share: %d %%, then: wiped by hand, takes: 3 s, by: 1 packer%s}", w.n("wet %", 1, 30), w.one("wet places", "", ", places: 3"))
	case 1:
		wet = fmt.Sprintf(", wet: {share: %d %%, drawn: %s, then: sent round %s, takes: %d s}", w.n("wet %", 1, 30), w.one("drawn", "by count", "by chance"), w.one("rounds", "once", "every time"), w.n("round", 0, 20))
	}
	w.say("dryer: {lanes: %d, travel: %d s, rate: %d/min, places_before: %d, standing: %s%s%s}", w.n("lanes", 1, 3), w.n("dryer travel", 0, 30), w.n("dryer rate", 10, 120), w.n("dryer before", 0, 40), w.one("dryer standing", "packs close up", "belt stands still"), wet, w.tubs())
}

func (w *writer) people() {
	roster := w.yes("roster")
	heads := func(what string) int { return w.n(what, 3, 5) }
	serve := w.one("serve", "", "serve: [packing, loading, stops], ", "serve: [stops, tip, loading], ")
	if !roster {
		w.say("people:\n  hands: {%sheads: %d, walk: %d s}\n  packers: {heads: %d, shift_pace: %d %%}", serve, heads("hands"), w.n("walk", 0, 20), heads("packers"), w.n("pace", 0, 20))
		w.say("run: {%s, steps: 10 min, replications: 1}", w.length(fmt.Sprintf("%d min", w.n("minutes", 20, 200))))
		return
	}
	w.say("people:\n  hands: {%swalk: %d s}\n  packers: {shift_pace: %d %%}", serve, w.n("walk", 0, 20), w.n("pace", 0, 20))
	w.say("roster:\n  overnight: %s\n  shifts:", w.one("overnight", "line run empty", "packs stay on the line"))
	w.say("    day: {hours: 06:00 to 09:00, start_up: %d min, people: {hands: %d, packers: %d}}", w.n("start-up", 0, 20), heads("day hands"), heads("day packers"))
	w.say("    late: {hours: 09:00 to 12:00, wash_down: %d min, last_carrier: %d min, people: {hands: %d, packers: %d}}", w.n("wash", 0, 60), w.n("last", 0, 40), heads("late hands"), heads("late packers"))
	if w.yes("night") {
		w.say("    night: {hours: 22:00 to 01:00, people: {hands: 3, packers: 3}}")
	}
	w.say("  breaks:\n    - {shift: day, at: [07:30, 08:15], length: %d min, in_groups: %d, task_in_hand: \"%s\"}", w.n("break", 1, 30), w.n("groups", 1, 2), w.one("rule", "finished first", "paused", "finished first, break cut short"))
	w.say("run: {%s, steps: 10 min, replications: 1}", w.length(w.one("length", "day", "30 h", "5 h")))
}

func (w *writer) length(usual string) string {
	if w.lots {
		return "one_replication: until finished, at_most: 60 days"
	}
	return "one_replication: " + usual
}

func (w *writer) stops() {
	w.say("stops:")
	for i := range w.n("stops", 1, 4) {
		station := w.one("station", "loading", "vessel", "tip", "shaker", "dryer", "packing", "infeed")
		every := w.one("every", "every: {mean: 10 min running, as: exponential}", "every: {mean: 30 min on shift, sd: 10 min}", "every: 20 min calendar time", "every: 15 cycles", "chance: 1 in 12 cycles", "every: {mean: 90 packs, as: exponential}", "at: [5 min, 70 min]")
		work := w.one("work", "work: continue", "work: repeat", "work: set aside")
		if station == "vessel" {
			work = w.one("load", "load: repeat from prefill", "load: set aside")
			if w.pumps && w.yes("loses") {
				work = w.one("lost", "loses: 1 intensifier", "loses: 2 intensifiers")
			}
		}
		w.say("  - {station: %s, name: stop %d, %s, takes: {%s}, mended_by: %s, planned: %s, %s, stands: %s}", station, i, every, w.time("takes", 200), w.one("mended by", "machine", "1 hand", "2 packers"), w.one("planned", "yes", "no"), work, w.one("stands", "each on its own", "whole station"))
	}
}
