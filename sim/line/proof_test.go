package line

import (
	"fmt"
	"hash/fnv"
	"reflect"
	"runtime"
	"runtime/debug"
	"testing"

	"pascaline/scenarios"
)

func modelOf(t testing.TB, file, variant string) *Model {
	t.Helper()
	s, faults, err := scenarios.Read(file, variant)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range faults {
		t.Error(f)
	}
	if len(faults) > 0 {
		t.FailNow()
	}
	m, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// trace runs one replication and gives a fingerprint of every entry of its calendar, and its record.
func trace(t testing.TB, m *Model, o Options) (uint64, *Record) {
	t.Helper()
	h := fnv.New64a()
	o.Trace = func(key int64, name string, what int) { fmt.Fprintln(h, key, name, what) }
	l, err := m.Line(o)
	if err != nil {
		t.Fatal(err)
	}
	if err := l.Run(); err != nil {
		t.Fatal(err)
	}
	return h.Sum64(), l.Record(o.Replication)
}

// lines are lines that between them have all kinds of station, breaks, stops of all clocks, people who are short, and a night.
var lines = []struct{ file, variant string }{
	{"../../scenarios/examples/plain.yaml", ""},
	{"../../scenarios/examples/small-line.yaml", ""},
	{"../../scenarios/examples/second-loading.yaml", "second station, same people"},
	{"../../testdata/lines/dryer-110-once.yaml", ""},
	{"../../testdata/hand/o11-stops.yaml", ""},
}

// With every slot a simgo event of its own the trace is the same, entry for entry, and so are the results.
func TestSlotsAgainstPureSimgo(t *testing.T) {
	for _, x := range lines {
		t.Run(x.file+" "+x.variant, func(t *testing.T) {
			m := modelOf(t, x.file, x.variant)
			for seed := range uint64(3) {
				a, ra := trace(t, m, Options{Seed: seed, Replication: 1})
				b, rb := trace(t, m, Options{Seed: seed, Replication: 1, Pure: true})
				if a != b || !reflect.DeepEqual(ra, rb) {
					t.Errorf("seed %d: slots and pure simgo differ: %d and %d entries, %d and %d packs", seed, ra.Fired, rb.Fired, ra.Packs, rb.Packs)
				}
				if testing.Short() {
					break
				}
			}
		})
	}
}

// The garbage collector cannot change a result.
func TestCollectorChangesNothing(t *testing.T) {
	m := modelOf(t, "../../scenarios/examples/plain.yaml", "")
	defer debug.SetGCPercent(debug.SetGCPercent(-1))
	a, ra := trace(t, m, Options{Seed: 5, Replication: 2})
	debug.SetGCPercent(20)
	b, rb := trace(t, m, Options{Seed: 5, Replication: 2})
	if a != b || !reflect.DeepEqual(ra, rb) {
		t.Error("results with the collector off and busy differ")
	}
}

// A thousand replications leave no goroutine and no memory behind.
func TestNothingIsLeftBehind(t *testing.T) {
	m := modelOf(t, "../../testdata/hand/o8-first.yaml", "")
	run := func(n int) {
		for i := range n {
			l, err := m.Line(Options{Seed: 1, Replication: i})
			if err != nil {
				t.Fatal(err)
			}
			if err := l.Run(); err != nil {
				t.Fatal(err)
			}
		}
	}
	heap := func() uint64 {
		runtime.GC()
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	run(50)
	goroutines, before := runtime.NumGoroutine(), heap()
	run(1000)
	if n := runtime.NumGoroutine(); n > goroutines {
		t.Errorf("%d goroutines were left behind", n-goroutines)
	}
	if after := heap(); after > before+256<<10 {
		t.Errorf("%d bytes were left behind by 1000 replications", after-before)
	}
}

// Stops that are added at the second station leave every task time of the first as it was (O11).
func TestAddedStopsLeaveOtherStreamsAlone(t *testing.T) {
	times := func(file string) (list []int64) {
		l, err := modelOf(t, file, "").Line(Options{Seed: 7, Replication: 1})
		if err != nil {
			t.Fatal(err)
		}
		defer l.cal.Close()
		d := l.stations[0].bench.job.(*passing).time[0]
		for n := range uint64(1000) {
			list = append(list, d.At(n))
		}
		return list
	}
	a, b := times("../../testdata/hand/o11.yaml"), times("../../testdata/hand/o11-stops.yaml")
	if !reflect.DeepEqual(a, b) {
		t.Error("task times of the labeller differ once the checkweigher has stops")
	}
	if reflect.DeepEqual(a[:500], a[500:]) {
		t.Error("draws do not depend on the number of the pack")
	}
}
