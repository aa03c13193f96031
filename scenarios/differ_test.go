package scenarios_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"pascaline/scenarios"
)

// twoJams are a stop of the labeller and one of the sealer, both called jam.
func twoJams(sealer string) string {
	return "labeller: {time: 2 s}\nsealer: {time: 2 s}\nstops:\n  - {station: labeller, name: jam, every: 1 h running, takes: 2 min}\n" +
		"  - {station: sealer, name: jam, every: 1 h running, takes: " + sealer + "}\n"
}

func TestDiffer(t *testing.T) {
	base := "scenario: a\nrun: {one_replication: 1 h, seed: 3}\n"
	for _, c := range []struct {
		name, a, b string
		want       []scenarios.Differing
	}{
		{"the same but for name and seed", "labeller: {time: 2 s}\n" + base, "scenario: b\nlabeller: {time: 2 s}\nrun: {one_replication: 1 h}\n", nil},
		{"a value and a default", "labeller: {time: 2 s}\n" + base, "labeller: {time: 3 s, heads: 2}\n" + base,
			[]scenarios.Differing{{Where: "labeller.heads", Values: []string{"1", "2"}}, {Where: "labeller.time", Values: []string{"2 s", "3 s"}}}},
		{"a station that one lacks", "labeller: {time: 2 s}\n" + base, "labeller: {time: 2 s}\ntable: {places: 40}\n" + base,
			[]scenarios.Differing{{Where: "table.places", Values: []string{"none", "40"}}}},
		{"a default that is written out", "labeller: {time: 2 s}\n" + base, "labeller: {time: 2 s, heads: 1}\n" + base, nil},
		{"a time and a distribution", "labeller: {time: 2 s}\n" + base, "labeller: {time: {low: 1 s, high: 3 s}}\n" + base,
			[]scenarios.Differing{{Where: "labeller.time", Values: []string{"2 s", "low 1 s, high 3 s"}}}},
		{"what one reading was of", "packing: {time: 2 s}\n" + base, "packing: {time: {mean: 2 s, sd: 1 s, per: pack}}\n" + base,
			[]scenarios.Differing{{Where: "packing.time", Values: []string{"2 s", "mean 2 s, sd 1 s"}}, {Where: "packing.time.per", Values: []string{"case", "pack"}}}},
		{"items of a list, by name", "labeller: {time: 2 s}\nstops: [{station: labeller, name: jam, every: 1 h running, takes: 2 min}]\n" + base,
			"labeller: {time: 2 s}\nstops: [{station: labeller, name: jam, every: 1 h running, takes: 3 min}]\n" + base,
			[]scenarios.Differing{{Where: "stops.labeller/jam.takes", Values: []string{"2 min", "3 min"}}}},
		{"stops of one name at two stations", twoJams("2 min") + base, twoJams("50 min") + base,
			[]scenarios.Differing{{Where: "stops.sealer/jam.takes", Values: []string{"2 min", "50 min"}}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var all []*scenarios.Scenario
			for _, text := range []string{c.a, c.b} {
				s, faults := scenarios.ReadBytes("x.yaml", []byte(text))
				for _, f := range faults {
					t.Fatal(f)
				}
				all = append(all, s)
			}
			if d := cmp.Diff(c.want, scenarios.Differ(all)); d != "" {
				t.Error(d)
			}
		})
	}
}
