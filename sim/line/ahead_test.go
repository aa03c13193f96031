package line

import (
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"pascaline/scenarios"
	"pascaline/sim/measure"
)

// bothWays runs one replication with an entry of the calendar for each step, if always with a look around for each unit that comes too, and
// with who can go ahead doing so. It gives what differs, and how many entries going ahead saved.
func bothWays(m *Model, seed uint64, number int, always bool) (diff string, saved int64, err error) {
	var rec [2]*Record
	for i, o := range []Options{{stepwise: true, lookAlways: always}, {}} {
		o.Seed, o.Replication, o.CycleEnds = seed, number, true
		l, err := m.Line(o)
		if err != nil {
			return "", 0, err
		}
		if err := l.Run(); err != nil {
			return "", 0, err
		}
		rec[i] = l.Record(number)
	}
	saved = int64(rec[0].Fired) - int64(rec[1].Fired)
	rec[0].Fired, rec[1].Fired = 0, 0
	if reflect.DeepEqual(rec[0], rec[1]) {
		return "", saved, nil
	}
	return cmp.Diff(rec[0], rec[1], cmp.AllowUnexported(measure.Tally{})), saved, nil
}

// On the lines that have all kinds of station, breaks, stops of all clocks, people who are short and a night, going ahead changes nothing.
func TestAheadChangesNothing(t *testing.T) {
	more := []struct{ file, variant string }{
		{"../../scenarios/examples/yardstick.yaml", ""},
		{"../../scenarios/examples/toll-week.yaml", ""}, // lots: nobody goes ahead, but not every pack makes a station look around
	}
	for _, x := range append(more, lines...) {
		t.Run(x.file+" "+x.variant, func(t *testing.T) {
			m := modelOf(t, x.file, x.variant)
			for n := range 3 {
				diff, saved, err := bothWays(m, 3, n, true)
				if err != nil {
					t.Fatal(err)
				}
				if diff != "" {
					t.Fatalf("replication %d: going ahead changes the record:\n%s", n, diff)
				}
				t.Logf("%d entries saved", saved)
				if testing.Short() {
					break
				}
			}
		})
	}
}

// Nor on random valid scenarios: breaks, stops, blocked belts, wet packs, lanes, leakers, tubs.
func TestAheadOnRandomScenarios(t *testing.T) { aheadOnRandom(t, false) }

// Nor where lots come one after the other, with changeovers between them.
func TestAheadOnRandomLots(t *testing.T) { aheadOnRandom(t, true) }

func aheadOnRandom(t *testing.T, lots bool) {
	ran, ahead := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		w := &writer{t: t, lots: lots}
		src := w.scenario()
		s, faults := scenarios.ReadBytes("random.yaml", []byte(src))
		if len(faults) > 0 {
			t.Skip(faults[0].String())
		}
		m, err := New(s)
		if err != nil {
			t.Fatalf("%v\n%s", err, src)
		}
		diff, saved, err := bothWays(m, rapid.Uint64().Draw(t, "seed"), 1, false)
		if err != nil {
			t.Fatalf("%v\n%s", err, src)
		}
		if diff != "" {
			t.Fatalf("going ahead changes the record (- entry by entry, + ahead):\n%s\n%s", diff, src)
		}
		ran++
		if saved > 0 {
			ahead++
		}
	})
	t.Logf("%d ran, %d of them went ahead", ran, ahead)
}
