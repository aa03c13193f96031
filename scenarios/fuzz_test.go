package scenarios

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// FuzzRead: whatever the bytes are, reading ends without a panic and every fault has a place; what reads without a fault
// reads back from its explanation.
func FuzzRead(f *testing.F) {
	for _, name := range Examples() {
		src, err := Example(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(src)
	}
	files, err := filepath.Glob(filepath.Join("..", "testdata", "*", "*.yaml"))
	if err != nil {
		f.Fatal(err)
	}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(src)
	}
	f.Add([]byte("a: &a [*a]\n? b\n: - c\n  - |\n   x\n  - >-\n   y\n--- !!map\n%YAML 1.2\n...\n"))
	f.Fuzz(func(t *testing.T, src []byte) {
		if len(src) > 8192 {
			return
		}
		tree := parse(newSource("f", "f", src), &faultList{})
		if p := tree.get("variants"); p != nil && len(p.value.pairs) > 0 {
			fuzzOne(t, src, p.value.pairs[0].key)
		}
		fuzzOne(t, src, "")
	})
}

func fuzzOne(t *testing.T, src []byte, variant string) {
	s, faults := (&reader{}).scenario(newSource("f", "f", src), variant)
	for _, x := range faults {
		if x.Line < 1 || x.Column < 1 || x.File == "" || x.Found == "" || x.Want == "" {
			t.Fatalf("no place: %+v", x)
		}
		_ = x.Error()
	}
	if (s == nil) == (len(faults) == 0) {
		t.Fatalf("scenario %v with faults %v", s, faults)
	}
	if s != nil {
		readsBack(t, s)
	}
}

func readsBack(t *testing.T, s *Scenario) {
	var b bytes.Buffer
	if err := s.Explain(&b); err != nil {
		t.Fatal(err)
	}
	again, faults := ReadBytes("explained", b.Bytes())
	if len(faults) > 0 {
		t.Fatalf("%v\n%s", faults, b.String())
	}
	if d := cmp.Diff(s, again, sameScenario); d != "" {
		t.Fatal(d)
	}
}

// Files that are meant to do harm are refused at once.
func TestHostileFilesEndQuickly(t *testing.T) {
	for name, src := range map[string]string{
		"deep flow":      "scenario: " + strings.Repeat("[", 20000) + strings.Repeat("]", 20000),
		"deep block":     deepBlock(2000),
		"deep dashes":    strings.Repeat("- ", 20000) + "x",
		"many keys":      strings.Repeat("scenario: x\n", 9000),
		"many new keys":  manyKeys(9000),
		"one long line":  "scenario: " + strings.Repeat("x", 5<<20),
		"many escapes":   "scenario: \"" + strings.Repeat(`\n`, 1<<18) + "\"",
		"too many keys":  strings.Repeat("scenario: x\n", 50000),
		"many words":     "scenario: [" + strings.Repeat("x, ", 100000) + "x]",
		"aliases":        "a: &a [x,x,x,x,x,x,x,x,x]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a]\nc: &c [*b,*b,*b,*b,*b,*b,*b,*b,*b]\n",
		"long variants":  "scenario: x\nvariants:\n  v:\n    " + strings.Repeat("a.", 10000) + "b: 1\n",
		"nothing at all": "",
		"zero bytes":     "\x00\x00",
		"no UTF-8":       "scenario: \xff\xfe\n",
	} {
		t.Run(name, func(t *testing.T) {
			start := time.Now()
			if _, faults := ReadBytes("f", []byte(src)); len(faults) == 0 {
				t.Error("no fault")
			}
			if d := time.Since(start); d > 3*time.Second {
				t.Errorf("took %v", d)
			}
		})
	}
}

func deepBlock(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat(" ", i%2000) + "a:\n")
	}
	return b.String()
}

func manyKeys(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString("k" + strings.Repeat("a", i%40) + string(rune('a'+i%26)) + strings.Repeat("b", i/1000) + ": 1\n")
	}
	return b.String()
}
