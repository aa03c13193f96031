package line

import (
	"fmt"
	"slices"
	"strings"
)

// serve is a list of what the hands serve, some of it in another order than the line's.
func (w *writer) serve() string {
	if w.yes("no list") {
		return ""
	}
	list := []string{"stops"}
	for _, s := range []string{"packing", "loading", "tip", "dryer", "vessel"} {
		if slices.Contains(w.here, s) && w.yes("serve "+s) {
			list = append(list, s)
		}
	}
	if w.yes("stops last") {
		slices.Reverse(list)
	}
	return "serve: [" + strings.Join(list, ", ") + "], "
}

func (w *writer) people() {
	few := w.n("least heads", 1, 3) // with fewer than a task needs the scenario is refused
	heads := func(what string) int { return w.n(what, few, 5) }
	serve := w.serve()
	if !w.yes("roster") {
		w.say("people:\n  hands: {%sheads: %d, walk: %d s}\n  packers: {heads: %d, shift_pace: %d %%}", serve, heads("hands"), w.n("walk", 0, 20), heads("packers"), w.n("pace", 0, 20))
		w.run(fmt.Sprintf("%d min", w.n("minutes", 20, 200)))
		return
	}
	w.say("people:\n  hands: {%swalk: %d s}\n  packers: {shift_pace: %d %%}", serve, w.n("walk", 0, 20), w.n("pace", 0, 20))
	w.say("roster:\n  overnight: %s\n  shifts:", w.one("overnight", "line run empty", "packs stay on the line"))
	w.say("    day: {hours: 06:00 to 09:00, start_up: %d min, people: {hands: %d, packers: %d}}", w.n("start-up", 0, 20), heads("day hands"), heads("day packers"))
	w.say("    late: {hours: 09:00 to 12:00, wash_down: %d min, last_carrier: %d min, people: {hands: %d, packers: %d}}", w.n("wash", 0, 60), w.n("last", 0, 40), heads("late hands"), heads("late packers"))
	if w.yes("night") {
		w.say("    night: {hours: 22:00 to 01:00, people: {hands: 3, packers: 3}}")
	}
	rule := func() string { return w.one("rule", "finished first", "paused", "finished first, break cut short") }
	w.say("  breaks:\n    - {shift: day, at: [07:30, 08:15], length: %d min, in_groups: %d, task_in_hand: \"%s\"}", w.n("break", 1, 30), w.n("groups", 1, 2), rule())
	if w.yes("another break") {
		w.say("    - {shift: late, at: [09:50, 10:30], length: %d min, pools: [%s], task_in_hand: \"%s\"}", w.n("late break", 1, 30), w.one("whose", "hands", "packers"), rule())
	}
	w.run(w.one("length", "day", "30 h", "5 h"))
}

// run writes how long it runs, and for lots what stands on the line at the start.
func (w *writer) run(usual string) {
	switch {
	case w.lots:
		usual = "until finished, at_most: 60 days"
	case w.n("finished", 0, 5) == 0:
		usual = "until finished, at_most: 3 days"
	}
	stands := ""
	if w.lots && w.n("standing start", 0, 3) == 0 {
		stands = ", starts: {at: Mon 06:00, lot: L0"
		for _, s := range []string{"infeed", "drain", "table"} {
			if slices.Contains(w.here, s) {
				stands += fmt.Sprintf(", %s: %d", s, w.n("standing at "+s, 0, 3))
			}
		}
		stands += w.some("left", ", left: 0", ", left: 7", ", left: 100") + "}"
	}
	w.say("run: {one_replication: %s, steps: 10 min, replications: 1%s}", usual, stands)
}

func (w *writer) stops() {
	w.say("stops:")
	for i := range w.n("stops", 1, 4) {
		station := w.one("station", w.here...)
		every := w.one("every", "every: {mean: 10 min running, as: exponential}", "every: {mean: 2 min running, as: exponential}", "every: {mean: 30 min on shift, sd: 10 min}", "every: 20 min calendar time", "every: 15 min running",
			"every: 15 cycles", "chance: 1 in 12 cycles", "every: {mean: 90 packs, as: exponential}", "every: 40 packs", "at: [5 min, 70 min]")
		work := w.one("work", "work: continue", "work: repeat", "work: set aside")
		if station == "vessel" {
			work = w.one("load", "load: repeat from prefill", "load: set aside")
			if w.pumps && w.yes("loses") {
				work = w.one("lost", "loses: 1 intensifier", "loses: 2 intensifiers")
			}
		}
		if strings.HasPrefix(every, "every") {
			every += w.some("age", ", age: new")
		}
		w.say("  - {station: %s, name: stop %d, %s, takes: {%s}, mended_by: %s, planned: %s, %s, stands: %s}", station, i, every, w.time("takes", w.n("takes s", 20, 200)), w.one("mended by", "machine", "1 hand", "2 packers"), w.one("planned", "yes", "no"), work, w.one("stands", "each on its own", "whole station"))
	}
}
