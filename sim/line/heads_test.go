package line

import (
	"testing"

	"pascaline/sim/clock"
)

// Where no shift says how many of a pool there are, there are as many as the pool has; and what is pushed into a line that begins with packing is
// pushed in its shifts only. By hand: each of two packers begins a case of 35 s every 35 s from 06:00 on, the last before 22:00, which is
// 57,600 s / 35 s = 1,645.7: 1,646 cases of 12 packs, the last of them finished in overtime, and then
// the case that is on the table.
func TestHeadsOfThePoolWhereTheShiftSaysNothing(t *testing.T) {
	r := recordOf(t, `scenario: heads
product: {packs_per_case: 12}
table: {places: 12}
packing: {benches: 2, crew: 1 packer, time: {mean: 35 s, as: constant, per: case}, per_case: 0 s}
people: {packers: {heads: 2}}
roster:
  shifts:
    early: {hours: 06:00 to 14:00}
    late: {hours: 14:00 to 22:00}
run: {one_replication: day, replications: 1, steps: 8 h}`, 1)
	if got, want := r.Packs, int64((2*1646+1)*12); got != want {
		t.Errorf("%d packs, want %d", got, want)
	}
	heads := r.Pools[0].ByShift
	if len(heads) < 2 || heads[0].Heads != 2 || heads[1].Heads != 2 || heads[0].Busy != 16*clock.Hour {
		t.Errorf("people by shift %+v, want 2 heads that work all of 8 h, in both", heads)
	}
}

// What comes at intervals comes from a machine before the line, which stands between the shifts as the line does: 8 hours a day at one pack each 2 s are
// 14,400 packs, however long the night is.
func TestIntervalsOfTheSupplyCountInTheHoursOfTheRoster(t *testing.T) {
	for _, overnight := range []string{"line run empty", "packs stay on the line"} {
		r := recordOf(t, `scenario: paced
product: {packs_per_case: 12}
supply: {every: {mean: 2 s, as: constant}}
shaker: {travel: 20 s, rate: 60/min}
roster:
  overnight: `+overnight+`
  shifts:
    early: {hours: 06:00 to 14:00}
run: {one_replication: week, replications: 1}`, 1)
		if want := int64(7 * 14400); r.In < want-7 || r.In > want {
			t.Errorf("%s: %d packs came in in 7 days, want %d, or one a day less", overnight, r.In, want)
		}
	}
}
