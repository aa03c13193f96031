package study_test

import (
	"context"
	"flag"
	"fmt"
	"math"
	"os"
	"testing"

	"pascaline/sim/study"
)

// The full experiment is: go test ./sim/study -run Coverage -experiments 2000 -v (-written writes testdata/coverage.txt anew). Some
// minutes; without the flag fewer are done, which tells only a gross fault.
var (
	experiments = flag.Int("experiments", 150, "experiments on the coverage of intervals")
	written     = flag.Bool("written", false, "write the outcome of 2,000 experiments or more into testdata")
)

const coverageFile = "../../testdata/coverage.txt"

// machine is a line of one exponential machine that never waits: what it finishes in any time is Poisson, so that its rate is exactly 3600/mean.
func machine(t *testing.T, name string, mean float64) study.Entrant {
	return entrant(t, name, fmt.Sprintf("scenario: %s\nlabeller: {time: {mean: %g s, as: exponential}}\nrun: {one_replication: 20 min, steps: 20 min}\n", name, mean))
}

// covered is how often an interval held the exact value.
type covered struct {
	what    string
	n, hits int
	runs    int
}

func (c *covered) add(hit bool, runs int) {
	c.n++
	c.runs += runs
	if hit {
		c.hits++
	}
}

func (c *covered) share() float64 { return float64(c.hits) / float64(c.n) }

// The stopping rule looks at the interval after every replication and stops when it is narrow: that must not spoil its coverage. One in 20 intervals
// may miss; 2,000 experiments know the share to 0.5 points (one standard error), so 93.5 to 96.5 % is 3 of them.
func TestCoverageWithTheStoppingRule(t *testing.T) {
	n := *experiments
	if testing.Short() {
		n = min(n, 40)
	}
	base, quick, slow, little := machine(t, "base", 10), machine(t, "quick", 9), machine(t, "slow", 10.5), machine(t, "a little quicker", 9.7)
	rate := covered{what: "95 % interval of the rate, stopping rule on (2 %)"}
	paired := covered{what: "95 % interval of a paired difference, stopping rule on (2 %)"}
	together := covered{what: "three simultaneous 95 % intervals, all of them, stopping rule on (2 %)"}
	for i := range n {
		o := study.Options{Seed: uint64(1000 + i), Precision: 0.02, Workers: 2}
		r, err := study.Run(context.Background(), base.Model, o)
		if err != nil {
			t.Fatal(err)
		}
		e := r.Headline.PacksPerH
		rate.add(math.Abs(e.Mean-360) <= *e.HalfWidth, e.N)
		c := compare(t, o, base, quick, slow, little)
		all := true
		for name, mean := range map[string]float64{"quick": 9, "slow": 10.5, "a little quicker": 9.7} {
			d := difference(t, c, name, "packs/h")
			all = all && *d.Low <= 3600/mean-360 && 3600/mean-360 <= *d.High
		}
		together.add(all, c.Replications.N)
		c = compare(t, o, base, quick)
		d := difference(t, c, "quick", "packs/h")
		paired.add(*d.Low <= 40 && 40 <= *d.High, c.Replications.N)
	}
	report := "Coverage of intervals on one exponential machine, whose rate is exactly known. Made by:\ngo test ./sim/study -run Coverage -experiments 2000 -written\n\n"
	for _, x := range []*covered{&rate, &paired, &together} {
		report += fmt.Sprintf("%s: %d of %d experiments, %.2f %%; %.1f replications a study\n", x.what, x.hits, x.n, 100*x.share(), float64(x.runs)/float64(x.n))
		least, most := 0.95-4*math.Sqrt(0.95*0.05/float64(x.n)), 1.0
		if x.n >= 2000 {
			least, most = 0.935, 0.965
		}
		if x == &together {
			most = 1 // Bonferroni's bound is not reached where the differences go together
		}
		if s := x.share(); s < least || s > most {
			t.Errorf("%s: %.4f, want %.3f to %.3f", x.what, s, least, most)
		}
	}
	t.Log("\n" + report)
	if *written && n >= 2000 {
		if err := os.WriteFile(coverageFile, []byte(report), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
