package scenarios

import (
	"bytes"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"pascaline/scenarios/units"
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
		if name == "yardstick" {
			return // its belts run faster than any dryer, on purpose
		}
		for _, w := range s.Warnings() {
			t.Error(w.Text)
		}
	})
}

var sameScenario = cmp.Options{
	cmpopts.IgnoreFields(Scenario{}, "Trail"),
	cmp.AllowUnexported(Time{}, Every{}, Amount{}, RateGuess{}, SoldGuess{}, units.When{}),
	cmpopts.IgnoreUnexported(ProductLine{}),
	cmpopts.EquateEmpty(),
}

// What explain prints is a scenario again, and the same one.
func TestExplainReadsBack(t *testing.T) {
	allExamples(t, func(t *testing.T, name, variant string) {
		s, _, err := ReadExample(name, variant)
		if err != nil || s == nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := s.Explain(&b); err != nil {
			t.Fatal(err)
		}
		again, faults := ReadBytes("explained", b.Bytes())
		for _, f := range faults {
			t.Error(f)
		}
		if d := cmp.Diff(s, again, sameScenario); d != "" {
			t.Error(d)
		}
	})
}

// The order in which sections are written means nothing; only that of pools, shifts and lists does.
func TestOrderOfSectionsMeansNothing(t *testing.T) {
	src, err := Example("plain")
	if err != nil {
		t.Fatal(err)
	}
	want, _ := ReadBytes("plain", src)
	sections := regexp.MustCompile(`(?m)^[a-z_]+:`).FindAllIndex(src, -1)
	var parts []string
	for i, at := range sections {
		end := len(src)
		if i+1 < len(sections) {
			end = sections[i+1][0]
		}
		parts = append(parts, string(src[at[0]:end]))
	}
	for seed := range uint64(20) {
		r := rand.New(rand.NewPCG(seed, 1))
		r.Shuffle(len(parts), func(i, j int) { parts[i], parts[j] = parts[j], parts[i] })
		got, faults := ReadBytes("shuffled", []byte(strings.Join(parts, "")))
		if len(faults) > 0 {
			t.Fatalf("seed %d: %v", seed, faults)
		}
		if d := cmp.Diff(want, got, sameScenario); d != "" {
			t.Fatalf("seed %d: %s", seed, d)
		}
	}
}

// Every field says what it is, and every default, least and most can be read by its own type.
func TestEveryFieldIsDescribed(t *testing.T) {
	seen := map[reflect.Type]bool{}
	var visit func(path string, typ reflect.Type)
	visit = func(path string, typ reflect.Type) {
		for typ.Kind() == reflect.Pointer || typ.Kind() == reflect.Slice {
			typ = typ.Elem()
		}
		if typ.Kind() != reflect.Struct || seen[typ] || readsOneWord(typ) {
			return
		}
		seen[typ] = true
		for _, f := range fieldsOf(typ) {
			sub := join(path, f.name)
			if f.doc() == "" {
				t.Errorf("%s has no doc", sub)
			}
			inner := f.typ
			for inner.Kind() == reflect.Pointer {
				inner = inner.Elem()
			}
			for _, key := range []string{"default", "least", "most"} {
				if text := f.tag.Get(key); text != "" && inner.Kind() != reflect.Slice {
					parsed(inner, text) // panics where it cannot be read
				}
			}
			if d, c := f.byDefault(), f.choices(); d != "" && c != nil && !slices.Contains(c, d) {
				t.Errorf("%s: the default %q is no choice", sub, d)
			}
			visit(sub, f.typ)
		}
	}
	visit("", reflect.TypeFor[Scenario]())
	if len(seen) < 30 {
		t.Errorf("only %d types were seen", len(seen))
	}
}

func readsOneWord(typ reflect.Type) bool {
	_, ok := reflect.New(typ).Interface().(units.Quantity)
	return ok
}

func TestHashTellsFilesApart(t *testing.T) {
	hashes := map[string]string{}
	allExamples(t, func(t *testing.T, name, variant string) {
		s, _, _ := ReadExample(name, variant)
		h := s.Hash()
		if other, ok := hashes[h]; ok || len(h) != 64 {
			t.Errorf("hash %s of %s %s, also of %s", h, name, variant, other)
		}
		hashes[h] = name + " " + variant
		again, _, _ := ReadExample(name, variant)
		if again.Hash() != h {
			t.Error("the hash changes from reading to reading")
		}
	})
}

func TestReadTakesFilesFromDisk(t *testing.T) {
	want, _, err := ReadExample("second-loading", "second station, same people")
	if err != nil {
		t.Fatal(err)
	}
	got, faults, err := Read(filepath.Join("examples", "second-loading.yaml"), "second station, same people")
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	if d := cmp.Diff(want, got, sameScenario); d != "" {
		t.Error(d)
	}
	if got.Hash() != want.Hash() {
		t.Error("embedded and on disk the same files have two hashes")
	}
	if _, _, err := Read("examples/nowhere.yaml", ""); err == nil {
		t.Error("no error for a file that is not there")
	}
	if _, _, err := Read("examples", ""); err == nil {
		t.Error("no error for a folder")
	}
}

// Small scenarios that use every way of writing; each reads, warns of nothing unusual that it does not name, and reads
// back from its explanation.
func TestGoodFiles(t *testing.T) {
	t.Chdir(filepath.Join("..", "testdata", "good"))
	files, err := filepath.Glob("*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal(err)
	}
	for _, file := range files {
		t.Run(file, func(t *testing.T) {
			s, faults, err := Read(file, "")
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range faults {
				t.Fatal(f)
			}
			var b bytes.Buffer
			if err := s.Explain(&b); err != nil {
				t.Fatal(err)
			}
			again := filepath.Join(t.TempDir(), "again.yaml")
			if readings, err := os.ReadFile("readings.csv"); err != nil || os.WriteFile(filepath.Join(filepath.Dir(again), "readings.csv"), readings, 0o600) != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(again, b.Bytes(), 0o600); err != nil {
				t.Fatal(err)
			}
			s2, faults, err := Read(again, "")
			if err != nil || len(faults) > 0 {
				t.Fatal(err, faults)
			}
			if d := cmp.Diff(s, s2, sameScenario); d != "" {
				t.Error(d)
			}
		})
	}
}
