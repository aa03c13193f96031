package line

import (
	"fmt"
	"strings"

	"pgregory.net/rapid"

	"pascaline/scenarios"
)

// fixedLine describes a line with fixed times, a pool of its own for each station, and no part loads: one that can be written for any unit of
// time, and with one more of anything.
type fixedLine struct {
	load, perCarrier, perCase        int
	push                             bool
	loadings, loaders, tips          int
	vessels, infeed, drain, carriers int
	lanes, dryerBefore, beltPlaces   int
	shakerBefore                     int
	labellers, labellerBefore        int
	table, benches, packers, sealer  int
	before                           bool // blocking before service
	hand, swap, prefill, hold, tip   int  // times, in units
	gap, label, pack, seal           int
	shakerTravel, dryerTravel        int // so many times their places that packs close up on whole units
	shakerGap, dryerGap, back        int
	wet, rejects, missed             int // per cent, by count or by the number of the thing
}

func drawFixed(t *rapid.T) *fixedLine {
	n := func(what string, from, to int) int { return rapid.IntRange(from, to).Draw(t, what) }
	f := &fixedLine{load: n("load", 1, 4), perCarrier: n("per carrier", 1, 12), perCase: n("per case", 1, 5), push: rapid.Bool().Draw(t, "push")}
	f.loadings, f.tips, f.vessels, f.lanes = n("loadings", 1, 3), n("tips", 1, 2), n("vessels", 1, 2), n("lanes", 1, 3)
	f.loaders, f.packers = n("loaders", 1, 4), n("packers", 1, 4)
	f.infeed, f.drain = f.load+n("infeed", 0, 3), f.load+n("drain", 0, 3)
	f.carriers = (f.vessels+1)*f.load + n("carriers", 0, 5)
	f.dryerBefore, f.beltPlaces, f.shakerBefore = n("before dryer", 0, 9), n("places", 1, 12), n("before shaker", 0, 9)
	f.labellers, f.labellerBefore = n("labellers", 1, 2), n("before labeller", 0, 4)
	f.table, f.benches, f.sealer = f.perCase+n("table", 0, 12), n("benches", 1, 3), n("before sealer", 0, 3)
	f.before = rapid.Bool().Draw(t, "before")
	f.hand, f.swap, f.prefill, f.hold, f.tip = n("hand", 1, 90), n("swap", 0, 20), n("prefill", 0, 60), n("hold", 1, 200), n("tip", 0, 30)
	f.shakerTravel, f.dryerTravel = 3*n("shaker travel", 1, 6), f.beltPlaces*n("dryer travel", 1, 4)
	f.gap, f.label, f.pack, f.seal = n("gap", 0, 3), n("label", 1, 6), n("pack", 1, 20), n("seal", 1, 12)
	f.shakerGap, f.dryerGap, f.back = n("shaker gap", 1, 3), n("dryer gap", 1, 6), n("back", 0, 40)
	return f
}

// text is the scenario where a unit of time takes so many seconds, for so many units.
func (f *fixedLine) text(unit, length int) string {
	var b strings.Builder
	say := func(format string, a ...any) { fmt.Fprintf(&b, format+"\n", a...) }
	s := func(units int) string { return fmt.Sprintf("%d s", units*unit) }
	rate := func(gap int) string { return fmt.Sprintf("%d/h", 3600/(gap*unit)) }
	unloading, transfer := "separate", fmt.Sprintf("transfer_in: %s, transfer_out: %s", s(4), s(3))
	if f.push {
		unloading, transfer = "push_through", "transfer: "+s(5)
	}
	missed := ""
	if f.missed > 0 {
		missed = fmt.Sprintf(", pressure_missed: {chance: %d %%, then: repeat from prefill}", f.missed)
	}
	blocking := map[bool]string{false: "after", true: "before"}[f.before]
	say("scenario: fixed")
	say("product: {packs_per_carrier: %d, packs_per_case: %d, hold: %s}", f.perCarrier, f.perCase, s(f.hold))
	say("loading: {stations: %d, crew: 1 loader, hand_time: {mean: %s, as: constant, per: carrier}, swap: %s, blocking: %s}", f.loadings, s(f.hand), s(f.swap), blocking)
	say("carriers: {owned: %d, return: %s}", f.carriers, s(f.back))
	say("infeed: {places: %d}", f.infeed)
	say("vessel: {vessels: %d, carriers_per_load: %d, unloading: %s, phases: {%s, prefill: %s}%s}", f.vessels, f.load, unloading, transfer, s(f.prefill), missed)
	say("drain: {places: %d, time: %s}", f.drain, s(3))
	say("tip: {stations: %d, swap: %s, per_pack: %s}", f.tips, s(f.tip), s(f.gap))
	say("shaker: {travel: %s, rate: %s, places: 3, places_before: %d, leakers: {share: %d %%, drawn: by chance}}", s(f.shakerTravel), rate(f.shakerGap), f.shakerBefore, f.rejects)
	wet := ""
	if f.wet > 0 {
		wet = fmt.Sprintf(", wet: {share: %d %%, then: sent round once, takes: %s}", f.wet, s(2))
	}
	say("dryer: {lanes: %d, travel: %s, rate: %s, places: %d, places_before: %d%s}", f.lanes, s(f.dryerTravel), rate(f.dryerGap), f.beltPlaces, f.dryerBefore, wet)
	say("labeller: {heads: %d, time: %s, places_before: %d}", f.labellers, s(f.label), f.labellerBefore)
	say("table: {places: %d}", f.table)
	say("packing: {benches: %d, crew: 1 packer, time: %s, blocking: %s}", f.benches, s(f.pack), blocking)
	say("sealer: {time: %s, places_before: %d}", s(f.seal), f.sealer)
	say("people: {loaders: {heads: %d}, packers: {heads: %d}}", f.loaders, f.packers)
	say("run: {one_replication: %s, steps: %s, replications: 1}", s(length), s(60))
	return b.String()
}

// recordOf runs a scenario that must be valid.
func recordOf(t rapid.TB, text string, seed uint64) *Record {
	s, faults := scenarios.ReadBytes("fixed.yaml", []byte(text))
	if len(faults) > 0 {
		t.Fatalf("%s\n%s", faults[0].Error(), text)
	}
	m, err := New(s)
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	l, err := m.Line(Options{Seed: seed, Replication: 1})
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	if err := l.Run(); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return l.Record(1)
}

func valid(text string) bool {
	_, faults := scenarios.ReadBytes("random.yaml", []byte(text))
	return len(faults) == 0
}
