package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"pascaline/report/words"
	"pascaline/scenarios"
	"pascaline/sim/line"
	"pascaline/sim/result"
	"pascaline/sim/study"
)

func compareCommand() *cobra.Command {
	var f runFlags
	c := &cobra.Command{
		Use:   "compare BASE [OTHER...]",
		Short: "Say what changes from one scenario to others, and how sure that is",
		Long: `Simulates the scenarios side by side with the same random numbers, and says by how much each differs from the first: packs and
vessel cycles per hour, people-hours per 1,000 packs, time out of the chilled store. Results go into results.json and report.html.

One file alone is compared with each of its variants; among the others, a file with variants stands for itself and each of them.`,
		Example: "  pascaline compare line.yaml wider-dryer.yaml\n  pascaline compare second-loading.yaml",
		Args:    cobra.MinimumNArgs(1),
		RunE:    func(cmd *cobra.Command, args []string) error { return compareScenarios(cmd, args, f) },
	}
	addStudyFlags(c, &f, "NAMES, compared")
	return c
}

func compareScenarios(cmd *cobra.Command, paths []string, f runFlags) error {
	list, err := entrants(cmd, paths)
	if err != nil {
		return err
	}
	o, err := studyOptions(cmd, list[0].Model.Scenario(), f)
	if err != nil {
		return err
	}
	out, err := placeFor(cmd, f.out, comparedFolder(paths))
	if err != nil {
		return err
	}
	p := newProgress(cmd.ErrOrStderr())
	o.Progress = p.step
	r, runs, err := study.Compare(cmd.Context(), list, o)
	p.done()
	var unlike *study.NotAlike
	switch {
	case errors.As(err, &unlike):
		return &exitError{exitScenario, err}
	case err != nil:
		return runFailed(err)
	}
	sign(r)
	words.FillComparison(r, runs)
	var names []string
	for _, path := range paths {
		names = append(names, quotedFile(path))
	}
	again := again("pascaline compare "+strings.Join(names, " "), r.Seed, r.Replications, f)
	return conclude(cmd, r, out, again, f.json, r.Replications.Incomplete)
}

// comparedFolder is the folder below results of a comparison of these files.
func comparedFolder(paths []string) string {
	var words []string
	for _, path := range paths {
		words = append(words, stem(path))
	}
	return folderOf(append(words, "compared"))
}

// entrants reads all scenarios that are compared and gives each a name of its own.
func entrants(cmd *cobra.Command, paths []string) ([]study.Entrant, error) {
	var list []study.Entrant
	var files []string
	add := func(path, variant string) error {
		s, _, err := readAs(cmd, path, variant)
		if err != nil {
			return err
		}
		m, err := line.New(s)
		if err != nil {
			return &exitError{exitScenario, err}
		}
		name := string(s.Name)
		switch {
		case variant != "" && len(paths) == 1:
			name = variant
		case variant != "":
			name += ", " + variant
		}
		list, files = append(list, study.Entrant{Name: name, Variant: variant, Model: m}), append(files, filepath.Base(path))
		return nil
	}
	for i, path := range paths {
		variants, faults, err := scenarios.Variants(path)
		if err != nil {
			return nil, &exitError{exitScenario, notThere(path, err)}
		}
		if len(faults) > 0 {
			return nil, tellFaults(cmd, path, faults)
		}
		if err := add(path, ""); err != nil {
			return nil, err
		}
		if i == 0 && len(paths) > 1 {
			continue // the base stands as it is
		}
		if last := len(list) - 1; i > 0 && len(variants) > 0 && len(scenarios.Differ([]*scenarios.Scenario{list[0].Model.Scenario(), list[last].Model.Scenario()})) == 0 {
			list, files = list[:last], files[:last] // without a variant it is the base itself
		}
		for _, v := range variants {
			if err := add(path, v); err != nil {
				return nil, err
			}
		}
	}
	if len(list) < 2 {
		return nil, fmt.Errorf("%s has no variants, so there is nothing to compare it with; name another file", paths[0])
	}
	return unique(list, files), nil
}

// unique tells scenarios of one name apart, by their file and then by their place.
func unique(list []study.Entrant, files []string) []study.Entrant {
	same := func(name string) (n int) {
		for _, e := range list {
			if e.Name == name {
				n++
			}
		}
		return n
	}
	for _, mark := range []func(i int) string{func(i int) string { return " (" + files[i] + ")" }, func(i int) string { return fmt.Sprintf(", no. %d", i+1) }} {
		var twice []int
		for i, e := range list {
			if same(e.Name) > 1 {
				twice = append(twice, i)
			}
		}
		for _, i := range twice {
			list[i].Name += mark(i)
		}
	}
	return list
}

// again is a command with what is needed to get the same figures.
func again(command string, seed uint64, n result.Replications, f runFlags) string {
	command += fmt.Sprintf(" --seed %d", seed)
	if n.Asked != "auto" {
		command += " --replications " + n.Asked
	}
	if f.precision != "" {
		command += " --precision " + quoted(f.precision)
	}
	return command
}
