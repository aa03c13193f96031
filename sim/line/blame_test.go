package line

import (
	"testing"

	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// Worked by hand from the file: three carriers come out together, each is tipped in 10 s and filled in 30 s, so the vessel waits 100 s for the next
// load: 10 s in which loading has no empty carrier, and 90 s in which it fills. The first load is there after 90 s, cycles take 400 s, and
// 86,400 s = 490 s + 172 x 500 s - 90 s: 172 waits.
func TestVesselTimeIsChargedByWhatHeldBefore(t *testing.T) {
	l, err := modelOf(t, "../../testdata/lines/part-loads.yaml", "three carriers").Line(Options{Seed: 1, Replication: 1})
	if err != nil {
		t.Fatal(err)
	}
	if err := l.Run(); err != nil {
		t.Fatal(err)
	}
	want := map[string]clock.Tick{"carriers": 172 * 10 * clock.Second, "loading": (90 + 172*90) * clock.Second}
	for _, c := range l.Record(1).Charges {
		if c.Way != measure.Starved || want[c.To] != c.Time {
			t.Errorf("%v for %s: %d s, want %d s", c.Way, c.To, c.Time/clock.Second, want[c.To]/clock.Second)
		}
		delete(want, c.To)
	}
	if len(want) > 0 {
		t.Errorf("not charged: %v", want)
	}
}
