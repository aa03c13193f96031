package main

import (
	"fmt"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"pascaline/report/export"
	"pascaline/report/words"
	"pascaline/scenarios"
	"pascaline/sim/capital"
	"pascaline/sim/result"
)

func paybackCommand() *cobra.Command {
	var f runFlags
	draws := capital.Draws
	c := &cobra.Command{
		Use:   "payback FILE",
		Short: "Say what buying something pays back, how sure that is, and when not to buy",
		Long: `Takes the scenario file as the line as it stands and each of its variants as an option: simulates all of them with the same
random numbers, puts what they make through the roster and what can be sold into money, and works out payback, net present value and internal
rate with their ranges. The money block of the file says what a pack earns, what hours, cycles and purchases cost and what can be sold; what an
option costs stands in its variant, under money.buy. Doing nothing and hiring instead are always among the options.

Writes results.json, report.html, whose first page is a brief to print and sign, and payback.xlsx, a workbook whose formulas work the
plan out again when a number is changed.`,
		Example: "  pascaline payback payback.yaml\n  pascaline payback payback.yaml --json",
		Args:    cobra.ExactArgs(1),
		RunE:    func(cmd *cobra.Command, args []string) error { return payback(cmd, args[0], f, draws) },
	}
	c.Flags().Uint64Var(&f.seed, "seed", 0, "seed of the random numbers (default: the scenario's, else 1)")
	c.Flags().StringVar(&f.replications, "replications", "auto", "a number, or auto: until each gain is known to a tenth")
	c.Flags().IntVar(&draws, "draws", capital.Draws, "draws of all that is not known, from 100 to 100000")
	c.Flags().IntVar(&f.workers, "workers", 0, "replications at the same time; 0: as many as the machine has cores. The results do not depend on it")
	c.Flags().StringVar(&f.out, "out", "", "folder for results.json, report.html and payback.xlsx (default: results/NAME, payback)")
	c.Flags().BoolVar(&f.json, "json", false, "print results.json instead of the summary")
	exportFlags(c)
	return c
}

// workbook is the file in which finance can change the plan's figures.
const workbook = "payback.xlsx"

func payback(cmd *cobra.Command, path string, f runFlags, draws int) error {
	if draws < 100 || draws > 100000 {
		return fmt.Errorf("--draws %d: from 100 to 100000", draws)
	}
	q, err := paybackQuestion(cmd, path)
	if err != nil {
		return err
	}
	q.Draws = draws
	o, err := studyOptions(cmd, q.Base, f)
	if err != nil {
		return err
	}
	out, err := placeFor(cmd, f.out, folderName(path, "", "payback"), workbook)
	if err != nil {
		return err
	}
	p := newProgress(cmd.ErrOrStderr())
	o.Progress = p.step
	r, err := capital.Study(cmd.Context(), q, o)
	p.done()
	if err != nil {
		return runFailed(err)
	}
	sign(r)
	words.FillPayback(r)
	return conclude(cmd, r, out, paybackAgain(path, r), f.json, r.Replications.Incomplete, func() error {
		return export.Workbook(filepath.Join(out, workbook), r)
	})
}

// paybackQuestion reads the line as it stands and all variants, and adds hiring where no variant does.
func paybackQuestion(cmd *cobra.Command, path string) (*capital.Question, error) {
	names, _, err := scenarios.Variants(path)
	if err != nil {
		return nil, &exitError{exitScenario, notThere(path, err)}
	}
	base, err := readPlain(cmd, path)
	if err != nil {
		return nil, err
	}
	q := &capital.Question{Base: base}
	hires := false
	for _, name := range names {
		s, err := readPlain(cmd, path, name)
		if err != nil {
			return nil, err
		}
		if base.Money == nil || s.Money == nil {
			break
		}
		x := capital.Option{Name: name, Kind: capital.KindOf(base, s), Scenario: s}
		hires = hires || x.Kind == capital.Hires
		q.Options = append(q.Options, x)
	}
	if err := q.Check(); err != nil {
		return nil, &exitError{exitScenario, fmt.Errorf("%s: %w", path, err)}
	}
	if !hires {
		for _, pool := range capital.Hands(base) {
			s, err := readPlain(cmd, path)
			if err != nil {
				return nil, err
			}
			capital.Hire(s, pool)
			q.Options = append(q.Options, capital.Option{Name: "hire one more: " + pool, Kind: capital.Hires, Scenario: s})
		}
	}
	q.Together = func(names []string) (*scenarios.Scenario, error) { return readPlain(cmd, path, names...) }
	q.Instead = func(a, b string) []string {
		fields, err := scenarios.Contradict(path, a, b)
		if err != nil {
			return []string{err.Error()}
		}
		return fields
	}
	return q, nil
}

// readPlain reads a file with some of its variants, or prints all its faults.
func readPlain(cmd *cobra.Command, path string, variants ...string) (*scenarios.Scenario, error) {
	s, faults, err := scenarios.ReadTogether(path, slices.Clone(variants))
	if err != nil {
		return nil, &exitError{exitScenario, notThere(path, err)}
	}
	if len(faults) == 0 {
		return s, nil
	}
	return nil, tellFaults(cmd, path, faults)
}

// paybackAgain is how to run it again, written on the page.
func paybackAgain(path string, r *result.Payback) string {
	s := fmt.Sprintf("pascaline payback %s --seed %d", quotedFile(path), r.Seed)
	if r.Replications.Asked != "auto" {
		s += " --replications " + r.Replications.Asked
	}
	if r.Draws != capital.Draws {
		s += fmt.Sprintf(" --draws %d", r.Draws)
	}
	return s
}
