package scenarios

import (
	"path/filepath"
	"testing"
)

// every example, and every variant of it, with the name of the test.
func allExamples(t *testing.T, visit func(t *testing.T, name, variant string)) {
	for _, name := range Examples() {
		variants, _, err := Variants(filepath.Join("examples", name+".yaml"))
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range append([]string{""}, variants...) {
			t.Run(name+"/"+v, func(t *testing.T) { visit(t, name, v) })
		}
	}
}

func TestEveryExampleReads(t *testing.T) {
	allExamples(t, func(t *testing.T, name, variant string) {
		s, faults, err := ReadExample(name, variant)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range faults {
			t.Error(f)
		}
		for _, w := range s.Warnings() {
			t.Error(w.Text)
		}
	})
}
