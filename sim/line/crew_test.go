package line

import (
	"testing"

	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// Three people, two heads that need two each at the same moment: one head works at a time, 60 packs in an hour.
func TestTaskNeverBeginsWithTooFewPeople(t *testing.T) {
	l := runOf(t, modelFrom(t, `
checkweigher: {time: {mean: 60 s, as: constant}, heads: 2, by: 2 hands}
people: {hands: {heads: 3}}
run: {one_replication: 1 h}`), 1)
	if l.finished < 59 || l.finished > 60 { // the last ends with the hour
		t.Errorf("%d packs finished, want 60: a task for two was done by one", l.finished)
	}
}

// Of a stop of a whole station the time that each of its servers waits for the mender counts: 10 min x 2 heads.
func TestWaitForMenderCountsEachServer(t *testing.T) {
	l := runOf(t, modelFrom(t, `
shaker: {travel: 10 s, rate: 60/min}
labeller: {rate: 60/min, heads: 2}
people: {fitter: {heads: 1}}
stops:
  - {station: shaker, name: jam, at: [10 min], takes: 10 min, mended_by: fitter}
  - {station: labeller, name: roll, at: [10 min], takes: 5 min, mended_by: fitter, stands: whole station}
run: {one_replication: 1 h}`), 1)
	for _, s := range l.stops {
		want := clock.Tick(0)
		if s.name == "roll" {
			want = 2 * 10 * clock.Minute
		}
		if s.waited != want {
			t.Errorf("%s: waited %d us, want %d", s.name, s.waited, want)
		}
	}
	for _, s := range l.Record(1).Stations {
		if s.Name == "labeller" {
			for _, x := range s.Servers {
				if x.Times[measure.WaitRepair] != 10*clock.Minute {
					t.Errorf("%s waited for repair %d us, want 10 min", x.Name, x.Times[measure.WaitRepair])
				}
			}
		}
	}
}
