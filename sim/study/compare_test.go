package study_test

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"pascaline/scenarios"
	"pascaline/sim/line"
	"pascaline/sim/result"
	"pascaline/sim/study"
)

// entrant reads a scenario from text.
func entrant(t *testing.T, name, text string) study.Entrant {
	t.Helper()
	s, faults := scenarios.ReadBytes(name+".yaml", []byte(text))
	for _, f := range faults {
		t.Fatal(f)
	}
	m, err := line.New(s)
	if err != nil {
		t.Fatal(err)
	}
	return study.Entrant{Name: name, Model: m}
}

func compare(t *testing.T, o study.Options, list ...study.Entrant) *result.Comparison {
	t.Helper()
	c, runs, err := study.Compare(context.Background(), list, o)
	if err != nil {
		t.Fatal(err)
	}
	if len(runs) != len(list) {
		t.Fatalf("%d runs of %d scenarios", len(runs), len(list))
	}
	return c
}

func difference(t *testing.T, c *result.Comparison, scenario, measure string) result.Difference {
	t.Helper()
	for _, d := range c.Differences {
		if d.Scenario == scenario && d.Measure == measure {
			return d
		}
	}
	t.Fatalf("no difference of %s in %s", scenario, measure)
	return result.Difference{}
}

const bench = "scenario: bench\nproduct: {packs_per_case: 12}\npacking: {crew: 1 packer, time: {low: 20 s, likely: 26 s, high: 40 s}}\npeople: {packers: {heads: 2}}\nrun: {one_replication: 2 h}\n"

// A scenario against itself is exactly 0 in every measure, whatever is drawn.
func TestComparedWithItself(t *testing.T) {
	c := compare(t, study.Options{Seed: 9, Precision: 0.01, Workers: 2}, entrant(t, "a", bench), entrant(t, "b", bench))
	if len(c.Differences) < 3 {
		t.Fatalf("%d measures", len(c.Differences))
	}
	for _, d := range c.Differences {
		if d.Mean != 0 || *d.Low != 0 || *d.High != 0 || d.Shown || d.Above+d.Below != 0 {
			t.Errorf("%s: %+v", d.Measure, d)
		}
		if d.VarianceSaved == nil || *d.VarianceSaved != 1 {
			t.Errorf("%s: pairing did not save all", d.Measure)
		}
	}
	if c.Replications.N != study.Least || c.Replications.StoppedBy != "precision" || len(c.Differing) != 0 {
		t.Errorf("%+v, differing %v", c.Replications, c.Differing)
	}
}

// Times all a tenth shorter make a line that waits for nobody 10/9 as quick; people-hours per pack fall by a tenth. One packer more at one bench
// changes no rate, and costs an hour an hour.
func TestDifferencesByHand(t *testing.T) {
	quick := "scenario: quick\nproduct: {packs_per_case: 12}\npacking: {crew: 1 packer, time: {low: 18 s, likely: 23.4 s, high: 36 s}}\npeople: {packers: {heads: 2}}\nrun: {one_replication: 2 h}\n"
	more := "scenario: more\nproduct: {packs_per_case: 12}\npacking: {crew: 1 packer, time: {low: 20 s, likely: 26 s, high: 40 s}}\npeople: {packers: {heads: 3}}\nrun: {one_replication: 2 h}\n"
	c := compare(t, study.Options{Seed: 2, Replications: 40, Workers: 2}, entrant(t, "bench", bench), entrant(t, "quick", quick), entrant(t, "more", more))
	d := difference(t, c, "quick", "packs/h")
	near(t, "packs/h, share of the base", d.Share, 1/0.9-1, 0.004) // whole cases only: up to 1 of 250
	if !d.Shown || !d.Simultaneous || d.Level != study.Bonferroni(0.95, 2) || *d.VarianceSaved < 0.9 {
		t.Errorf("%+v", d)
	}
	near(t, "people-hours per 1,000 packs, share", difference(t, c, "quick", "people-hours per 1,000 packs").Share, -0.1, 0.004)
	d = difference(t, c, "more", "packs/h")
	if d.Mean != 0 || d.Shown {
		t.Errorf("a packer without a bench changes the rate: %+v", d)
	}
	near(t, "people-hours with three for two", difference(t, c, "more", "people-hours per 1,000 packs").Share, 0.5, 1e-9)
}

// The same whatever the number of workers; an interrupted one keeps the prefix.
func TestComparedByAnyWorkers(t *testing.T) {
	quick := entrant(t, "quick", "scenario: quick\nproduct: {packs_per_case: 12}\npacking: {time: {low: 18 s, likely: 23.4 s, high: 36 s}}\nrun: {one_replication: 2 h}\n")
	base := entrant(t, "bench", bench)
	one := compare(t, study.Options{Seed: 2, Precision: 0.01, Workers: 1}, base, quick)
	four := compare(t, study.Options{Seed: 2, Precision: 0.01, Workers: 4}, base, quick)
	a, b := difference(t, one, "quick", "packs/h"), difference(t, four, "quick", "packs/h")
	if a.Mean != b.Mean || *a.Low != *b.Low || one.Replications != four.Replications {
		t.Errorf("1 worker %+v, 4 workers %+v", a, b)
	}
	ctx, cancel := context.WithCancel(context.Background())
	c, _, err := study.Compare(ctx, []study.Entrant{base, quick}, study.Options{Seed: 2, Replications: 50, Workers: 2, Progress: func(n int, _ float64) {
		if n == 5 {
			cancel()
		}
	}})
	if err != nil || !c.Replications.Incomplete || c.Replications.N < 5 || c.Replications.N == 50 {
		t.Errorf("interrupted: %+v, %v", c, err)
	}
}

// Replications of other lengths are refused; another roster, another mass or another start is told.
func TestNotAlike(t *testing.T) {
	longer := entrant(t, "longer", "scenario: longer\npacking: {time: 20 s}\nrun: {one_replication: 3 h}\n")
	_, _, err := study.Compare(context.Background(), []study.Entrant{entrant(t, "bench", bench), longer}, study.Options{Seed: 1, Replications: 2, Workers: 1})
	var unlike *study.NotAlike
	if !errors.As(err, &unlike) {
		t.Fatalf("other lengths: %v", err)
	}
	if _, _, err = study.Compare(context.Background(), []study.Entrant{longer}, study.Options{Seed: 1, Replications: 2, Workers: 1}); !errors.As(err, &unlike) {
		t.Fatalf("nothing to compare with: %v", err)
	}
	filled := entrant(t, "filled", "scenario: filled\nproduct: {packs_per_carrier: 10}\nloading: {hand_time: {per: carrier, mean: 60 s, as: constant}}\nrun: {one_replication: 2 h}\n")
	if _, _, err = study.Compare(context.Background(), []study.Entrant{entrant(t, "bench", bench), filled}, study.Options{Seed: 1, Replications: 2, Workers: 1}); !errors.As(err, &unlike) {
		t.Errorf("packs beside carriers: %v", err)
	}
	night := "scenario: %s\npacking: {time: 20 s}\nroster: {shifts: {a: {hours: 06:00 to %s}}}\nrun: {one_replication: day}\n"
	day := func(name, to string) study.Entrant {
		return entrant(t, name, "scenario: "+name+night[len("scenario: %s"):len(night)-len("%s}}}\nrun: {one_replication: day}\n")]+to+"}}}\nrun: {one_replication: day}\n")
	}
	c := compare(t, study.Options{Seed: 1, Replications: 2, Workers: 1}, day("short", "12:00"), day("long", "14:00"))
	if len(c.Warnings) == 0 || c.Warnings[0].Code != "not alike" {
		t.Errorf("another roster is not told: %+v", c.Warnings)
	}
}

// Two lots of 100 packs at one machine of 2 s, due after 3 min and after 8 min: done after 200 s and 400 s, one late. At 1 s all are done after 200 s, and
// none is late.
func TestLotsCompared(t *testing.T) {
	const text = `scenario: lots
lots:
  - {lot: A, quantity: 100 packs, due: Mon 00:03}
  - {lot: B, quantity: 100 packs, due: Mon 00:08}
labeller: {time: %s}
run: {one_replication: until finished, starts: Mon 00:00}
`
	c := compare(t, study.Options{Seed: 1, Replications: 2, Workers: 1}, entrant(t, "slow", fmt.Sprintf(text, "2 s")), entrant(t, "quick", fmt.Sprintf(text, "1 s")))
	near(t, "hours until all are done", difference(t, c, "quick", "lots done").Mean, -200.0/3600, 1e-9)
	near(t, "lots late", difference(t, c, "quick", "lots late").Mean, -1, 0)
}
