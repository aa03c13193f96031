package line

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"pascaline/scenarios"
)

// balanced makes a line check its balances before every one of the first entries of its calendar, and now and then afterwards. The
// first that does not hold ends the run as it would at the end.
func balanced(l *Line) {
	entries := 0
	l.cal.Trace(func(int64, string, int) {
		entries++
		if l.err == nil && (entries < 5000 || entries%64 == 0) {
			for _, p := range l.pools {
				if p != nil {
					p.settle()
				}
			}
			if l.err = l.balance(); l.err != nil {
				l.cal.Halt()
			}
		}
	})
}

// wholeRun lets a random valid scenario run to its end: all balances hold at every event, looking at them changes nothing, and pure
// simgo agrees on every entry.
func wholeRun(t *rapid.T) {
	w := &writer{t: t}
	src := w.scenario()
	s, faults := scenarios.ReadBytes("random.yaml", []byte(src))
	if len(faults) > 0 {
		t.Skip(faults[0].String())
	}
	m, err := New(s)
	if err != nil {
		t.Fatalf("%v\n%s", err, src)
	}
	seed := rapid.Uint64().Draw(t, "seed")
	run := func(pure, watched bool) *Record {
		l, err := m.Line(Options{Seed: seed, Replication: 1, Pure: pure})
		if err != nil {
			t.Fatalf("%v\n%s", err, src)
		}
		if watched {
			balanced(l)
		}
		if err := l.Run(); err != nil {
			t.Fatalf("pure %v, watched %v: %v\n%s", pure, watched, err, src)
		}
		return l.Record(1)
	}
	watched := run(false, true)
	if seed%4 > 0 {
		return
	}
	ahead := run(false, false)
	ahead.Fired = watched.Fired // who is watched does not go ahead
	if !reflect.DeepEqual(watched, ahead) {
		t.Fatalf("looking at the balances, or going ahead, changes the record\n%s", src)
	}
	if !reflect.DeepEqual(watched, run(true, false)) {
		t.Fatalf("slots and pure simgo give different records\n%s", src)
	}
}

func TestRandomScenarios(t *testing.T) { rapid.Check(t, wholeRun) }

// FuzzWholeRun looks for scenarios among those that the writer can write: go test ./sim/line -fuzz FuzzWholeRun.
func FuzzWholeRun(f *testing.F) { f.Fuzz(rapid.MakeFuzz(wholeRun)) }
