package scenarios

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Two stops are called jam; the names of others hold a dot or a stroke, or are the beginning of a longer one.
const manyStops = `scenario: many
tip: {fed: without end}
dryer: {rate: 60/min, travel: 25 s}
stops:
  - {station: dryer, name: jam, every: 40 h running, takes: 1 min}
  - {station: tip, name: jam, every: 90 h running, takes: 2 min}
  - {station: tip, name: pos.3 jam, every: 90 h running, takes: 3 min}
  - {station: tip, name: pos, every: 90 h running, takes: 4 min}
  - {station: dryer, name: pos.4 jam, every: 90 h running, takes: 5 min}
  - {station: dryer, name: tip/jam, every: 90 h running, takes: 6 min}
  - {station: dryer, name: Nr. 5., every: 90 h running, takes: 7 min}
`

func TestStopsAreReachedByStationAndName(t *testing.T) {
	for _, c := range []struct {
		name, variant string
		at            int
		want          float64
	}{
		{"station and name, the first", "stops.dryer/jam.takes: 9 s", 0, 9},
		{"station and name, the second", "stops.tip/jam.takes: 9 s", 1, 9},
		{"nested", "stops: {tip/jam: {takes: 9 s}}", 1, 9},
		{"a dot in the name", "stops.pos.3 jam.takes: 9 s", 2, 9},
		{"a dot in the name, with station", "stops.tip/pos.3 jam.takes: 9 s", 2, 9},
		{"a dot in the name, nested", `stops: {"pos.3 jam": {takes: 9 s}}`, 2, 9},
		{"a dot in the name, a part of the distribution", "stops.pos.3 jam.takes: {low: 8 s, high: 10 s}", 2, 9},
		{"the name that others begin with", "stops.pos.takes: 9 s", 3, 9},
		{"the name that others begin with, as a group", "stops.pos: {takes: 9 s, age: new}", 3, 9},
		{"both in one group, the short name", "stops.pos: {takes: 9 s, 4 jam: {takes: 8 s}}", 3, 9},
		{"both in one group, the long name", "stops.pos: {takes: 9 s, 4 jam: {takes: 8 s}}", 4, 8},
		{"a stroke in the name", "stops.dryer/tip/jam.takes: 9 s", 5, 9},
		{"dots at the end", "stops.Nr. 5..takes: 9 s", 6, 9},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := folder(t, "x.yaml", manyStops+"variants: {v: {"+c.variant+"}}\n")
			before, s := mustRead(t, path, ""), mustRead(t, path, "v")
			for i := range s.Stops {
				got, was := s.Stops[i].Takes.Law().MeanUsed(), before.Stops[i].Takes.Law().MeanUsed()
				if i == c.at && got != c.want || i != c.at && got != was && !strings.HasPrefix(c.name, "both") {
					t.Errorf("%s at %s takes %g s, before %g s", s.Stops[i].Name, s.Stops[i].Station, got, was)
				}
			}
		})
	}
}

func TestStopsThatANameDoesNotTell(t *testing.T) {
	for _, c := range []struct{ name, variant, want string }{
		{"a name of two", "stops.jam.takes: 9 s",
			`stops.jam: found "jam", the name of 2 in the list (line 5, line 6), want station and name: "dryer/jam" or "tip/jam"`},
		{"a name of none", "stops.jamm.takes: 9 s",
			`found "jamm", want the name of one in the list: "dryer/jam", "tip/jam", "pos.3 jam", "pos", "pos.4 jam", "dryer/tip/jam" or "Nr. 5."`},
		{"the name of another station", "stops.tip/pos.4 jam.takes: 9 s", `found an unknown field "4 jam"`},
		{"a name with a dot", "stops.dryer/pos.3 jam.takes: 9 s", `stops.dryer/pos.3 jam: found "dryer/pos.3 jam", want the name of one in the list`},
		{"one stop under two names", "stops.pos.4 jam.takes: 9 s, stops.dryer/pos.4 jam.takes: 8 s",
			`found "dryer/pos.4 jam", which is "pos.4 jam" again, want all of one stop under one name`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, faults, err := Read(folder(t, "x.yaml", manyStops+"variants: {v: {"+c.variant+"}}\n"), "v")
			if err != nil || len(faults) != 1 || !strings.Contains(faults[0].Headline(), c.want) {
				t.Errorf("%v, faults %v, want one with %s", err, faults, c.want)
			}
		})
	}
}

// Over the list of a base a stop is reached in the same ways, and the fault names the file in which the two stand.
func TestStopsOfABase(t *testing.T) {
	path := folder(t, "x.yaml", "base: many.yaml\nstops: {tip/jam: {takes: 9 s}, tip/pos.3 jam: {takes: 8 s}}\n", "many.yaml", manyStops)
	s := mustRead(t, path, "")
	if s.Stops[0].Takes.Law().Mean != 60 || s.Stops[1].Takes.Law().Mean != 9 || s.Stops[2].Takes.Law().Mean != 8 {
		t.Error(s.Stops)
	}
	if err := os.WriteFile(path, []byte("base: many.yaml\nstops: {jam: {takes: 9 s}}\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	_, faults, _ := Read(path, "")
	if len(faults) != 1 || faults[0].Line != 2 || !strings.Contains(faults[0].Found, "(line 5 of "+filepath.Join(filepath.Dir(path), "many.yaml")+", line 6 of ") {
		t.Error(faults)
	}
}

func TestAListWithoutNamesIsChangedAsAWhole(t *testing.T) {
	_, faults, _ := Read(folder(t, "x.yaml", manyStops+"changeovers: [{station: line, takes: 5 min}]\nvariants: {v: {changeovers.line.takes: 9 s}}\n"), "v")
	if len(faults) == 0 || !strings.Contains(faults[0].Headline(), `found "line", want the whole list: what is in it has no names`) {
		t.Error(faults)
	}
}

// A field has one path, however its stop is called: two variants that write it contradict each other, and one search cannot vary it twice.
func TestAFieldOfAStopHasOnePath(t *testing.T) {
	path := folder(t, "x.yaml", "base: many.yaml\nvariants:\n  a: {stops.pos.4 jam.takes: 9 s}\n  b: {stops.dryer/pos.4 jam: {takes: 8 s, every: 1 h running}}\n", "many.yaml", manyStops)
	got, err := Contradict(path, "a", "b")
	if d := cmp.Diff([]string{"stops.dryer/pos.4 jam.takes"}, got); d != "" || err != nil {
		t.Error(d, err)
	}
	_, faults := ReadBytes("x.yaml", []byte(manyStops+`size:
  target: {packs_per_hour: 100}
  vary:
    one: {fields: [stops.pos.4 jam.takes], values: [1 s, 2 s], costs: [1 EUR, 2 EUR]}
    two: {fields: [stops.dryer/pos.4 jam.takes], values: [1 s, 2 s], costs: [1 EUR, 2 EUR]}
`))
	if len(faults) != 1 || !strings.Contains(faults[0].Headline(), `found "stops.dryer/pos.4 jam.takes", want each field in one place (it is varied under one too)`) {
		t.Error(faults)
	}
}
