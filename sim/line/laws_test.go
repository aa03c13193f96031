package line

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"pascaline/scenarios"
	"pascaline/sim/clock"
)

// machines writes a stretch of machines and belts, all of which can pause, with random times.
func machines(t *rapid.T, minutes int) string {
	w := &writer{t: t}
	perCase := w.n("per case", 1, 6)
	w.say("scenario: machines\nproduct: {packs_per_case: %d}", perCase)
	w.say("shaker: {travel: %d s, rate: %d/min, places: %d, places_before: %d, standing: %s}", w.n("travel", 0, 20), w.n("rate", 20, 200), w.n("places", 1, 30), w.n("before", 0, 20), w.one("standing", "packs close up", "belt stands still"))
	w.say("dryer: {lanes: %d, travel: %d s, rate: %d/min, places_before: %d}", w.n("lanes", 1, 3), w.n("dryer travel", 0, 20), w.n("dryer rate", 20, 200), w.n("dryer before", 0, 20))
	w.say("labeller: {heads: %d, time: {%s}, places_before: %d}", w.n("heads", 1, 3), w.time("label", 2), w.n("label before", 0, 5))
	w.say("table: {places: %d}", perCase+w.n("table", 0, 30))
	w.say("packing: {benches: %d, time: {%s}}", w.n("benches", 1, 3), w.time("pack", 9))
	w.say("sealer: {time: {%s}, places_before: %d}", w.time("seal", 4), w.n("seal before", 0, 3))
	w.say("run: {one_replication: %d min, replications: 1}", minutes)
	return w.b.String()
}

var lanes = regexp.MustCompile(`lanes: \d`)

// Stopping all stations of a stretch together, whenever and for as long as one likes, changes nothing per working hour: they go on as if the
// time between were not there. (No calendar clock may run in it: a repair of one of them would go on.)
func TestStoppingAllTogetherChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at, takes := rapid.IntRange(1, 3000).Draw(t, "at"), rapid.IntRange(1, 90).Draw(t, "takes")
		seed := rapid.Uint64().Draw(t, "seed")
		var all strings.Builder
		all.WriteString("stops:\n")
		for _, s := range []string{"shaker", "dryer", "labeller", "packing", "sealer"} {
			fmt.Fprintf(&all, "  - {station: %s, name: all, at: [%d s], takes: %d min, planned: no}\n", s, at, takes)
		}
		plain := lanes.ReplaceAllString(machines(t, 60), "lanes: 1")
		longer := strings.Replace(plain, "one_replication: 60 min", fmt.Sprintf("one_replication: %d min", 60+takes), 1) + all.String()
		if !valid(plain) {
			t.Skip("not valid")
		}
		a, b := recordOf(t, plain, seed), recordOf(t, longer, seed)
		if a.Packs != b.Packs || a.In != b.In {
			t.Fatalf("%d packs in and %d out, with the stop %d and %d\n%s", a.In, a.Packs, b.In, b.Packs, longer)
		}
		for i, s := range a.Stations {
			if s.Ended != b.Stations[i].Ended {
				t.Fatalf("%s: %d ended, with the stop %d\n%s", s.Name, s.Ended, b.Stations[i].Ended, longer)
			}
		}
	})
}

// Little's law holds to the last microsecond: the packs on the line, added up over time, are the times the packs spent on it; and so for what
// waits in each buffer.
func TestLittlesLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFixed(t)
		text, seed := f.text(1, 3600), uint64(1)
		if rapid.Bool().Draw(t, "machines") {
			text, seed = machines(t, 60), rapid.Uint64().Draw(t, "seed")
			if !valid(text) {
				t.Skip("not valid")
			}
		}
		s, _ := scenarios.ReadBytes("little.yaml", []byte(text))
		m, err := New(s)
		if err != nil {
			t.Fatal(err)
		}
		l, err := m.Line(Options{Seed: seed, Replication: 1})
		if err != nil {
			t.Fatal(err)
		}
		boxes := l.inboxes()
		var area, last clock.Tick
		held, inPlaces := make([]clock.Tick, len(boxes)), make([]clock.Tick, len(boxes))
		pass := func() {
			d := l.cal.Now() - last
			last += d
			area += l.onLine() * d
			for i, b := range boxes {
				held[i] += clock.Tick(b.q.n) * d
				inPlaces[i] += min(clock.Tick(b.q.n), b.places) * d // what is beyond stands at a free server
			}
		}
		l.cal.Trace(func(int64, string, int) { pass() })
		if err := l.Run(); err != nil {
			t.Fatal(err)
		}
		pass()
		spent := l.Record(1).Start.Sum()
		l.each(func(u unit) { spent += l.sinceBorn(u, last) })
		if area != spent {
			t.Fatalf("%d pack-us on the line, %d us spent there by the packs\n%s", area, spent, text)
		}
		for i, b := range boxes {
			waited := b.waits.Sum()
			for k := range b.q.n {
				waited += last - b.q.at(k).at
			}
			if held[i] != waited {
				t.Fatalf("%s: %d units-us in it, %d us waited there\n%s", b.name, held[i], waited, text)
			}
			if got := b.level.Mean(last) * float64(last); math.Abs(got-float64(inPlaces[i])) > 1e-6*got {
				t.Fatalf("%s: the mean level says %.0f unit-us, it was %d\n%s", b.name, got, inPlaces[i], text)
			}
		}
	})
}

// sinceBorn is the time that the packs of a unit have been on the line.
func (l *Line) sinceBorn(u unit, now clock.Tick) clock.Tick {
	if u.box == none {
		return clock.Tick(u.n) * (now - u.born)
	}
	sum := clock.Tick(0)
	for _, p := range l.boxes.all[u.box].packs {
		sum += clock.Tick(p.n) * (now - p.born)
	}
	return sum
}

// inboxes are all waiting places of stations.
func (l *Line) inboxes() (list []*inbox) {
	for _, s := range l.stations {
		if s.in != nil {
			list = append(list, s.in)
		}
	}
	return list
}
