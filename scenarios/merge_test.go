package scenarios

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// folder writes files and returns the path of the first.
func folder(t *testing.T, files ...string) string {
	t.Helper()
	dir := t.TempDir()
	for i := 0; i < len(files); i += 2 {
		path := filepath.Join(dir, filepath.FromSlash(files[i]))
		if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(files[i+1]), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return filepath.Join(dir, filepath.FromSlash(files[0]))
}

func mustRead(t *testing.T, path, variant string) *Scenario {
	t.Helper()
	s, faults, err := Read(path, variant)
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	return s
}

const mergeBase = `scenario: base
product: {packs_per_carrier: 100, packs_per_case: 10}
loading:
  crew: 2 hands
  hand_time: {per: carrier, low: 90 s, likely: 100 s, high: 120 s}
people: {hands: {heads: 4}}
stops:
  - {station: loading, name: tape, every: 20 h running, takes: 1 min}
  - {station: loading, name: jam, every: 30 h running, takes: 2 min}
`

func TestBaseIsMergedByName(t *testing.T) {
	s := mustRead(t, folder(t, "a/x.yaml", `base: ../b/base.yaml
scenario: x
product: {packs_per_case: 12}
loading: {crew: 3 hands}
stops: [{station: loading, name: other, every: 5 h running, takes: 3 min}]
`, "b/base.yaml", mergeBase), "")
	if s.Name != "x" || s.Product.PacksPerCarrier != 100 || s.Product.PacksPerCase != 12 || s.Loading.Crew.Least != 3 {
		t.Errorf("%+v", s)
	}
	if len(s.Stops) != 1 || s.Stops[0].Name != "other" {
		t.Errorf("a list replaces a list: %+v", s.Stops)
	}
	file, line, _, ok := s.Trail.Where("product.packs_per_carrier")
	if !ok || !strings.HasSuffix(filepath.ToSlash(file), "b/base.yaml") || line != 2 {
		t.Error(file, line, ok)
	}
}

func TestVariants(t *testing.T) {
	path := folder(t, "x.yaml", mergeBase+`variants:
  one end:
    loading.hand_time.high: 150 s
  other shape:
    loading.hand_time: {mean: 100 s, sd: 20 s}
  by name of stop:
    stops.jam.takes: 9 min
  nested: {loading: {crew: 3 hands, hand_time.low: 80 s}}
`)
	names, _, err := Variants(path)
	if d := cmp.Diff([]string{"one end", "other shape", "by name of stop", "nested"}, names); d != "" || err != nil {
		t.Fatal(d, err)
	}
	for _, c := range []struct {
		variant string
		want    Law
	}{
		{"", Law{Shape: Triangular, Low: 90, Likely: 100, High: 120}},
		{"one end", Law{Shape: Triangular, Low: 90, Likely: 100, High: 150}},
		{"other shape", Law{Shape: Lognormal, Mean: 100, SD: 20}},
		{"nested", Law{Shape: Triangular, Low: 80, Likely: 100, High: 120}},
	} {
		s := mustRead(t, path, c.variant)
		if d := cmp.Diff(c.want, s.Loading.HandTime.Law()); d != "" {
			t.Errorf("%s: %s", c.variant, d)
		}
		if s.Loading.HandTime.Per != "carrier" {
			t.Errorf("%s: per %s", c.variant, s.Loading.HandTime.Per)
		}
	}
	s := mustRead(t, path, "by name of stop")
	if got := s.Stops[1].Takes.Law().Mean; got != 540 || s.Stops[0].Takes.Law().Mean != 60 {
		t.Error(got)
	}
	if s.Hash() == mustRead(t, path, "").Hash() {
		t.Error("a variant has the hash of its file")
	}
	_, faults, _ := Read(path, "one ende")
	if len(faults) != 1 || faults[0].Hint != `did you mean "one end"?` {
		t.Error(faults)
	}
}

// The variants of a base are those of its own file.
func TestVariantsOfABaseAreNotInherited(t *testing.T) {
	path := folder(t, "x.yaml", "base: base.yaml\n", "base.yaml", mergeBase+"variants: {v: {loading.stations: 2}}\n")
	names, _, _ := Variants(path)
	_, faults, _ := Read(path, "v")
	if len(names) != 0 || len(faults) != 1 {
		t.Error(names, faults)
	}
}

func TestBasesAtMostFourDeep(t *testing.T) {
	files := []string{
		"1.yaml", "base: 2.yaml\n", "2.yaml", "base: 3.yaml\n", "3.yaml", "base: 4.yaml\n", "4.yaml", "base: 5.yaml\n",
		"5.yaml", "base: 6.yaml\n", "6.yaml", mergeBase,
	}
	_, faults, _ := Read(folder(t, files...), "")
	if len(faults) == 0 || !strings.Contains(faults[0].Want, "at most 4 files") {
		t.Error(faults)
	}
	mustRead(t, folder(t, files[2:]...), "")
}
