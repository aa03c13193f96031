package scenarios

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pascaline/scenarios/units"
)

const sized = `scenario: x
product: {packs_per_case: 12}
packing: {benches: 2, crew: 1 packer, time: 26 s}
people: {packers: {}}
roster: {days: Mon to Fri, shifts: {early: {hours: "06:00 to 14:00", people: {packers: 2}}, late: {hours: "14:00 to 22:00", people: {packers: 2}}}}
variants:
  case packer: {packing: {benches: 1, crew: machine, time: 9 s}}
size:
  target: {packs_per_shift: 10000}
  vary:
    packing: {variants: [as written, case packer], costs: [0 EUR, 200000 EUR]}
    packers: {fields: [roster.shifts.early.people.packers, roster.shifts.late.people.packers], range: 1 to 3, cost_each: 20 EUR/h}
    benches: {fields: [packing.benches], values: [2, 3], cost_each: 400 EUR/year}
`

func readSized(t *testing.T, text string) *Scenario {
	t.Helper()
	s, faults := ReadBytes("sized.yaml", []byte(text))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return s
}

// A setting is the file with its choices written into it, and with nothing else changed.
func TestSettingIsTheFileWithItsChoices(t *testing.T) {
	s := readSized(t, sized)
	for _, c := range []struct {
		name    string
		choice  []int
		benches units.Count
		heads   units.Count
		crew    string
	}{
		{"all first", []int{0, 0, 0}, 2, 1, "packers"},
		{"people in both shifts", []int{0, 2, 1}, 3, 3, "packers"},
		{"what comes later in the block wins over a variant", []int{1, 1, 1}, 3, 2, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, faults := s.Setting(c.choice)
			if len(faults) > 0 {
				t.Fatal(faults)
			}
			for i := range got.Roster.Shifts {
				if n := got.Roster.Shifts[i].People[0].Count; n != c.heads {
					t.Errorf("%s: %d packers", got.Roster.Shifts[i].Name, n)
				}
			}
			if got.Packing.Benches != c.benches || got.Packing.Crew.Pool != c.crew || got.Size != nil {
				t.Errorf("%d benches, crew %q, size %v", got.Packing.Benches, got.Packing.Crew.Pool, got.Size)
			}
			if got.Product.Hold != s.Product.Hold || got.Product.Pressure != s.Product.Pressure {
				t.Error("the hold or the pressure is another one")
			}
		})
	}
}

// A setting that no line can be built of says why; the file itself is valid.
func TestSettingThatCannotBe(t *testing.T) {
	s := readSized(t, strings.Replace(sized, "crew: 1 packer,", "crew: 2 packers,", 1))
	if _, faults := s.Setting([]int{0, 0, 0}); len(faults) != 1 || !strings.Contains(faults[0].Error(), "at most the 1 of packers") {
		t.Errorf("got %v", faults)
	}
	if _, faults := s.Setting([]int{0, 1, 0}); len(faults) > 0 {
		t.Error(faults)
	}
}

func TestSteps(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string
	}{
		{"3 to 6", []string{"3", "4", "5", "6"}},
		{"50/min to 80/min by 15/min", []string{"50/min", "65/min", "80/min"}},
		{"50 to 60 packs/min by 5", []string{"50 packs/min", "55 packs/min", "60 packs/min"}},
		{"0.1 s to 0.4 s by 0.1 s", []string{"0.1 s", "0.2 s", "0.3 s", "0.4 s"}},
		{"9 to 9", nil}, {"3 to 5 by 0", nil}, {"1 to 1000", nil}, {"3 - 5", nil}, {"03 to 5", nil}, {"1 to 5,000", nil},
	} {
		t.Run(c.text, func(t *testing.T) {
			var s units.Steps
			err := s.Parse(c.text)
			if d := cmp.Diff(c.want, s.Values); d != "" || (err == nil) != (c.want != nil) {
				t.Errorf("%v\n%s", err, d)
			}
		})
	}
}

func TestOften(t *testing.T) {
	for text, want := range map[string]units.Often{
		"9 of 10 shifts": 0.9, "19 of 20": 0.95, "95 %": 0.95, "90 % of shifts": 0.9, "the mean": 0,
		"10 of 10": -1, "1 of 3 shifts": -1, "0 of 0": -1, "often": -1,
	} {
		t.Run(text, func(t *testing.T) {
			var o units.Often
			if err := o.Parse(text); (err == nil) != (want >= 0) || err == nil && o != want {
				t.Errorf("%v, %v", o, err)
			}
		})
	}
}

// What the line can hold is worked out by hand: 2 carriers of 100, 20 and 30 places on belts, 50 on the table, 3 benches and a sealer
// with 4 cases before it, of 10 packs each, and 10 % of 400 wet packs.
func TestHolds(t *testing.T) {
	s := readSized(t, `scenario: x
product: {packs_per_carrier: 100, packs_per_case: 10}
loading: {crew: machine, hand_time: {per: carrier, mean: 60 s, as: constant}}
carriers: {owned: 2}
tip: {per_pack: 0.1 s}
shaker: {travel: 5 s, places: 20}
dryer: {travel: 5 s, places: 15, lanes: 2, wet: {share: 10 %, then: wiped by hand, takes: 1 s}}
table: {places: 50 packs}
packing: {benches: 3, time: 20 s}
sealer: {time: 2 s, places_before: 4 cases}
`)
	if got, limited := s.Holds(400); got != 200+20+30+40+50+30+50 || !limited {
		t.Errorf("%g packs, limited: %v", got, limited)
	}
	s.Table.Places = nil
	if _, limited := s.Holds(400); limited {
		t.Error("a table without limit has one")
	}
	if !slices.Contains(s.Stations(), "packing") || !s.OneStretch() {
		t.Error("it is one stretch")
	}
}
