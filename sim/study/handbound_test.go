package study_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"pascaline/scenarios"
	"pascaline/sim/line"
	"pascaline/sim/study"
)

// stretchFrom is a line with fixed times that begins with one of its stations, over a roster or none.
func stretchFrom(t *rapid.T) string {
	pick := func(what string, of ...string) string { return rapid.SampledFrom(of).Draw(t, what) }
	stations := []string{
		"loading: {stations: 2, hand_time: {mean: 40 s, as: constant, per: carrier}, swap: 10 s}",
		"infeed: {places: 2}",
		"vessel: {carriers_per_load: 1, unloading: " + pick("unloading", "separate", "push_through, phases: {transfer: 20 s}") + "}",
		"drain: {places: 2, time: 20 s}",
		"tip: {per_pack: 0.5 s}",
		"shaker: {travel: 20 s, rate: 60/min, places_before: 20}",
		"dryer: {travel: 25 s, rate: 50/min, lanes: " + pick("lanes", "1", "2") + ", places_before: 20}",
		"table: {places: 50}",
		"packing: {benches: 2, crew: 1 packer, time: {mean: 30 s, as: constant, per: case}}",
	}
	from := rapid.IntRange(0, len(stations)-1).Draw(t, "from")
	switch {
	case from == 2 && strings.Contains(stations[2], "push_through"):
		from = 1 // the load that pushes stands at the infeed
	case from == 7:
		from = 8 // nothing is pushed onto a table
	}
	text := "scenario: bound\nproduct: {packs_per_carrier: 60, packs_per_case: 12}\n" + strings.Join(stations[from:], "\n") + "\n"
	if every := rapid.IntRange(0, 30).Draw(t, "every"); every > 0 {
		text += fmt.Sprintf("supply: {every: {mean: %d s, as: constant}}\n", every)
	}
	if pick("roster", "none", "one", "two") == "none" {
		return text + "people: {packers: {heads: 2}}\nrun: {one_replication: 3 days, replications: 1}\n"
	}
	text += "roster:\n  overnight: " + pick("overnight", "line run empty", "packs stay on the line") + "\n  shifts:\n"
	here := pick("heads are said", "by the pool", "by the shift")
	heads := ""
	if here == "by the shift" {
		heads = ", people: {packers: 2}"
	}
	text += "    early: {hours: 06:00 to 14:00" + heads + pick("end", "", ", wash_down: 20 min", ", last_carrier: 30 min") + "}\n"
	if rapid.Bool().Draw(t, "late") {
		text += "    late: {hours: 14:00 to 22:00" + heads + "}\n"
	}
	if here == "by the pool" {
		text += "people: {packers: {heads: 2}}\n"
	} else {
		text += "people: {packers: {}}\n"
	}
	return text + "run: {one_replication: week, replications: 1}\n"
}

// No line makes more in an hour of its roster than its slowest station could by hand, wherever it begins and whatever its roster: nothing is made
// outside the roster but what was on the line, which is less than 3 % of a shift here. And with work for all of the time it makes nearly that.
func TestHandCheckBoundsTheRate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := stretchFrom(t)
		s, faults := scenarios.ReadBytes("bound.yaml", []byte(text))
		if len(faults) > 0 {
			t.Fatalf("%s\n%s", faults[0].Error(), text)
		}
		m, err := line.New(s)
		if err != nil {
			t.Fatal(err)
		}
		r, err := study.Run(context.Background(), m, study.Options{Seed: 1, Workers: 1, Replications: 1})
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		if h := r.HandCheck; h.Share > 1.03 || h.Share < 0.6 {
			t.Fatalf("%.3f of what %s allows, %.0f packs/h\n%s", h.Share, h.By, h.BoundPacksPerH, text)
		}
	})
}
