package study_test

import (
	"slices"
	"testing"

	"pascaline/sim/line"
	"pascaline/sim/measure"
)

// What the rules of people, roster, vessel, belts and tubs mean, each in a small case with fixed times; the derivation stands in the file's
// first lines (testdata/hand/s-*.yaml).
var semantics = []want{
	{"s-broken-hold", "a broken hold is repeated in full: out at", cycleEnd(0), 340},
	{"s-broken-hold", "packs finished", finished, 4},
	{"s-broken-aside", "a broken hold is set aside: free at", cycleEnd(0), 130},
	{"s-broken-aside", "packs set aside", setAside, 4},
	{"s-prefill-stop", "a stop in the prefill only delays: out at", cycleEnd(0), 260},
	{"s-missed", "pressure missed twice, then set aside: free at", cycleEnd(0), 75},
	{"s-missed", "loads repeated", func(r *line.Record) float64 { return float64(r.Vessel.Repeated) }, 1},
	{"s-missed", "packs set aside", setAside, 4},
	{"s-missed-none", "no repeat allowed: free at", cycleEnd(0), 45},
	{"s-missed-none", "loads repeated", func(r *line.Record) float64 { return float64(r.Vessel.Repeated) }, 0},
	{"s-swap-stop", "carrier out by 66 s", carriers, 1},
	{"s-swap-stop", "processing", server(0, 0), 35},
	{"s-swap-stop", "person-seconds", pool(func(p line.PoolRecord) int64 { return int64(p.Busy) }), 10},
	{"s-push-through", "first load ready", cycleEnd(0), 200},
	{"s-push-through", "second load ready", cycleEnd(1), 400},
	{"s-push-through", "third load ready", cycleEnd(2), 600},
	{"s-push-through", "drawn out by hand", pool(func(p line.PoolRecord) int64 { return int64(p.Busy) }), 60},
	{"s-push-through", "carriers out", carriers, 3},
	{"s-twovessels", "last pair of loads ends", cycleEnd(9), 900},
	{"s-twovessels", "carriers", carriers, 10},
	{"s-pumps-wait", "first load ends", cycleEnd(0), 280},
	{"s-pumps-wait", "second load ends", cycleEnd(1), 380},
	{"s-pumps-wait", "wait for pumps", phaseSum("wait for pumps"), 100},
	{"s-pumps-share", "first load ends", cycleEnd(0), 330},
	{"s-pumps-share", "second load ends", cycleEnd(1), 380},
	{"s-pumps-share", "wait for pumps", phaseSum("wait for pumps"), 0},
	{"s-pumps-share", "come-ups longer by sharing", func(r *line.Record) float64 { return float64(r.Vessel.SlowShared) / 1e6 }, 100},
	{"s-pumps-lost", "come-ups longer by lost intensifiers", func(r *line.Record) float64 { return float64(r.Vessel.SlowLost) / 1e6 }, 17.5},
	{"s-pumps-lost", "first load ends", cycleEnd(0), 310},
	{"s-pumps-lost", "second load ends", cycleEnd(1), 637.5},
	{"s-pumps-lost", "the vessel stands", state("vessel", measure.UnderRepair), 0},
	{"s-pumps-planned", "first load ends", cycleEnd(0), 280},
	{"s-pumps-planned", "second load ends", cycleEnd(1), 660},
	{"s-pumps-none", "load ends", cycleEnd(0), 365},
	{"s-pumps-none", "loads repeated", func(r *line.Record) float64 { return float64(r.Vessel.Repeated) }, 1},
	{"s-pumps-none", "wait for pumps", phaseSum("wait for pumps"), 80},
	{"s-join", "station 1 fills for", server(0, 0), 50},
	{"s-join", "station 2 fills for", server(0, 1), 75},
	{"s-join", "person-seconds", pool(func(p line.PoolRecord) int64 { return int64(p.Busy) }), 200},
	{"s-join-carrier", "a time per carrier holds for the crew that begins; a second person halves it", server(0, 0), 50},
	{"s-chance", "packs with a stop after each cycle", finished, 90},
	{"s-chance", "time down", func(r *line.Record) float64 { return float64(r.Stops[0].Down) / 1e6 }, 900},
	{"s-walk", "labelled after a walk of 5 s: waits", state("labeller", measure.WaitOperator), 14},
	{"s-walk", "walking", pool(func(p line.PoolRecord) int64 { return int64(p.Walking) }), 5},
	{"s-wiped", "wiping", state("wiping", measure.Processing), 60},
	{"s-wiped", "packs finished", finished, 40},
	{"s-tubs", "a tub is fed back twice", state("tubs at table", measure.Processing), 10},
	{"s-tubs", "packs finished", finished, 10},
	{"s-groups", "packs with breaks in two groups", finished, 20},
	{"s-groups", "away", pool(func(p line.PoolRecord) int64 { return int64(p.Away) }), 1200},
	{"s-midnight", "packs in a shift over midnight", finished, 24},
	{"s-midnight", "rostered hours", func(r *line.Record) float64 { return float64(r.Rostered) / 3600e6 }, 4},
	{"s-overtime", "packs, line run empty", finished, 7},
	{"s-overtime", "overtime of the shift, s", func(r *line.Record) float64 { return float64(r.Shifts[0].Overtime) / 1e6 }, 1080},
	{"s-overtime", "packs on the line at night", onLine, 0},
	{"s-stay", "packs in two days", finished, 12},
	{"s-stay", "of the first turn, one finished after its end", func(r *line.Record) float64 { return float64(r.Shifts[0].Packs[0]) }, 6},
	{"s-stay", "loading is off at night, not blocked", state("loading", measure.Blocked), 0},
}

// phaseSum is seconds of a phase over all cycles.
func phaseSum(name string) func(*line.Record) float64 {
	return func(r *line.Record) float64 {
		return float64(r.Vessel.PhaseSum[slices.Index(line.PhaseNames(), name)]) / 1e6
	}
}

func pool(of func(line.PoolRecord) int64) func(*line.Record) float64 {
	return func(r *line.Record) float64 { return float64(of(r.Pools[0])) / 1e6 }
}

// server is the processing time of one server, in seconds.
func server(station, i int) func(*line.Record) float64 {
	return func(r *line.Record) float64 {
		return float64(r.Stations[station].Servers[i].Times[measure.Processing]) / 1e6
	}
}

func TestSemantics(t *testing.T) {
	for _, c := range semantics {
		t.Run(c.file+"/"+c.what, func(t *testing.T) {
			r := once(t, "testdata/hand/"+c.file+".yaml", line.Options{Seed: 1, Replication: 1, CycleEnds: true})
			near(t, c.what, c.got(r), c.want, 1e-9)
		})
	}
}
