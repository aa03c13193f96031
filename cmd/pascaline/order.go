package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"pascaline/report/words"
	"pascaline/sim/study"
)

func orderCommand() *cobra.Command {
	f := runFlags{}
	goal, try := study.LeastLateness, 200
	c := &cobra.Command{
		Use:   "order FILE",
		Short: "Suggest a better order of a scenario's lots",
		Long: `Looks for an order of the lots with less lateness, or with less time for changeovers: known rules first, then moves of single lots,
each tried by simulation with the same random numbers. The best is held against the order listed in new replications. It is a
suggestion: the file is not changed.`,
		Example: "  pascaline order toll-week.yaml\n  pascaline order toll-week.yaml --least changeover",
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			return orderScenario(cmd, args[0], f, goal, try)
		},
	}
	c.Flags().StringVar(&goal, "least", goal, "what is to be small: lateness (the greatest of any lot) or changeover (time that stations stand for it)")
	c.Flags().IntVar(&try, "try", try, "orders tried at most")
	c.Flags().StringVar(&f.variant, "variant", "", "variant of the file to take (default: the first, if it has any)")
	c.Flags().Uint64Var(&f.seed, "seed", 0, "seed of the random numbers (default: the scenario's, else 1)")
	c.Flags().StringVar(&f.replications, "replications", "100", "replications in which the order found is held against the one listed")
	c.Flags().IntVar(&f.workers, "workers", 0, "replications at the same time; 0: as many as the machine has cores. The results do not depend on it")
	c.Flags().StringVar(&f.out, "out", "", "folder for results.json and report.html (default: results/NAME, order)")
	c.Flags().BoolVar(&f.json, "json", false, "print results.json instead of the summary")
	exportFlags(c)
	return c
}

// look is how many replications each order is tried with.
const look = 10

func orderScenario(cmd *cobra.Command, path string, f runFlags, goal string, try int) error {
	if goal != study.LeastLateness && goal != study.LeastChangeover {
		return fmt.Errorf("--least %q is neither lateness nor changeover", goal)
	}
	if try < 1 || try > 100000 {
		return fmt.Errorf("--try %d: from 1 to 100000 orders", try)
	}
	s, variant, err := readScenario(cmd, path, f.variant)
	if err != nil {
		return err
	}
	o, err := studyOptions(cmd, s, f)
	if err != nil {
		return err
	}
	if o.Replications == 0 {
		o.Replications = 100
	}
	if len(s.Lots) == 0 {
		return &exitError{exitScenario, fmt.Errorf("%s has no lots: write them under lots, see pascaline new --from toll-week", path)}
	}
	out, err := placeFor(cmd, f.out, folderName(path, variant, "order"))
	if err != nil {
		return err
	}
	p := newProgress(cmd.ErrOrStderr())
	o.Progress = p.step
	r, err := study.Order(cmd.Context(), s, study.OrderOptions{Options: o, Goal: goal, Look: look, Try: try})
	p.done()
	if err != nil {
		return runFailed(err)
	}
	r.Variant = variant
	sign(r)
	words.FillOrdering(r)
	return conclude(cmd, r, out, orderAgain(path, variant, goal, r.Seed, try, r.Replications), f.json, r.Incomplete)
}

// orderAgain is how to run it again, written on the page.
func orderAgain(path, variant, goal string, seed uint64, try, replications int) string {
	s := "pascaline order " + quotedFile(path)
	if variant != "" {
		s += " --variant " + quoted(variant)
	}
	return s + fmt.Sprintf(" --least %s --seed %d --try %d --replications %d", goal, seed, try, replications)
}
