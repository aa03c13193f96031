package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"pascaline/report/store"
	"pascaline/scenarios"
	"pascaline/sim/result"
	"pascaline/sim/timestudy"
)

// putInto shows what changes in a scenario file and puts it there, unless it is only to be shown. The file is replaced in one step, and only if
// the scenario can be read afterwards.
func putInto(cmd *cobra.Command, path string, values []scenarios.Value, r *result.TimeFit, showOnly bool) error {
	w := cmd.ErrOrStderr()
	if len(values) == 0 {
		return &exitError{exitFailed, fmt.Errorf("nothing to put into %s: no task has a field yet; say where with --goes \"TASK=FIELD\" or a column \"field\"", path)}
	}
	before, err := os.ReadFile(path)
	if err != nil {
		return &exitError{exitScenario, notThere(path, err)}
	}
	after, err := scenarios.Put(path, before, values)
	if err != nil {
		return &exitError{exitScenario, err}
	}
	fmt.Fprintf(w, "\nChanges in %s:\n", path)
	showDifference(w, string(before), string(after))
	if showOnly {
		fmt.Fprintln(w, "Nothing was changed: --show-only.")
		return nil
	}
	if err := writeReadings(filepath.Dir(path), r); err != nil {
		return err
	}
	if err := readsBack(w, path, after, r); err != nil {
		return err
	}
	if err := store.Write(path, after); err != nil {
		return &exitError{exitFailed, err}
	}
	fmt.Fprintf(w, "Put into %s.\n", path)
	return nil
}

// readsBack refuses a change after which the scenario could no longer be read. The text is tried beside the scenario, because it may name
// files there.
func readsBack(w io.Writer, path string, after []byte, r *result.TimeFit) error {
	trial := filepath.Join(filepath.Dir(path), "."+filepath.Base(path)+".trial")
	if err := store.Write(trial, after); err != nil {
		return &exitError{exitFailed, err}
	}
	defer os.Remove(trial)
	names, faults, err := scenarios.Variants(trial)
	if err == nil && len(faults) == 0 {
		variant := ""
		if len(names) > 0 {
			variant = names[0]
		}
		var s *scenarios.Scenario
		if s, faults, err = scenarios.Read(trial, variant); s != nil {
			for _, u := range timestudy.Unlike(s, r) {
				fmt.Fprintln(w, "Note:", u)
			}
		}
	}
	if err != nil {
		return &exitError{exitFailed, err}
	}
	for _, f := range faults {
		fmt.Fprintln(w, strings.ReplaceAll(f.Error(), trial, path))
	}
	if len(faults) > 0 {
		return &exitError{exitScenario, fmt.Errorf("%s would no longer be valid; it was left as it is", path)}
	}
	return nil
}

// showDifference prints the lines that go and come, with their numbers.
func showDifference(w io.Writer, before, after string) {
	a, b := strings.Split(before, "\n"), strings.Split(after, "\n")
	i, j := 0, 0
	for i < len(a) || j < len(b) {
		if i < len(a) && j < len(b) && a[i] == b[j] {
			i, j = i+1, j+1
			continue
		}
		di, dj := meet(a[i:], b[j:])
		for k := range di {
			fmt.Fprintf(w, "%5d - %s\n", i+k+1, a[i+k])
		}
		for k := range dj {
			fmt.Fprintf(w, "%5d + %s\n", j+k+1, b[j+k])
		}
		i, j = i+di, j+dj
	}
}

// meet finds how many lines to pass on each side until they are the same again, passing as few as may be.
func meet(a, b []string) (int, int) {
	for total := 1; total <= len(a)+len(b); total++ {
		for di := range min(total, len(a)) + 1 {
			dj := total - di
			if dj > len(b) || di == len(a) != (dj == len(b)) {
				continue
			}
			if slices.Equal(a[di:min(di+2, len(a))], b[dj:min(dj+2, len(b))]) {
				return di, dj
			}
		}
	}
	return len(a), len(b)
}
