package line

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pascaline/scenarios"
	"pascaline/sim/clock"
)

func lineOf(t *testing.T, text string, o Options) *Line {
	t.Helper()
	s, faults := scenarios.ReadBytes("small.yaml", []byte(text))
	for _, f := range faults {
		t.Fatal(f)
	}
	m, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	l, err := m.Line(o)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// A line on which something goes on without time passing ends with an error that names the station, and soon.
func TestTimeThatDoesNotMoveOn(t *testing.T) {
	for _, c := range []struct{ name, text, station string }{
		{"nothing but places", "infeed: {places: 3}", "supply of infeed"},
		{"places without end before a machine", "labeller: {time: 1 s, places_before: without end}", "supply of labeller"},
		{"a belt that takes as many as come", "dryer: {travel: 1 s}", "supply of dryer"},
		{"a tip without any time", "product: {packs_per_carrier: 10}\ntip: {per_pack: 0 s}", "tip"},
		{"a tip without any time after a drain", "product: {packs_per_carrier: 10}\ndrain: {places: 5, time: 0 s}\ntip: {swap: 0 s}\ntable: {places: 5}", "tip"},
		{"wet packs that go round in no time", "supply: 2000000 packs\ndryer: {travel: 0 s, wet: {share: 99 %, then: sent round every time, takes: 0 s}}", "dryer"},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := lineOf(t, "scenario: small\n"+c.text+"\nrun: {one_replication: 1 min}\n", Options{Seed: 1, Replication: 1})
			err := l.Run()
			var r *Restless
			if !errors.As(err, &r) || r.Station != c.station || r.Tick != 0 {
				t.Fatalf("got %v, want one that names %q at 0", err, c.station)
			}
			if !strings.HasPrefix(err.Error(), c.station+", simulated time 0.000000 s: ") {
				t.Errorf("%q does not begin with where and when", err)
			}
		})
	}
}

// A node that asks to be looked at again whenever it is looked at, and a slot that sets itself for the same tick: both are named.
func TestWhoKeepsActing(t *testing.T) {
	const text = "scenario: small\nlabeller: {time: 1 s}\ncheckweigher: {time: 500 ms}\nrun: {one_replication: 1 min}\n"
	for _, c := range []struct {
		name, station string
		at            clock.Tick
		breakIt       func(l *Line)
	}{
		{"within one entry of the calendar", "checkweigher", 1500 * clock.Millisecond, func(l *Line) {
			l.stations[1].bench.job = &restlessJob{l.stations[1].bench.job, l}
		}},
		{"over many entries", "labeller", clock.Second, func(l *Line) {
			r := &restlessSlot{l: l}
			r.slot = l.cal.Add("labeller", r, 0)
			l.cal.Set(r.slot, clock.Second, clock.End)
		}},
	} {
		for _, pure := range []bool{false, true} {
			t.Run(fmt.Sprintf("%s, pure simgo %v", c.name, pure), func(t *testing.T) {
				l := lineOf(t, text, Options{Seed: 1, Replication: 1, Pure: pure})
				c.breakIt(l)
				var r *Restless
				if err := l.Run(); !errors.As(err, &r) || r.Tick != c.at || r.Station != c.station {
					t.Errorf("got %v, want one at %s, %d us", err, c.station, c.at)
				}
			})
		}
	}
}

type restlessJob struct {
	job
	l *Line
}

func (r *restlessJob) ready(b *bench, asked int) bool {
	if r.l.cal.Now() > 0 {
		r.l.agenda.poke(b.node)
	}
	return r.job.ready(b, asked)
}

type restlessSlot struct {
	l    *Line
	slot clock.Slot
}

func (r *restlessSlot) Fire(int) { r.l.cal.Set(r.slot, r.l.cal.Now(), clock.Begin) }
