package clock

import (
	"fmt"
	"go/parser"
	"go/token"
	"hash/fnv"
	"io/fs"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strconv"
	"strings"
	"testing"
	"time"
)

// play runs the random program of a seed and returns the hash of its trace.
func play(t *testing.T, seed uint64, c *Calendar, end Tick) (trace, fired uint64) {
	t.Helper()
	h := fnv.New64a()
	newPlayer(seed, c, func(format string, a ...any) { fmt.Fprintf(h, "%d "+format+"\n", append([]any{c.Now()}, a...)...) })
	for _, to := range []Tick{end / 3, end / 3, end} { // in pieces, one of them empty
		if err := c.Run(to); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
	}
	fmt.Fprintln(h, c.Parked())
	c.Close()
	return h.Sum64(), c.Fired()
}

func TestSameTraceInBothModes(t *testing.T) {
	total := uint64(0)
	for seed := range uint64(300) {
		a, n := play(t, seed, New(), 700)
		b, m := play(t, seed, NewPure(), 700)
		if a != b || n != m {
			t.Fatalf("seed %d: %x after %d entries, in pure mode %x after %d", seed, a, n, b, m)
		}
		total += n
	}
	if total < 200_000 {
		t.Errorf("the programs do too little: %d entries", total)
	}
}

// TestGarbageCollectionChangesNothing: simgo's own events carry a finalizer that aborts them.
func TestGarbageCollectionChangesNothing(t *testing.T) {
	trace := func(percent int) (all []uint64) {
		defer debug.SetGCPercent(debug.SetGCPercent(percent))
		for seed := range uint64(30) {
			h, _ := play(t, 1000+seed, New(), 1500)
			all = append(all, h)
		}
		return all
	}
	if off, often := fmt.Sprint(trace(-1)), fmt.Sprint(trace(20)); off != often {
		t.Errorf("%s without collection, %s with", off, often)
	}
}

// noMoreThan waits a little for goroutines to be gone.
func noMoreThan(t *testing.T, goroutines int) {
	t.Helper()
	for range 100 {
		if runtime.NumGoroutine() <= goroutines {
			return
		}
		time.Sleep(time.Millisecond)
	}
	t.Errorf("%d goroutines, %d before", runtime.NumGoroutine(), goroutines)
}

func TestCalendarsLeaveNothingBehind(t *testing.T) {
	heap := func() uint64 {
		var m runtime.MemStats
		runtime.GC()
		runtime.GC()
		runtime.ReadMemStats(&m)
		return m.HeapAlloc + m.StackInuse
	}
	for i := range 50 {
		play(t, uint64(i), New(), 200)
	}
	goroutines, before := runtime.NumGoroutine(), heap()
	for i := range 1000 {
		play(t, uint64(i), New(), 200)
	}
	noMoreThan(t, goroutines)
	if after := heap(); after > before+512<<10 {
		t.Errorf("%d bytes, %d before", after, before)
	}
}

// TestOnlyThisPackageImportsSimgo: nothing else may schedule in simgo.
func TestOnlyThisPackageImportsSimgo(t *testing.T) {
	root := filepath.Join("..", "..")
	seen := 0
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && strings.HasPrefix(d.Name(), ".") && path != root {
			return filepath.SkipDir
		}
		if d.IsDir() || filepath.Ext(path) != ".go" {
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, imp := range f.Imports {
			name, _ := strconv.Unquote(imp.Path.Value)
			if !strings.HasPrefix(name, "github.com/fschuetz04/simgo") {
				continue
			}
			seen++
			if filepath.Dir(path) != filepath.Join(root, "sim", "clock") {
				t.Errorf("%s imports simgo; only sim/clock may", path)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if seen == 0 {
		t.Error("simgo is imported nowhere: the test looks in the wrong place")
	}
}
