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
	"pascaline/scenarios/sheet"
)

// after is what goes with a change of a scenario file.
type after struct {
	beside []newFile                            // that the new values name
	notes  func(s *scenarios.Scenario) []string // what to look at in the changed scenario
}

// putInto shows what changes in a scenario file and puts it there, unless it is only to be shown. The file is replaced in one step, and only if
// the scenario can be read afterwards.
func putInto(cmd *cobra.Command, path string, values []scenarios.Value, a after, showOnly bool) error {
	w := cmd.ErrOrStderr()
	before, err := os.ReadFile(path)
	if err != nil {
		return &exitError{exitScenario, notThere(path, err)}
	}
	now, err := scenarios.Put(path, before, values)
	if err != nil {
		return &exitError{exitScenario, err}
	}
	fmt.Fprintf(w, "\nChanges in %s:\n", path)
	showDifference(w, string(before), string(now))
	if showOnly {
		if s, _, _ := readFirst(path); s != nil {
			showNotes(w, s, a.notes)
		}
		fmt.Fprintln(w, "Nothing was changed: --show-only.")
		return nil
	}
	if err := withFiles(a.beside, func() error {
		if err := readsBack(w, path, now, a.notes); err != nil {
			return err
		}
		return notDone(store.Write(path, now))
	}); err != nil {
		return err
	}
	for _, f := range a.beside {
		fmt.Fprintf(w, "Readings that stand for themselves: %s.\n", f.path)
	}
	fmt.Fprintf(w, "Put into %s.\n", path)
	return nil
}

// notDone is an error that ends the command as one that could not be done; nil stays nil.
func notDone(err error) error {
	if err == nil {
		return nil
	}
	return &exitError{exitFailed, err}
}

// readsBack refuses a change after which the scenario, or a variant of it that could be read before, could no longer be read. The text is tried beside the scenario, because it may name
// files there.
func readsBack(w io.Writer, path string, now []byte, notes func(*scenarios.Scenario) []string) error {
	trial := filepath.Join(filepath.Dir(path), "."+filepath.Base(path)+".trial")
	if err := store.Write(trial, now); err != nil {
		return &exitError{exitFailed, err}
	}
	defer os.Remove(trial)
	s, faults, err := readFirst(trial)
	if s != nil {
		showNotes(w, s, notes)
	}
	if err != nil {
		return &exitError{exitFailed, err}
	}
	if len(faults) == 0 {
		faults = newFaults(path, trial)
	}
	for _, f := range faults {
		fmt.Fprintln(w, strings.ReplaceAll(f.Error(), trial, path))
	}
	if len(faults) > 0 {
		return &exitError{exitScenario, fmt.Errorf("%s would no longer be valid; it was left as it is", path)}
	}
	return nil
}

// newFaults are those of the first variant, or of the file as it stands, that is valid in one file and no longer in the other.
func newFaults(before, after string) []scenarios.Fault {
	names, _, _ := scenarios.Variants(before)
	for _, v := range append([]string{""}, names...) {
		if _, old, err := scenarios.Read(before, v); err != nil || len(old) > 0 {
			continue
		}
		if _, faults, err := scenarios.Read(after, v); err == nil && len(faults) > 0 {
			return faults
		}
	}
	return nil
}

// readFirst reads a scenario; of a file with variants the first.
func readFirst(path string) (*scenarios.Scenario, []scenarios.Fault, error) {
	names, faults, err := scenarios.Variants(path)
	if err != nil || len(faults) > 0 {
		return nil, faults, err
	}
	return scenarios.Read(path, append(names, "")[0])
}

// showNotes says what to look at in a scenario that takes the values.
func showNotes(w io.Writer, s *scenarios.Scenario, notes func(*scenarios.Scenario) []string) {
	if notes == nil {
		return
	}
	for _, u := range notes(s) {
		fmt.Fprintln(w, "Note:", sheet.Harmless(u))
	}
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
			fmt.Fprintf(w, "%5d - %s\n", i+k+1, sheet.Harmless(strings.TrimSuffix(a[i+k], "\r")))
		}
		for k := range dj {
			fmt.Fprintf(w, "%5d + %s\n", j+k+1, sheet.Harmless(strings.TrimSuffix(b[j+k], "\r")))
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
