package scenarios

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
)

const twoVariants = `scenario: two
loading: {crew: 2 loaders, hand_time: {per: carrier, mean: 90 s, as: constant}}
packing: {fed: without end, crew: 1 packer, time: 26 s}
people: {loaders: {heads: 2}, packers: {heads: 3}}
variants:
  station: {loading.stations: 2, people: {loaders: {heads: 4}}, money.buy.purchase: 5 EUR}
  benches: {packing.benches: 3, money.buy.purchase: 6 EUR}
  other station: {loading: {stations: 3}, people.loaders.heads: 4}
  nothing: 5
`

func TestVariantsTogether(t *testing.T) {
	path := filepath.Join(t.TempDir(), "two.yaml")
	src := []byte(twoVariants[:len(twoVariants)-len("  nothing: 5\n")])
	if err := os.WriteFile(path, src, 0o600); err != nil {
		t.Fatal(err)
	}
	s, faults, err := ReadTogether(path, []string{"station", "", "benches"})
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	if s.Loading.Stations != 2 || s.Packing.Benches != 3 || s.People[0].Heads != 4 || s.Money.Buy.Price.Central() != 6 {
		t.Errorf("stations %d, benches %d, heads %d, %v", s.Loading.Stations, s.Packing.Benches, s.People[0].Heads, s.Money.Buy.Price.Central())
	}
	plain, _, err := ReadTogether(path, nil)
	if err != nil || plain.Loading.Stations != 1 {
		t.Errorf("%v, %v", plain, err)
	}
	if s.Hash() == plain.Hash() {
		t.Error("the same hash with variants and without")
	}
	if _, faults, _ := ReadTogether(path, []string{"station", "bench"}); len(faults) != 1 {
		t.Errorf("a variant that is not there: %v", faults)
	}
	if _, _, err := ReadTogether(path+"x", nil); err == nil {
		t.Error("a file that is not there is read")
	}
}

func TestContradictions(t *testing.T) {
	path := filepath.Join(t.TempDir(), "two.yaml")
	if err := os.WriteFile(path, []byte(twoVariants), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, a, b string
		want       []string
	}{
		{"different fields, and money of their own", "station", "benches", nil},
		{"the stations are 2 or 3; the heads are the same in both", "station", "other station", []string{"loading.stations"}},
		{"with itself", "station", "station", nil},
		{"with none", "station", "absent", nil},
		{"with what changes nothing", "nothing", "station", nil},
	} {
		got, err := Contradict(path, c.a, c.b)
		if err != nil || !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, %v", c.name, got, err)
		}
	}
	if _, err := Contradict(path+"x", "a", "b"); err == nil {
		t.Error("a file that is not there is read")
	}
}
