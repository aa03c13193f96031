package study_test

import (
	"testing"

	"pascaline/sim/line"
	"pascaline/sim/measure"
)

// The hand cases O1 to O8 and O14: small cases of our own with fixed times, each worked out by hand (derivations in testdata/hand/README.md).
// Counts and times are exact.

type want struct {
	file, what string
	got        func(*line.Record) float64
	want       float64
}

func finished(r *line.Record) float64 { return float64(r.Packs) }
func cases(r *line.Record) float64    { return float64(r.Cases) }
func setAside(r *line.Record) float64 { return float64(r.Aside) }
func onLine(r *line.Record) float64   { return float64(r.OnLine) }
func stops(r *line.Record) float64    { return float64(r.Stops[0].Times) }
func down(r *line.Record) float64     { return float64(r.Stops[0].Down) / 1e6 }
func carriers(r *line.Record) float64 { return float64(r.Carriers) }
func cycleEnd(i int) func(*line.Record) float64 {
	return func(r *line.Record) float64 { return float64(r.Vessel.Ends[i]) / 1e6 }
}

func state(station string, s measure.State) func(*line.Record) float64 {
	return func(r *line.Record) float64 { return inState(r, station, s) }
}

func ended(station string) func(*line.Record) float64 {
	return func(r *line.Record) float64 {
		for i := range r.Stations {
			if r.Stations[i].Name == station {
				return float64(r.Stations[i].Ended)
			}
		}
		return -1
	}
}

// working is the minutes in which the labeller worked.
func working(r *line.Record) float64 { return state("labeller", measure.Processing)(r) / 60 }

// lost is the time a station worked for nothing, in seconds.
func lost(r *line.Record) float64 { return float64(r.Stations[0].Lost) / 1e6 }

var handCases = []want{
	{"o1", "stops by the running clock", stops, 9},
	{"o1", "time down", down, 1080},
	{"o1", "packs finished", finished, 205},
	{"o1", "availability in % to 0.05", func(r *line.Record) float64 { return round1(100 * (1 - down(r)/12310)) }, 91.2},
	{"o1-calendar", "stops by the calendar, chosen on purpose", stops, 16},
	{"o1-calendar", "time down", down, 1920},
	{"o1-calendar", "packs finished", finished, 205},

	{"o2-continue", "good", finished, 1},
	{"o2-continue", "set aside", setAside, 0},
	{"o2-continue", "running time", state("labeller", measure.Processing), 165},
	{"o2-repeat", "good", finished, 1},
	{"o2-repeat", "set aside", setAside, 0},
	{"o2-repeat", "running time", state("labeller", measure.Processing), 165},
	{"o2-repeat", "processing that made nothing is seen", lost, 60},
	{"o2-set-aside", "good", finished, 1},
	{"o2-set-aside", "set aside", setAside, 1},
	{"o2-set-aside", "running time", state("labeller", measure.Processing), 165},

	{"o3-after", "finished", finished, 599},
	{"o3-after", "station 1 processing", state("labeller", measure.Processing), 2403},
	{"o3-after", "station 1 blocked", state("labeller", measure.Blocked), 1198},
	{"o3-after", "station 1 starved", state("labeller", measure.Starved), 0},
	{"o3-after", "station 2 processing", state("checkweigher", measure.Processing), 3597},
	{"o3-after", "station 2 starved", state("checkweigher", measure.Starved), 4},
	{"o3-before", "finished", finished, 360},
	{"o3-before", "station 1 processing", state("labeller", measure.Processing), 1441},
	{"o3-before", "station 1 waiting for room", state("labeller", measure.Blocked), 2160},

	{"o15", "made", func(r *line.Record) float64 { return finished(r) + setAside(r) }, 660},
	{"o15", "good", finished, 640},
	{"o15", "the break leaves the base: s", state("labeller", measure.PlannedStop), 30 * 60},
	{"o15", "breakdown within the base: s", state("labeller", measure.UnderRepair), 35 * 60},
	{"o15", "changeover: s", state("labeller", measure.Changeover), 30 * 60},
	{"o15", "production time: s", state("labeller", measure.Processing), 385 * 60},
	{"o15", "availability in % to 0.05, of 450 min planned", func(r *line.Record) float64 { return round1(100 * working(r) / (480 - 30)) }, 85.6},
	{"o15", "effectiveness in % to 0.05", func(r *line.Record) float64 { return round1(100 * 0.5 * 660 / working(r)) }, 85.7},
	{"o15", "quality in % to 0.05", func(r *line.Record) float64 { return round1(100 * finished(r) / 660) }, 97.0},
	{"o15", "all three in % to 0.05", func(r *line.Record) float64 { return round1(100 * 0.5 * finished(r) / (480 - 30)) }, 71.1},

	{"o4", "carriers finished", carriers, 7},
	{"o4", "first load ends", cycleEnd(0), 380},
	{"o4", "second load ends", cycleEnd(1), 680},
	{"o4", "part load ends", cycleEnd(2), 1020},
	{"o4", "vessel processing", state("vessel", measure.Processing), 540},
	{"o4", "fill of 3 x 3 carriers in %", func(r *line.Record) float64 { return round1(100 * float64(r.Vessel.Carriers) / 9) }, 77.8},
	{"o4-full", "carriers finished without a time limit", carriers, 6},
	{"o4-full", "one carrier still waits", onLine, 1},
	{"o4-full", "and that is told", func(r *line.Record) float64 { return float64(len(r.Warnings)) }, 1},

	{"o5", "packs in", func(r *line.Record) float64 { return float64(r.In) }, 320},
	{"o5", "cases", cases, 26},
	{"o5", "packs in the open case", onLine, 8},
	{"o5-closed", "cases with the last closed part full", cases, 27},
	{"o5-closed", "packs finished", finished, 320},

	{"o6", "packs out", finished, 191},
	{"o6", "packs on the belt", onLine, 10},
	{"o6", "packs in", func(r *line.Record) float64 { return float64(r.In) }, 201},
	{"o6-eight", "packs in 10 h: 8 places in 30 s from 30 s on", finished, 9593},

	{"o7", "pack tasks", cases, 360},
	{"o7", "load tasks", ended("loading"), 630},
	{"o7", "person busy, s", func(r *line.Record) float64 { return float64(r.Pools[0].Busy) / 1e6 }, 36000},
	{"o7", "longest wait of a pack task within 40 s", func(r *line.Record) float64 { return max(40, longestWait(r)) }, 40},
	{"o7-two", "load tasks with two people", ended("loading"), 900},
	{"o7-two", "pack tasks with two people", cases, 360},
	{"o7-two", "packing busy, s", state("packing", measure.Processing), 10800},

	{"o14", "person-hours busy", func(r *line.Record) float64 { return float64(r.Pools[0].Busy) / 3600e6 }, 10},
	{"o14", "utilisation in %", func(r *line.Record) float64 {
		p := r.Pools[0]
		return round1(100 * float64(p.Busy) / float64(p.Busy+p.Free+p.Kept))
	}, 62.5},
	{"o14", "06:00 to 10:00 in %", byShift(0), 58.3},
	{"o14", "10:00 to 14:00 in %", byShift(1), 75.0},
	{"o14", "cases", cases, 20},
	{"o14", "no overtime", func(r *line.Record) float64 { return float64(r.Pools[0].Overtime) }, 0},
	{"o14-over", "a task over the end of the shift is overtime, s", func(r *line.Record) float64 { return float64(r.Pools[0].Overtime) / 1e6 }, 600},
	{"o14-over", "and not utilisation above 100 %", func(r *line.Record) float64 { return float64(r.Pools[0].Busy) / 1e6 }, 1200},
}

func round1(x float64) float64 { return float64(int(x*10+0.5)) / 10 }

func byShift(i int) func(*line.Record) float64 {
	return func(r *line.Record) float64 {
		s := r.Pools[0].ByShift[i]
		return round1(100 * float64(s.Busy) / float64(s.Busy+s.Free))
	}
}

func longestWait(r *line.Record) float64 {
	for i := range r.Stations {
		if r.Stations[i].Name == "packing" {
			return float64(r.Stations[i].Waits.Max()) / 1e6
		}
	}
	return -1
}

func TestHandCases(t *testing.T) {
	records := map[string]*line.Record{}
	for _, c := range handCases {
		t.Run(c.file+"/"+c.what, func(t *testing.T) {
			r := records[c.file]
			if r == nil {
				r = once(t, "testdata/hand/"+c.file+".yaml", line.Options{Seed: 1, Replication: 1, CycleEnds: true})
				records[c.file] = r
			}
			near(t, c.what, c.got(r), c.want, 1e-9)
		})
	}
}

// TestBreakInTask is O8: how many carriers of 25 min are done at a time, with a break from 10:00 to 10:15 and a start at 09:50, by rule.
func TestBreakInTask(t *testing.T) {
	for _, c := range []struct {
		rule    string
		minutes int
		done    int64
		why     string
	}{
		{"paused", 39, 0, "task 1 ends 10:30"}, {"paused", 41, 1, "task 1 ended 10:30"}, {"paused", 60, 1, "10:50"},
		{"paused", 64, 1, "task 2 ends 10:55"}, {"paused", 66, 2, "task 2 ended 10:55"},
		{"first", 24, 0, "task 1 ends 10:15"}, {"first", 26, 1, "task 1 ended 10:15"}, {"first", 60, 1, "10:50"},
		{"first", 64, 1, "task 2 ends 10:55 after the whole break"}, {"first", 66, 2, "task 2 ended 10:55"},
		{"short", 26, 1, "task 1 ended 10:15"}, {"short", 49, 1, "task 2 ends 10:40"}, {"short", 51, 2, "task 2 ended 10:40: no break was left"},
	} {
		t.Run(c.rule+"/"+c.why, func(t *testing.T) {
			m := model(t, "testdata/hand/o8-"+c.rule+".yaml")
			r, err := oneFor(m, c.minutes)
			if err != nil {
				t.Fatal(err)
			}
			if r.Carriers != c.done {
				t.Errorf("after %d min: %d carriers done, want %d", c.minutes, r.Carriers, c.done)
			}
		})
	}
}
