package study

import (
	"math"
	"strings"
	"testing"
)

// 24 cases of 20 min fit into 8 h by mean times, and one more is in hand. Where the times scatter by more than their mean it says nothing: with 60 min some
// (9 - 1)/2 = 4 more are made, 28. A pace that scatters by 20 % is on average
// 4 % quicker: 24.96 and the one in hand. Scattered stops only take away.
func TestWhatMeanTimesBound(t *testing.T) {
	const text = `scenario: x
packing: {crew: 1 packer, time: {mean: 20 min, sd: SD}}
people: {packers: {shift_pace: 0 %}}
roster: {shifts: {early: {hours: "06:00 to 14:00", people: {packers: 1}}}}
size: {target: {packs_per_shift: 28, in: 50 %}, vary: {times: {fields: [packing.per_case], values: [0 s], costs: [0 EUR]}}}
`
	for _, c := range []struct {
		name string
		with []string
		want float64 // 0: nothing is known
	}{
		{"hardly any scatter", []string{"SD", "1 min"}, 25},
		{"as much as the mean", []string{"SD", "20 min"}, 25},
		{"more than the mean", []string{"SD", "21 min"}, 0},
		{"three times the mean", []string{"SD", "60 min"}, 0},
		{"the mean of the shifts", []string{"SD", "1 min", "in: 50 %", "in: the mean"}, 25},
		{"by the hour", []string{"SD", "1 min", "packs_per_shift: 28", "packs_per_hour: 4"}, 25.0 / 8},
		{"a pace of 20 %", []string{"SD", "1 min", "shift_pace: 0 %", "shift_pace: 20 %"}, 25.96},
		{"scattered stops", []string{"SD", "1 min", "size:", "stops: [{station: packing, name: jam, every: 10 h running, takes: {mean: 1 min, sd: 9 min}}]\nsize:"}, 25},
	} {
		s := sizedScenario(t, strings.NewReplacer(c.with...).Replace(text))
		x, faults := s.Setting([]int{0})
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		if got, _ := ceiling(x, &s.Size.Target); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// What was told to be impossible is found: 28 cases in half of the shifts, by times of 20 min on average that scatter by 60 min.
func TestScatteredTimesMeetWhatTheirMeanDoesNot(t *testing.T) {
	r, err := Size(t.Context(), sizedScenario(t, `scenario: x
packing: {crew: 1 packer, time: {mean: 20 min, sd: 60 min}}
people: {packers: {}}
roster: {shifts: {early: {hours: "06:00 to 14:00", people: {packers: 1}}}}
size: {target: {packs_per_shift: 26, in: 50 %}, vary: {times: {fields: [packing.per_case], values: [0 s], costs: [0 EUR]}}}
`), Options{Seed: 1, Workers: 2})
	if err != nil || r.Chosen == nil || r.Chosen.Output.Mean <= 26 {
		t.Errorf("%+v, %v", r, err)
	}
}
