package line

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"pascaline/scenarios"
)

// FuzzText runs whatever the reader takes, from any text: no panic and no endless loop, and the balances hold when it is cut short. The only
// error is that of a line on which nothing takes time. go test ./sim/line -fuzz FuzzText
func FuzzText(f *testing.F) {
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "*", "*.yaml"))
	if err != nil || len(files) == 0 {
		f.Fatal(err, files)
	}
	examples, err := filepath.Glob(filepath.Join("..", "..", "scenarios", "examples", "*.yaml"))
	if err != nil || len(examples) == 0 {
		f.Fatal(err, examples)
	}
	for _, file := range append(files, examples...) {
		src, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(src, uint64(1))
	}
	f.Fuzz(func(t *testing.T, src []byte, seed uint64) {
		if len(src) > 8192 {
			return
		}
		s, faults := scenarios.ReadBytes("fuzz.yaml", src)
		if len(faults) > 0 {
			return
		}
		m, err := New(s)
		if err != nil {
			t.Fatal(err)
		}
		l, err := m.Line(Options{Seed: seed, Replication: 1})
		if err != nil {
			t.Fatal(err)
		}
		cutShort(l, 5000)
		var r *Restless
		if err := l.Run(); err != nil && !errors.As(err, &r) {
			t.Fatal(err)
		}
		l.Record(1)
	})
}

// cutShort ends a line's run after so many entries of its calendar.
func cutShort(l *Line, entries int) {
	l.cal.Trace(func(int64, string, int) {
		if entries--; entries < 0 {
			l.cal.Halt()
		}
	})
}
