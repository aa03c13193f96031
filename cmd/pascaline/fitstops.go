package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"pascaline/report/words"
	"pascaline/scenarios"
	"pascaline/scenarios/sheet"
	"pascaline/sim/result"
	"pascaline/sim/timestudy"
)

// fitStops fits a stop log.
func fitStops(cmd *cobra.Command, path string, t *sheet.Table, faults []sheet.Fault, f fitFlags) error {
	from, to, err := logBounds(f)
	if err != nil {
		return err
	}
	var o timestudy.StopOptions
	if f.roster != "" {
		s, _, err := readScenario(cmd, f.roster, "")
		if err != nil {
			return err
		}
		if o.Roster = s.Roster; o.Roster == nil {
			return &exitError{exitScenario, fmt.Errorf("%s has no roster: its line always runs; leave --roster out", f.roster)}
		}
	}
	l, more := timestudy.ReadLog(t, from, to)
	left, err := refuse(cmd, path, append(faults, more...), f.leaveOut && len(l.Stops) > 0)
	if err != nil {
		return err
	}
	if len(l.Stops) == 0 {
		return &exitError{exitScenario, fmt.Errorf("%s has no stop; a log without one needs no fit", path)}
	}
	r := timestudy.StudyStops(filepath.Base(path), l, o)
	r.Sheet, r.LeftOut = t.Sheet, left
	r.Warnings = append(r.Warnings, leftOut(left)...)
	if err := shortStops(cmd, r, f); err != nil {
		return err
	}
	sign(r)
	words.FillStopFit(r)
	out, err := placeFor(cmd, f.out, folderName(path, "", "fit"), snippet)
	if err != nil {
		return err
	}
	if err := writeSnippet(out, r.Snippet); err != nil {
		return err
	}
	if err := conclude(cmd, r, out, asCalled(cmd, path), f.json, false); err != nil {
		return err
	}
	if f.into == "" {
		return nil
	}
	return stopsInto(cmd, f.into, r, f.showOnly)
}

// stopsInto puts own causes into a scenario: those that it has by station and name get new values, the others are added.
func stopsInto(cmd *cobra.Command, path string, r *result.StopFit, showOnly bool) error {
	s, _, err := readScenario(cmd, path, "")
	if err != nil {
		return err
	}
	values, missing, otherwise := timestudy.StopValues(r, s)
	for _, what := range otherwise {
		fmt.Fprintf(cmd.ErrOrStderr(), "Not put into %s: %s.\n", path, what)
	}
	if len(missing) > 0 {
		fmt.Fprintf(cmd.ErrOrStderr(), "Not put into %s, which has no such station: %s.\n", path, strings.Join(missing, ", "))
	}
	if len(values) == 0 {
		return &exitError{exitFailed, fmt.Errorf("nothing to put into %s: no cause is the stations' own and has a length", path)}
	}
	return putInto(cmd, path, values, after{notes: func(*scenarios.Scenario) []string {
		if !slices.ContainsFunc(values, scenarios.Value.WholeStop) {
			return nil
		}
		return []string{"a stop that was added clears itself; say who mends it with mended_by."}
	}}, showOnly)
}

func logBounds(f fitFlags) (from, to time.Time, err error) {
	for _, x := range []struct {
		flag, text string
		to         *time.Time
	}{{"from", f.from, &from}, {"to", f.to, &to}} {
		if x.text == "" {
			continue
		}
		at, bad := (&sheet.Table{}).Moment(sheet.Cell{Text: strings.TrimSpace(x.text)})
		if bad != nil {
			return from, to, fmt.Errorf("--%s %q is not a date and time such as \"2026-03-02 06:00\"", x.flag, x.text)
		}
		*x.to = at
	}
	if !from.IsZero() && !to.IsZero() && !to.After(from) {
		return from, to, fmt.Errorf("--to is not after --from")
	}
	return from, to, nil
}
