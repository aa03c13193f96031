package line

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"pascaline/scenarios"
	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// drawnFor is the work drawn for a task of a bench by its number: what the machine or crew needs for it, whoever else waits.
func drawnFor(s *station, no uint64, perCase int) clock.Tick {
	switch j := s.bench.job.(type) {
	case *passing:
		return j.time[0].At(no)
	case *packing:
		return j.hand[0].work(no, perCase, 1) + j.perCase[0].At(no)
	}
	return 0
}

// least is the least time that n tasks can have taken together, of those that pieces with the numbers before numbered can ask for: which n
// of them have ended is left open, as a piece may be held on a bench for long while many numbered after it pass.
func least(s *station, n, numbered int64, perCase int) (sum clock.Tick) {
	all := make([]clock.Tick, numbered)
	for i := range all {
		all[i] = drawnFor(s, uint64(i), perCase)
	}
	slices.Sort(all)
	for _, d := range all[:n] {
		sum += d
	}
	return sum
}

// No station ends more than the times drawn for its pieces allow, and it was seen at work for that long: the rate is never above the bound
// from the times drawn. Belts take no more than their rate.
func TestRateIsNeverAboveTheBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, seed := machines(t, 60), rapid.Uint64().Draw(t, "seed")
		if !valid(text) {
			t.Skip("not valid")
		}
		sc, _ := scenarios.ReadBytes("bound.yaml", []byte(text))
		m, err := New(sc)
		if err != nil {
			t.Fatal(err)
		}
		l, err := m.Line(Options{Seed: seed, Replication: 1})
		if err != nil {
			t.Fatal(err)
		}
		if err := l.Run(); err != nil {
			t.Fatal(err)
		}
		r, perCase := l.Record(1), int(sc.Product.PacksPerCase)
		packs := map[string]int64{"labeller": 1, "packing": int64(perCase), "sealer": int64(perCase)}
		numbered := r.In // packs so far, and cases so far from the station that begins them
		for i, s := range l.stations {
			x := r.Stations[i]
			if s.bench == nil {
				belt := s.servers[0].(*lane).b
				if most := int64(len(s.servers)) * (r.Length/belt.gap + 1); x.Ended > most {
					t.Fatalf("%s: %d packs, at most %d can step on\n%s", s.name, x.Ended, most, text)
				}
				continue
			}
			if s.name == "packing" {
				numbered = int64(s.bench.count)
			}
			var worked clock.Tick
			for _, o := range x.Servers {
				worked += o.Times[measure.Processing]
			}
			need := least(s, x.Ended, numbered, perCase)
			if need > worked || worked > r.Length*clock.Tick(len(s.servers)) {
				t.Fatalf("%s: %d tasks that take at least %d us, at work %d us\n%s", s.name, x.Ended, need, worked, text)
			}
			if p := packs[s.name]; r.Packs > x.Ended*p {
				t.Fatalf("%d packs finished, but only %d went through %s\n%s", r.Packs, x.Ended*p, s.name, text)
			}
		}
	})
}
