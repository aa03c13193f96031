package main

import (
	"context"
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"pascaline/report/words"
	"pascaline/scenarios/sheet"
	"pascaline/sim/line"
	"pascaline/sim/study"
	"pascaline/sim/timestudy"
)

// backtestFlags are the flags of backtest.
type backtestFlags struct {
	variant, sheet, out          string
	seed                         uint64
	replications, workers        int
	decimalComma, leaveOut, json bool
}

func backtestCommand() *cobra.Command {
	var f backtestFlags
	c := &cobra.Command{
		Use:   "backtest FILE COUNTED.csv|xlsx",
		Short: "Hold a scenario against what was counted on the floor",
		Long: `Simulates the scenario and holds its prediction against counts per hour, shift or day: is each within its interval, is there a bias
over all, and how small a bias these counts could have shown.

The sheet has a column "packs", "cases" or "cycles", and "hour" (date and time; with "to" where it is not one hour), or "date" and "shift", or "date".
Count everything that was finished in the period. A day that is a replication is one independent observation, however many hours are counted in it.`,
		Example: "  pascaline backtest line.yaml counted.csv",
		Args:    cobra.ExactArgs(2),
		RunE:    func(cmd *cobra.Command, args []string) error { return backtest(cmd, args[0], args[1], f) },
	}
	fl := c.Flags()
	fl.StringVar(&f.variant, "variant", "", "variant of the file to hold against the counts (default: the first, if it has any)")
	fl.StringVar(&f.sheet, "sheet", "", "sheet of a workbook (default: the first)")
	fl.BoolVar(&f.decimalComma, "decimal-comma", false, "numbers are written 12,5")
	fl.BoolVar(&f.leaveOut, "leave-out", false, "go on without rows that cannot be read; they are named all the same")
	fl.Uint64Var(&f.seed, "seed", 0, "seed of the random numbers (default: the scenario's, else 1)")
	fl.IntVar(&f.replications, "replications", 200, "replications of the prediction, at least 20")
	fl.IntVar(&f.workers, "workers", 0, "replications at the same time; 0: as many as the machine has cores. The results do not depend on it")
	fl.StringVar(&f.out, "out", "", "folder for results.json and report.html (default: results/NAME, counted)")
	fl.BoolVar(&f.json, "json", false, "print results.json instead of the summary")
	exportFlags(c)
	return c
}

func backtest(cmd *cobra.Command, path, counted string, f backtestFlags) error {
	if f.replications < 20 || f.replications > 1e5 || f.workers < 0 {
		return fmt.Errorf("--replications %d and --workers %d: 20 to 100000, and 0 or more", f.replications, f.workers)
	}
	s, variant, err := readScenario(cmd, path, f.variant)
	if err != nil {
		return err
	}
	t, faults, err := sheet.Read(counted, sheet.Options{DecimalComma: f.decimalComma, Sheet: f.sheet})
	if err != nil {
		return &exitError{exitScenario, err}
	}
	c, more := timestudy.ReadCounts(t, s)
	left, err := refuse(cmd, counted, append(faults, more...), f.leaveOut && len(c.All) > 0)
	if err != nil {
		return err
	}
	timestudy.Finer(s)
	m, err := line.New(s)
	if err != nil {
		return &exitError{exitScenario, err}
	}
	out, err := placeFor(cmd, f.out, folderName(path, variant, "counted"))
	if err != nil {
		return err
	}
	o := study.Options{Seed: seedOf(cmd, s, f.seed), Replications: f.replications, Workers: atOnce(f.workers)}
	p := newProgress(cmd.ErrOrStderr())
	o.Progress = p.step
	r, err := timestudy.Backtest(cmd.Context(), m, c, o)
	p.done()
	if stopped := context.Cause(cmd.Context()); err != nil && stopped != nil {
		return runFailed(stopped) // what was done by then was too little to judge by
	}
	if err != nil {
		return runFailed(err)
	}
	r.Variant, r.File, r.LeftOut = variant, filepath.Base(counted), left
	r.Incomplete = r.Replications < f.replications // nothing but an interrupt ends them early
	r.Warnings = append(r.Warnings, leftOut(left)...)
	sign(r)
	words.FillBacktest(r)
	again := fmt.Sprintf("%s --seed %d --replications %d", asCalled(cmd, path, counted), o.Seed, f.replications)
	if variant != "" {
		again += " --variant " + quoted(variant)
	}
	return conclude(cmd, r, out, again, f.json, r.Incomplete)
}
