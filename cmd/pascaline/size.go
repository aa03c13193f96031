package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"pascaline/report/words"
	"pascaline/scenarios"
	"pascaline/sim/study"
)

// sizeFlags are the flags of size.
type sizeFlags struct {
	variant, out string
	seed         uint64
	workers      int
	json         bool
}

func sizeCommand() *cobra.Command {
	var f sizeFlags
	c := &cobra.Command{
		Use:   "size FILE",
		Short: "Find the cheapest people and machines that meet a target",
		Long: `Reads the size block of a scenario: what may be chosen (people, stations, lanes, speeds, places, carriers, variants of the file), what it
costs, and the packs to be made. Finds the cheapest setting that meets the target, shows what one step less and one step more would
do, what more money would bring, and how busy the people are; writes results.json and report.html into a folder.

Hold and pressure come from the validated process and are never searched among.`,
		Example: "  pascaline size sizing.yaml",
		Args:    cobra.ExactArgs(1),
		RunE:    func(cmd *cobra.Command, args []string) error { return runSize(cmd, args[0], f) },
	}
	c.Flags().StringVar(&f.variant, "variant", "", "variant of the file that is the base of all settings (default: the file as it is written)")
	c.Flags().Uint64Var(&f.seed, "seed", 0, "seed of the random numbers (default: the scenario's, else 1)")
	c.Flags().IntVar(&f.workers, "workers", 0, "replications at the same time; 0: as many as the machine has cores. The results do not depend on it")
	c.Flags().StringVar(&f.out, "out", "", "folder for results.json and report.html (default: results/NAME, size)")
	c.Flags().BoolVar(&f.json, "json", false, "print results.json instead of the summary")
	exportFlags(c)
	return c
}

func runSize(cmd *cobra.Command, path string, f sizeFlags) error {
	s, faults, err := scenarios.Read(path, f.variant)
	if err != nil {
		return &exitError{exitScenario, notThere(path, err)}
	}
	if len(faults) > 0 {
		return tellFaults(cmd, path, faults)
	}
	if s.Size == nil {
		return &exitError{exitScenario, fmt.Errorf("%s has no size block; \"pascaline new FILE --from sizing\" writes an example of one", path)}
	}
	if f.workers < 0 {
		return fmt.Errorf("--workers %d: at least 1, or 0 for as many as the machine has cores", f.workers)
	}
	out, err := placeFor(cmd, f.out, folderName(path, f.variant, "size"))
	if err != nil {
		return err
	}
	o := study.Options{Seed: seedOf(cmd, s, f.seed), Workers: atOnce(f.workers)}
	p := newProgress(cmd.ErrOrStderr())
	o.Progress = p.settings
	r, err := study.Size(cmd.Context(), s, o)
	p.done()
	var none *study.NoShift
	switch {
	case errors.As(err, &none):
		return &exitError{exitScenario, err}
	case err != nil:
		return runFailed(err)
	}
	r.Variant = f.variant
	sign(r)
	words.FillSizing(r)
	again := []string{"pascaline size", quotedFile(path)}
	if f.variant != "" {
		again = append(again, "--variant", quoted(f.variant))
	}
	return conclude(cmd, r, out, strings.Join(append(again, "--seed", fmt.Sprint(r.Seed)), " "), f.json, r.Incomplete)
}

// settings shows how many settings are done.
func (p *progress) settings(done int, of float64) {
	if p.w != nil {
		_, _ = io.WriteString(p.w, fmt.Sprintf("\r%d of %.0f settings   ", done, of))
	}
}
