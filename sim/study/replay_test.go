package study_test

import (
	"reflect"
	"testing"

	"pascaline/sim/line"
	"pascaline/sim/result"
	"pascaline/sim/study"
)

// last is what a track of a replay ends with; -1 where there is none.
func last(t *testing.T, p *result.Replay, kind, piece string) int64 {
	t.Helper()
	for i := range p.Tracks {
		if x := &p.Tracks[i]; x.Kind == kind && x.Piece == piece {
			v, err := x.Values(p.Frames)
			if err != nil {
				t.Fatal(err)
			}
			return int64(v[len(v)-1])
		}
	}
	return -1
}

// A replay is the very replication that was counted: it ends with the same counts, and to be filmed changes nothing.
func TestReplaysAreWhatWasCounted(t *testing.T) {
	for _, name := range []string{"plain", "small-line", "toll-week"} {
		m := model(t, "scenarios/examples/"+name+".yaml")
		r, err := study.Run(t.Context(), m, study.Options{Seed: 3, Replications: 5, Workers: 2, Replays: true})
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Replays) != 3 || r.Replays[0].Which != "typical" || r.Replays[1].Which != "worst" || r.Replays[2].Which != "best" {
			t.Fatalf("%s: %d replays", name, len(r.Replays))
		}
		rates := map[string]float64{}
		for i := range r.Replays {
			p := &r.Replays[i]
			was := r.PerReplication[p.Replication-1]
			rates[p.Which] = was.PacksPerH
			if packs := last(t, p, "finished", "packs"); packs != was.Packs {
				t.Errorf("%s, %s: %d packs in the replay, %d counted", name, p.Which, packs, was.Packs)
			}
			if cases := last(t, p, "finished", "cases"); was.Cases > 0 && cases != was.Cases {
				t.Errorf("%s, %s: %d cases in the replay, %d counted", name, p.Which, cases, was.Cases)
			}
			if cycles := last(t, p, "cycles", ""); was.Cycles > 0 && cycles != was.Cycles {
				t.Errorf("%s, %s: %d cycles in the replay, %d counted", name, p.Which, cycles, was.Cycles)
			}
			checkTracks(t, p)
		}
		for _, x := range r.PerReplication {
			if x.PacksPerH < rates["worst"] || x.PacksPerH > rates["best"] {
				t.Errorf("%s: replication %d is outside worst and best", name, x.Number)
			}
		}
		checkUnchanged(t, m)
	}
}

// checkTracks holds every value to what it can be.
func checkTracks(t *testing.T, p *result.Replay) {
	t.Helper()
	for i := range p.Tracks {
		x := &p.Tracks[i]
		values, err := x.Values(p.Frames)
		if err != nil {
			t.Fatal(err)
		}
		most, moved := int32(x.Places), false
		if x.Kind == "state" {
			most = int32(len(p.States) - 1)
		}
		if x.Kind == "inside" && x.Piece == "carriers" {
			most *= 2 // a stroke carries the new load in and the old one out
		}
		for _, v := range values {
			if v < 0 || most > 0 && v > most {
				t.Fatalf("%s %s: %d of %d", x.Kind, x.Name, v, most)
			}
			moved = moved || v != values[0]
		}
		if x.Kind == "state" && !moved {
			t.Errorf("%s is never in another state", x.Name)
		}
	}
}

// checkUnchanged runs a replication with a film and without: every figure of the record must be the same, whether or not belts go ahead between frames.
func checkUnchanged(t *testing.T, m *line.Model) {
	t.Helper()
	var records [2]*line.Record
	for i, o := range []line.Options{{Seed: 3, Replication: 2}, {Seed: 3, Replication: 2, Film: 7_000_000}} {
		l, err := m.Line(o)
		if err != nil {
			t.Fatal(err)
		}
		if err := l.Run(); err != nil {
			t.Fatal(err)
		}
		records[i] = l.Record(2)
		records[i].Fired = 0 // frames are entries of the calendar
		if f := l.Film(); (f == nil) == (i == 1) {
			t.Fatal("filmed when it was not asked for, or not when it was")
		}
	}
	if !reflect.DeepEqual(records[0], records[1]) {
		t.Error("a film changes the run")
	}
}

func TestOneReplicationHasOneReplay(t *testing.T) {
	r, err := study.Run(t.Context(), model(t, "scenarios/examples/small-line.yaml"), study.Options{Seed: 3, Replications: 1, Workers: 1, Replays: true})
	if err != nil || len(r.Replays) != 1 || r.Replays[0].Which != "only" {
		t.Errorf("%v, %d replays", err, len(r.Replays))
	}
	if r, err = study.Run(t.Context(), model(t, "scenarios/examples/small-line.yaml"), study.Options{Seed: 3, Replications: 1, Workers: 1}); err != nil || r.Replays != nil {
		t.Errorf("%v, %d replays that nobody asked for", err, len(r.Replays))
	}
}

func TestRunsAreReadBack(t *testing.T) {
	for _, c := range []struct {
		values []int32
		sum    bool
		runs   string
	}{{[]int32{3, 3, 3, 0, 1}, false, "3*3 0 1"}, {[]int32{0, 2, 4, 4}, true, "0 2*2 0"}, {[]int32{7}, true, "7"}} {
		x := result.Track{Name: "x", Sum: c.sum, Runs: result.Runs(c.values, c.sum)}
		back, err := x.Values(len(c.values))
		if x.Runs != c.runs || err != nil || len(back) != len(c.values) || back[len(back)-1] != c.values[len(c.values)-1] {
			t.Errorf("%v: %q, %v, %v", c.values, x.Runs, back, err)
		}
	}
	for _, bad := range []string{"", "1*9", "1*0 2 3", "x 1 2", "1*2", "1 2 3 4", "1*-1 2 3 4"} {
		x := result.Track{Name: "x", Runs: bad}
		if v, err := x.Values(3); err == nil {
			t.Errorf("%q is read as %v", bad, v)
		}
	}
}
