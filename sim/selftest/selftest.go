// Package selftest holds the simulator against values that others have published, through the product's own scenarios and stations.
//
// Every value stands in a CSV file of testdata/published with its source and with what is known of that source: "checked" (the
// citation was read), "memory" (it was not; the value itself was recomputed) or "derived" (worked out here, no publication is
// claimed). A tolerance comes from the known variance of the estimate, 4 standard errors, never from the run that is judged.
package selftest

import (
	"context"
	"fmt"
	"math"
	"sync"
)

// Check is one value compared. Status is "checked", "memory" or "derived".
type Check struct {
	Group     string  `json:"group"`
	Name      string  `json:"name"`
	Quantity  string  `json:"quantity"`
	Source    string  `json:"source"`
	Status    string  `json:"status"`
	Expected  float64 `json:"expected"`
	Got       float64 `json:"got"`
	Tolerance float64 `json:"tolerance"`
	Pass      bool    `json:"pass"`
}

// Case is one line, or one formula, with all values that are compared on it. Run may leave Group and Name of a check empty: then they
// are those of the case. Pass is always worked out anew.
type Case struct {
	Group, Name string
	Quick       bool // one of those that are run when time is short
	Run         func(r *Runner) ([]Check, error)
}

// Cases are all cases, in the order in which they are reported.
func Cases() []Case {
	var list []Case
	for _, t := range tables() {
		list = append(list, t.cases()...)
		if t.group == "statistics" {
			list = append(list,
				Case{t.group, "common random numbers", true, pairedExponentials},
				Case{t.group, "stopping rule", true, stopsWhenPrecise})
		}
	}
	return list
}

// Within tells whether a value is as expected. What is no number never is.
func (c *Check) Within() bool { return math.Abs(c.Got-c.Expected) <= c.Tolerance }

// Run runs all cases, or the quick ones, on so many workers. The checks are in order of Cases, and the same to the last digit whatever
// the number of workers. The error names the case that could not be run, or is that of a cancelled context.
func Run(ctx context.Context, quick bool, workers int) ([]Check, error) {
	var list []Case
	for _, c := range Cases() {
		if c.Quick || !quick {
			list = append(list, c)
		}
	}
	return run(ctx, list, workers)
}

func run(ctx context.Context, list []Case, workers int) ([]Check, error) {
	type outcome struct {
		checks []Check
		err    error
	}
	done := make([]outcome, len(list))
	jobs := make(chan int)
	var all sync.WaitGroup
	for range max(1, min(workers, len(list))) {
		all.Go(func() {
			for i := range jobs {
				done[i].checks, done[i].err = list[i].run(ctx)
			}
		})
	}
	for i := range list {
		jobs <- i // a case that is begun after the end of ctx returns at once
	}
	close(jobs)
	all.Wait()
	var checks []Check
	for _, o := range done {
		if o.err != nil {
			return checks, o.err
		}
		checks = append(checks, o.checks...)
	}
	return checks, nil
}

func (c *Case) run(ctx context.Context) ([]Check, error) {
	r := &Runner{ctx: ctx, Seed: Seed}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	checks, err := c.Run(r)
	if err == nil && len(checks) == 0 {
		err = fmt.Errorf("nothing was compared")
	}
	if err != nil {
		return nil, fmt.Errorf("%s, %s: %w", c.Group, c.Name, err)
	}
	for i := range checks {
		x := &checks[i]
		if x.Group == "" {
			x.Group = c.Group
		}
		if x.Name == "" {
			x.Name = c.Name
		}
		x.Pass = x.Within()
	}
	return checks, nil
}
