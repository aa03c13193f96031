package main

import (
	"errors"
	"fmt"
	"runtime"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"pascaline/report/words"
	"pascaline/scenarios"
	"pascaline/scenarios/units"
	"pascaline/sim/line"
	"pascaline/sim/result"
	"pascaline/sim/study"
)

// runFlags are the flags of run.
type runFlags struct {
	variant, replications, precision, out string
	seed                                  uint64
	workers                               int
	json, gains, steady                   bool
}

func runCommand() *cobra.Command {
	var f runFlags
	c := &cobra.Command{
		Use:   "run FILE",
		Short: "Simulate a scenario and write its page",
		Long: `Simulates the scenario again and again until the answer is precise enough, prints a summary of one screen, and writes
results.json and report.html into a folder. Of a file with variants one is run: the first, or the one that --variant names; compare sets all of them
beside the file as it stands.`,
		Example: "  pascaline run line.yaml\n  pascaline run second-loading.yaml --variant \"hire instead, one station\"",
		Args:    cobra.ExactArgs(1),
		RunE:    func(cmd *cobra.Command, args []string) error { return runScenario(cmd, args[0], f) },
	}
	c.Flags().StringVar(&f.variant, "variant", "", "variant of the file to run (default: the first, if it has any)")
	addStudyFlags(c, &f, "NAME")
	c.Flags().BoolVar(&f.gains, "gains", false, "work out what limits the line: what it gains if one station is 10 % faster, or with one more person, carrier or place (some ten times the work)")
	c.Flags().BoolVar(&f.steady, "steady", false, "without roster, everybody always there, the start cut off: what the line brings once it has filled up")
	return c
}

// addStudyFlags are the flags of commands that run scenarios as they stand; their results go into this folder below results.
func addStudyFlags(c *cobra.Command, f *runFlags, folder string) {
	c.Flags().Uint64Var(&f.seed, "seed", 0, "seed of the random numbers (default: the scenario's, else 1)")
	c.Flags().StringVar(&f.replications, "replications", "auto", "a number, or auto: until the precision is reached")
	c.Flags().StringVar(&f.precision, "precision", "", "relative half width of the headline to be reached, such as \"2 %\" (default: the scenario's)")
	c.Flags().IntVar(&f.workers, "workers", 0, "replications at the same time; 0: as many as the machine has cores. The results do not depend on it")
	c.Flags().StringVar(&f.out, "out", "", "folder for results.json and report.html (default: results/"+folder+")")
	c.Flags().BoolVar(&f.json, "json", false, "print results.json instead of the summary")
	exportFlags(c)
}

func runScenario(cmd *cobra.Command, path string, f runFlags) error {
	s, variant, err := readScenario(cmd, path, f.variant)
	if err != nil {
		return err
	}
	if variant != f.variant {
		fmt.Fprintf(cmd.ErrOrStderr(), "All of them beside the file as it stands: pascaline compare %s\n", quoted(path))
	}
	o, err := studyOptions(cmd, s, f)
	if err != nil {
		return err
	}
	if o.Steady = f.steady; o.Steady {
		if f.gains {
			return errors.New("--gains and --steady do not go together: gains are worked out for the hours that the plant works")
		}
		o.WeekH = s.WeekHours("")
		if s, err = study.SteadyScenario(s); err != nil {
			return &exitError{exitScenario, err}
		}
	}
	m, err := line.New(s)
	if err != nil {
		return &exitError{exitScenario, err}
	}
	out, err := placeFor(cmd, f.out, runFolder(path, variant, f.steady))
	if err != nil {
		return err
	}
	p := newProgress(cmd.ErrOrStderr())
	o.Progress = p.step
	r, err := study.Run(cmd.Context(), m, o)
	if err == nil && f.gains && !r.Replications.Incomplete {
		err = study.Gains(cmd.Context(), m, o, r)
	}
	p.done()
	if err != nil {
		return runFailed(err)
	}
	r.Variant, r.OtherVariants = variant, otherVariants(path, variant)
	sign(r)
	words.Fill(r)
	return conclude(cmd, r, out, command(path, variant, r, f), f.json, r.Replications.Incomplete)
}

// runFolder is the folder of a run below results.
func runFolder(path, variant string, steady bool) string {
	if steady {
		return folderName(path, variant, "steady")
	}
	return folderName(path, variant)
}

// otherVariants are those of a file, which was read well, that were not run.
func otherVariants(path, variant string) []string {
	names, _, _ := scenarios.Variants(path)
	return slices.DeleteFunc(names, func(n string) bool { return n == variant })
}

// runFailed tells a failed check of the run from any other failure.
func runFailed(err error) error {
	var im *line.Imbalance
	if errors.As(err, &im) {
		return &exitError{exitCheck, err}
	}
	return &exitError{exitFailed, err}
}

func studyOptions(cmd *cobra.Command, s *scenarios.Scenario, f runFlags) (study.Options, error) {
	o := study.Options{Seed: seedOf(cmd, s, f.seed), Replications: int(s.Run.Replications), Precision: float64(s.Run.Precision), Workers: atOnce(f.workers), Replays: true}
	if f.precision != "" {
		var share units.Share
		if err := share.Parse(f.precision); err != nil || share <= 0 {
			return o, fmt.Errorf("--precision %q is not a share, such as \"2 %%\"", f.precision)
		}
		o.Precision = float64(share)
	}
	if cmd.Flags().Changed("replications") {
		n, err := strconv.Atoi(f.replications)
		if f.replications != "auto" && (err != nil || n < 1 || n > 1e6) {
			return o, fmt.Errorf("--replications %q is neither a number from 1 to 1000000 nor auto", f.replications)
		}
		o.Replications = n
	}
	if f.workers < 0 {
		return o, fmt.Errorf("--workers %d: at least 1, or 0 for as many as the machine has cores", f.workers)
	}
	return o, nil
}

// seedOf is the seed that was said, else the scenario's, else 1.
func seedOf(cmd *cobra.Command, s *scenarios.Scenario, said uint64) uint64 {
	switch {
	case cmd.Flags().Changed("seed"):
		return said
	case s.Run.Seed != nil:
		return uint64(*s.Run.Seed)
	}
	return 1
}

// atOnce is how many replications run at the same time: as many as were said, or as the machine has cores.
func atOnce(said int) int {
	if said == 0 {
		return runtime.NumCPU()
	}
	return said
}

// command is how to run it again, written on the page.
func command(path, variant string, r *result.Run, f runFlags) string {
	b := []string{"pascaline run", quotedFile(path)}
	if variant != "" {
		b = append(b, "--variant", quoted(variant))
	}
	if f.steady {
		b = append(b, "--steady")
	}
	if f.gains {
		b = append(b, "--gains")
	}
	return again(strings.Join(b, " "), r.Seed, r.Replications, f)
}
