package study_test

import (
	"fmt"
	"testing"

	"pascaline/scenarios"
	"pascaline/sim/line"
	"pascaline/sim/study"
)

// lotsRun runs a scenario with lots, given as text, once.
func lotsRun(t *testing.T, src string) *line.Record {
	t.Helper()
	s, faults := scenarios.ReadBytes("lots.yaml", []byte("scenario: lots\n"+src))
	for _, f := range faults {
		t.Fatal(f)
	}
	m, err := line.New(s)
	if err != nil {
		t.Fatal(err)
	}
	r, err := study.One(m, line.Options{Seed: 1, Replication: 1, CycleEnds: true})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func doneAt(i int) func(*line.Record) float64 {
	return func(r *line.Record) float64 { return float64(r.Lots[i].Done) / 1e6 }
}

func parts(r *line.Record) float64 { return float64(r.Vessel.Part) }

const (
	twoLots  = "lots: [{lot: a, quantity: 3 packs}, {lot: b, quantity: 3 packs}]\n"
	twoKinds = "products: {A: {hold: 100 s}, B: {hold: 160 s}}\nlots: [{lot: a, product: A, quantity: 3 packs}, {lot: b, product: B, quantity: 3 packs}]\n"
	apart    = "lots: [{lot: a, quantity: 5 packs}, {lot: b, quantity: 5 packs}]\nlabeller: {time: 1 s}\n"
)

// Cases of our own, worked out by hand; times in seconds.
var lotCases = []struct {
	name, src, why string
	got            func(*line.Record) float64
	want           float64
}{
	{"loads are never mixed", "product: {hold: 100 s}\n" + twoLots + "vessel: {carriers_per_load: 2}\n",
		"loads of 2, 1, 2, 1 carriers", cycleEnd(3), 400},
	{"and two of them are part loads", "product: {hold: 100 s}\n" + twoLots + "vessel: {carriers_per_load: 2}\n", "one at the end of each lot", parts, 2},
	{"mixed where that is allowed", "product: {hold: 100 s}\n" + twoLots + "vessel: {carriers_per_load: 2, mixed_loads: same hold and pressure}\n",
		"three full loads", cycleEnd(2), 300},
	{"each product keeps its own hold", twoKinds + "vessel: {carriers_per_load: 2, mixed_loads: same hold and pressure}\n",
		"100 + 100 + 160 + 160: holds differ, so nothing is mixed", cycleEnd(3), 520},
	{"gas leaves before the pumps start", "product: {hold: 100 s, gas_wait: 15 s}\n" + twoLots + "vessel: {carriers_per_load: 3}\n", "2 x (100 + 15)", cycleEnd(1), 230},
	{"each lot has its own last case", "product: {packs_per_case: 4}\nlots: [{lot: a, quantity: 10 packs}, {lot: b, quantity: 6 packs}]\npacking: {time: {mean: 8 s, as: constant}}\n",
		"4, 4, 2 and 4, 2", cases, 5},
	{"a part-full case takes its share of the time", "product: {packs_per_case: 4}\nlots: [{lot: a, quantity: 10 packs}, {lot: b, quantity: 6 packs}]\npacking: {time: {mean: 8 s, as: constant}}\n",
		"8 + 8 + 4 + 8 + 4", doneAt(1), 32},
	{"cases of the next product", "products: {A: {packs_per_case: 5}, B: {packs_per_case: 2}}\nlots: [{lot: a, product: A, quantity: 6 packs}, {lot: b, product: B, quantity: 3 packs}]\npacking: {time: {mean: 10 s, as: constant}}\n",
		"10 + 2, then 10 + 5", doneAt(1), 27},
	{"a lot that is not ready holds the line", "lots: [{lot: a, quantity: 2 packs, ready: 5 min}, {lot: b, quantity: 2 packs}]\nlabeller: {time: 10 s}\n",
		"300 + 40", doneAt(1), 340},
	{"or the next ready lot goes first", "lots: [{lot: a, quantity: 2 packs, ready: 5 min}, {lot: b, quantity: 2 packs}]\nlot_order: next ready lot\nlabeller: {time: 10 s}\n",
		"20, while the other ends at 320", doneAt(1), 20},
	{"lots follow each other on a belt", apart + "dryer: {travel: 100 s}\n", "the tenth pack steps on at 10", doneAt(1), 110},
	{"kept apart, the next waits until the last has left", apart + "kept_apart: [dryer]\ndryer: {travel: 100 s}\n",
		"the last of a leaves at 105; b's first steps on then, the fifth 4 s later", doneAt(1), 209},
	{"part of a changeover is done before the stop", "products: {A: {}, B: {}}\nlots: [{lot: a, product: A, quantity: 10 packs}, {lot: b, product: B, quantity: 10 packs}]\n" +
		"changeovers: [{station: labeller, takes: 12 min, before_the_stop: 5 min}]\nlabeller: {time: 1 min}\n", "600 + 420 + 600", doneAt(1), 1620},
	{"unless the lot before is too short for it", "products: {A: {}, B: {}}\nlots: [{lot: a, product: A, quantity: 2 packs}, {lot: b, product: B, quantity: 10 packs}]\n" +
		"changeovers: [{station: labeller, takes: 12 min, before_the_stop: 5 min}]\nlabeller: {time: 1 min}\n", "the part before ends at 300, then 420 and 600", doneAt(1), 1320},
	{"a changeover of the line waits until it is empty", "products: {A: {}, B: {}}\nlots: [{lot: a, product: A, quantity: 2 packs}, {lot: b, product: B, quantity: 2 packs}]\n" +
		"changeovers: [{station: line, takes: 10 min}]\nlabeller: {time: 10 s}\ndryer: {travel: 100 s}\n", "a is out at 120; 600 later b is begun: 720 + 100 + 20", doneAt(1), 840},
	{"one of the line and one of the station", "products: {A: {}, B: {}}\nlots: [{lot: a, product: A, quantity: 2 packs}, {lot: b, product: B, quantity: 2 packs}]\n" +
		"changeovers: [{station: dryer, takes: 1 min}, {station: line, takes: 10 min}]\nlabeller: {time: 10 s}\ndryer: {travel: 100 s}\n", "a is out at 120; 600, 60, then b: 780 + 100 + 20", doneAt(1), 900},
	{"the line is set for something else", "products: {A: {}, B: {}}\nset_for: B\nlots: [{lot: a, product: A, quantity: 2 packs}]\nchangeovers: [{station: labeller, takes: 10 min}]\nlabeller: {time: 10 s}\n",
		"600 + 20", doneAt(0), 620},
	{"changeovers take people", "products: {A: {}, B: {}}\nlots: [{lot: a, product: A, quantity: 2 packs}, {lot: b, product: B, quantity: 2 packs}]\n" +
		"changeovers: [{station: labeller, takes: 60 s, by: 1 fitter}]\nlabeller: {time: 10 s}\ncheckweigher: {fed: {at: [19 s]}, time: 100 s, by: 1 fitter}\npeople: {fitters: {heads: 1}}\n" +
		"run: {one_replication: until finished}\n", "the fitter is at the checkweigher until 119; then 60 and 20", doneAt(1), 199},
	{"what stands on the table at the start comes first", "product: {packs_per_case: 4}\nlots: [{lot: z, quantity: 9 packs}, {lot: a, quantity: 20 packs}]\ntable: {places: 40 packs}\npacking: {time: {mean: 8 s, as: constant}}\n" +
		"run: {starts: {at: Mon 06:00, lot: a, left: 5 packs, table: 3 packs}}\n", "8 packs are left of lot a: two cases", doneAt(0), 16},
}

func TestLots(t *testing.T) {
	for _, c := range lotCases {
		t.Run(c.name, func(t *testing.T) {
			near(t, c.why, c.got(lotsRun(t, c.src)), c.want, 1e-6)
		})
	}
}

// O9: the sequence A A B A B takes 50 min of work and three changeovers of 12 min; A A A B B takes one.
func TestChangeoverOnlyWhenTheProductChanges(t *testing.T) {
	r := once(t, "testdata/hand/o9.yaml", line.Options{Seed: 1, Replication: 1})
	near(t, "A A B A B", doneAt(4)(r)/60, 86, 1e-9)
	if n := r.Changes[0].Times; n != 3 {
		t.Errorf("%d changeovers, want 3", n)
	}
	src := "products: {A: {}, B: {}}\nset_for: A\nchangeovers: [{station: labeller, takes: 12 min, before_the_stop: 8 min}]\nlabeller: {time: 1 min}\nlots:\n"
	for i, p := range []string{"A", "A", "B", "A", "B"} {
		src += fmt.Sprintf("  - {lot: l%d, product: %s, quantity: 10 packs}\n", i, p)
	}
	near(t, "A A B A B, 8 of the 12 min outside the stop", doneAt(4)(lotsRun(t, src))/60, 62, 1e-9)
	src = "products: {A: {}, B: {}}\nset_for: A\nchangeovers: [{station: labeller, takes: 12 min}]\nlabeller: {time: 1 min}\nlots:\n"
	for i, p := range []string{"A", "A", "A", "B", "B"} {
		src += fmt.Sprintf("  - {lot: l%d, product: %s, quantity: 10 packs}\n", i, p)
	}
	near(t, "A A A B B", doneAt(4)(lotsRun(t, src))/60, 62, 1e-9)
}

// What belongs to a lot's things is drawn by the lot's name: in another order each carrier takes as long as before.
func TestAnotherOrderLeavesDrawsAlone(t *testing.T) {
	const line1 = "product: {packs_per_carrier: 10}\nloading: {hand_time: {per: carrier, low: 20 s, likely: 30 s, high: 60 s}}\nlots:\n"
	const a, b = "  - {lot: a, quantity: 300 packs}\n", "  - {lot: b, quantity: 170 packs}\n"
	one, other := lotsRun(t, line1+a+b), lotsRun(t, line1+b+a)
	took := func(r *line.Record, i int) float64 { return float64(r.Lots[i].Done-r.Lots[i].Begun) / 1e6 }
	near(t, "lot a", took(one, 0), took(other, 1), 1e-6)
	near(t, "lot b", took(one, 1), took(other, 0), 1e-6)
}

// Chances need more replications than a mean: a list of lots is run at least 100 times.
func TestLotsAreRunOftenEnough(t *testing.T) {
	s, faults := scenarios.ReadBytes("lots.yaml", []byte("scenario: x\nlots: [{lot: a, quantity: 5 packs, due: 1 min}]\nlabeller: {time: 10 s}\n"))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	m, err := line.New(s)
	if err != nil {
		t.Fatal(err)
	}
	r, err := study.Run(t.Context(), m, study.Options{Seed: 1, Precision: 0.01, Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	if r.Replications.N != study.LeastForLots || r.Replications.StoppedBy != "precision" {
		t.Errorf("%d replications, stopped by %s", r.Replications.N, r.Replications.StoppedBy)
	}
	if x := r.Lots.Each[0]; *x.Late != 0 || x.LateHigh < 0.03 || x.LateHigh > 0.04 { // Wilson: 3.84 / (100 + 3.84)
		t.Errorf("late %g (to %g), want 0 to 0.037", *x.Late, x.LateHigh)
	}
}

// Two people tip and hold what they cannot hand on, and the third is kept for a task of two: nothing moves any more. The run says why.
func TestPeopleWhoWaitForEachOtherAreTold(t *testing.T) {
	r := lotsRun(t, "product: {packs_per_carrier: 4}\nlots: [{lot: a, quantity: 40 packs}]\n"+
		"tip: {stations: 2, by: 1 hand, per_pack: 1 s}\nlabeller: {time: 1 s, by: 1 hand}\npeople: {hands: {heads: 2}}\nrun: {one_replication: until finished, at_most: 2 h}\n")
	for _, w := range r.Warnings {
		if w.Code == "people wait for each other" {
			return
		}
	}
	t.Errorf("nothing of people who wait for each other: %+v, lots %+v", r.Warnings, r.Lots)
}

// One person wipes 10 wet packs, 60 s each, which come off the dryer 6 s apart: pack n is wiped at 60 n and was there at 6 n, so packs wait
// (60-6) x (0+1+...+9)/10 = 243 s and are wiped for 60 s. That is where the lot waited, though nothing waits before a station.
func TestLotsWaitInsideStationsToo(t *testing.T) {
	s, faults := scenarios.ReadBytes("lots.yaml", []byte(`scenario: x
lots: [{lot: a, quantity: 10 packs}]
dryer: {rate: 10/min, travel: 30 s, wet: {share: 100 %, then: wiped by hand, takes: 60 s, by: 1 packer}}
people: {packer: {serve: [dryer]}}
roster: {shifts: {day: {hours: 06:00 to 14:00, people: {packer: 1}}}}
cold_chain: {limit: 2 min}
`))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	m, err := line.New(s)
	if err != nil {
		t.Fatal(err)
	}
	r, err := study.Run(t.Context(), m, study.Options{Seed: 1, Replications: 2})
	if err != nil {
		t.Fatal(err)
	}
	const place = "in dryer, wet packs too"
	if got := r.Lots.Each[0].OverBy; got != "waiting "+place {
		t.Errorf("over the limit by %q, want waiting %s", got, place)
	}
	if len(r.Lots.Wait) == 0 || r.Lots.Wait[0].Place != place {
		t.Fatalf("waits %+v, want %s first", r.Lots.Wait, place)
	}
	near(t, "wait and wiping", r.Lots.Wait[0].MeanS, 243+60, 1e-6)
}
