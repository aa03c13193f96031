package capital

import (
	"slices"
	"strings"
	"testing"

	"pascaline/scenarios"
)

// Overtime follows the shift that ends latest, wherever it is listed: the night from 22:00 to 06:00 before the early one from 06:00 to 14:00. Fitters are
// not there at night. In a week of 7 x 16 = 112 rostered hours half a person-hour each makes 56.
func TestOvertimeFollowsTheLatestShift(t *testing.T) {
	const text = `scenario: x
packing: {crew: 1 packer, time: 36 s}
people: {packers: {}, fitters: {serve: [stops]}}
roster:
  shifts:
    SHIFTS
money: {contribution: 1 EUR/pack, people: {packers: {cost: 20 EUR/h, shifts: {night: 30 EUR/h}}, fitters: 25 EUR/h}}
variants: {other: {packing.time: 30 s}}
`
	night, early := `night: {hours: "22:00 to 06:00", people: {packers: 1, fitters: 0}}`, `early: {hours: "06:00 to 14:00", people: {packers: 1, fitters: 1}}`
	for _, order := range []string{night + "\n    " + early, early + "\n    " + night} {
		q := ask(t, strings.Replace(text, "SHIFTS", order, 1))
		p, err := newPlant(q.Base, nil)
		if err != nil {
			t.Fatal(err)
		}
		w := p.weeks[0]
		w.fill(Output{Packs: 100, Cycles: 2, Overtime: []float64{0.5, 0.5}}, p.last[0], len(p.rows))
		if w.Packs != 11200 || w.Cycles != 224 {
			t.Errorf("%v packs, %v cycles a week; want 112 x 100, 112 x 2", w.Packs, w.Cycles)
		}
		for i, r := range p.rows {
			want := 0.0
			if r == (Row{"packers", "night"}) || r == (Row{"fitters", "early"}) {
				want = 56
			}
			if w.Overtime[i] != want {
				t.Errorf("%v: %v h, want %v", r, w.Overtime[i], want)
			}
		}
	}
}

// Who is latest: the end counts, over midnight too, and only of shifts in which somebody is there.
func TestLastShift(t *testing.T) {
	q := ask(t, `scenario: x
packing: {crew: 1 packer, time: 36 s}
people: {packers: {}, clerks: {serve: [packing]}, nobody: {serve: [packing]}}
roster:
  shifts:
    night: {hours: "22:00 to 06:00", people: {packers: 1, clerks: 0, nobody: 0}}
    late: {hours: "14:00 to 22:00", people: {packers: 1, clerks: 1, nobody: 0}}
    early: {hours: "06:00 to 14:00", people: {packers: 1, clerks: 1, nobody: 0}}
`)
	var last []string
	for i := range q.Base.People {
		if x := q.Base.LastShift(&q.Base.People[i]); x != nil {
			last = append(last, x.Name)
		}
	}
	if !slices.Equal(last, []string{"night", "late"}) || (&scenarios.Scenario{}).LastShift(&q.Base.People[0]) != nil {
		t.Errorf("%q", last)
	}
}
