package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"pascaline/report/store"
	"pascaline/report/words"
	"pascaline/scenarios"
	"pascaline/scenarios/sheet"
	"pascaline/scenarios/units"
	"pascaline/sim/result"
	"pascaline/sim/timestudy"
)

// fitFlags are the flags of fit.
type fitFlags struct {
	sheet, unit, half, rating, allowance, of, pool, into, out string
	from, to, roster, shortAt, shortEach                      string
	counted, predicted                                        float64
	decimalComma, leaveOut, showOnly, json                    bool
	goes                                                      []string
}

func fitCommand() *cobra.Command {
	var f fitFlags
	c := &cobra.Command{
		Use:   "fit FILE.csv|xlsx",
		Short: "Turn a stopwatch sheet or a stop log into values for a scenario",
		Long: `Reads a stopwatch sheet and finds for each task the distribution that the readings support, how sure the mean is, and what speaks
against the readings. Writes results.json, report.html and snippet.yaml, a piece of a scenario file with the evidence as comments.

The sheet has one reading a row, with a column "task" and a column such as "time (s)", "time (min)", "time (m:ss)" or "seconds"; or a
column for each task, named by it, such as "tip swap (s)". Other columns are used where they are there: packs, people, shift, date, rating (%),
field (where the task goes in a scenario, such as tip.swap). A task whose name is that of a field, such as "come up", needs no more.

A file with columns "station" and "start" is a stop log: one stop a row, with "end" (empty where it was not written; or "duration (min)"), "cause", and where
they are there "origin" (own or outside) and a meter: "running hours", "cycles" or "packs". For each cause the time to a stop, counted by the meter or on shift
(--roster), is fitted with the time after the last stop as not over yet, and so is the length.`,
		Example: "  pascaline fit times.csv --into line.yaml\n  pascaline fit stops.csv --roster line.yaml --from \"2026-03-02 06:00\" --to \"2026-03-27 22:00\"\n  pascaline fit times.xlsx --sheet Watch --allowance \"12 %\" --goes \"fill carrier=loading.hand_time\"",
		Args:    cobra.ExactArgs(1),
		RunE:    func(cmd *cobra.Command, args []string) error { return fit(cmd, args[0], f) },
	}
	fl := c.Flags()
	fl.StringVar(&f.sheet, "sheet", "", "sheet of a workbook (default: the first)")
	fl.BoolVar(&f.decimalComma, "decimal-comma", false, "numbers are written 12,5")
	fl.StringVar(&f.unit, "unit", "", "unit of times whose heading names none: s, min, h, m:ss or h:mm")
	fl.StringVar(&f.half, "half-width", "5 %", "half width of each mean that is wanted, as a share of it")
	fl.StringVar(&f.rating, "rating", "100 %", "pace that was seen, of the normal one; a column \"rating\" goes before it")
	fl.StringVar(&f.allowance, "allowance", "0 %", "for personal needs and fatigue; leave it out where breaks are rostered")
	fl.StringVar(&f.of, "allowance-of", "work", "what the allowance is a share of. work: times 1 + a; shift: divided by 1 - a")
	fl.StringArrayVar(&f.goes, "goes", nil, "where a task goes in a scenario: \"TASK=FIELD\"; may be given several times")
	fl.StringVar(&f.pool, "pool", "", "pool of people whose shift_pace is written, from readings logged with their shift")
	fl.StringVar(&f.into, "into", "", "scenario file into which the times are put; the rest of it and its comments stay")
	fl.StringVar(&f.from, "from", "", "when a stop log begins, such as \"2026-03-02 06:00\" (default: its first stop)")
	fl.StringVar(&f.to, "to", "", "when a stop log ends (default: its last stop)")
	fl.StringVar(&f.roster, "roster", "", "scenario whose roster says when the line was on shift, for a stop log")
	fl.Float64Var(&f.counted, "counted", 0, "packs counted over a stop log; with --predicted: estimate short stops that the log misses")
	fl.Float64Var(&f.predicted, "predicted", 0, "packs that a run with the logged stops predicts for the same time")
	fl.StringVar(&f.shortAt, "short-at", "", "station at which the short stops are (default: the one that stood longest)")
	fl.StringVar(&f.shortEach, "short-each", "30 s", "how long a short stop is")
	fl.BoolVar(&f.showOnly, "show-only", false, "with --into: show what would change and change nothing")
	fl.BoolVar(&f.leaveOut, "leave-out", false, "go on without rows that cannot be read; they are named all the same")
	fl.StringVar(&f.out, "out", "", "folder for results.json, report.html and snippet.yaml (default: results/NAME, fit)")
	fl.BoolVar(&f.json, "json", false, "print results.json instead of the summary")
	exportFlags(c)
	return c
}

func fit(cmd *cobra.Command, path string, f fitFlags) error {
	o, err := fitOptions(f)
	if err != nil {
		return err
	}
	t, faults, err := sheet.Read(path, sheet.Options{DecimalComma: f.decimalComma, Sheet: f.sheet})
	if err != nil {
		return &exitError{exitScenario, err}
	}
	isLog := timestudy.IsStopLog(t)
	if err := forTheOther(cmd, path, isLog); err != nil {
		return err
	}
	if isLog {
		return fitStops(cmd, path, t, faults, f)
	}
	return fitTimes(cmd, path, t, faults, o, f)
}

func fitTimes(cmd *cobra.Command, path string, t *sheet.Table, faults []sheet.Fault, o timestudy.Options, f fitFlags) error {
	tasks, more := timestudy.Times(t, f.unit, o.Rules)
	left, err := refuse(cmd, path, append(faults, more...), f.leaveOut && len(tasks) > 0)
	if err != nil {
		return err
	}
	if err := o.Known(tasks); err != nil {
		return err
	}
	r := timestudy.Study(filepath.Base(path), tasks, o)
	r.Sheet, r.LeftOut = t.Sheet, left
	r.Warnings = append(r.Warnings, leftOut(left)...)
	sign(r)
	words.FillTimeFit(r)
	out, err := placeFor(cmd, f.out, folderName(path, "", "fit"), snippet)
	if err != nil {
		return err
	}
	if err := readingsUnused(out, r); err != nil {
		return err
	}
	if err := writeSnippet(out, r.Snippet); err != nil {
		return err
	}
	if err := writeReadings(out, r); err != nil {
		return err
	}
	if err := conclude(cmd, r, out, asCalled(cmd, path), f.json, false); err != nil {
		return err
	}
	if f.into == "" {
		return nil
	}
	fresh, files, err := freshReadings(filepath.Dir(f.into), r)
	if err != nil {
		return notDone(err)
	}
	values := timestudy.Values(fresh, f.pool)
	if len(values) == 0 {
		return &exitError{exitFailed, fmt.Errorf("nothing to put into %s: no task has a field yet; say where with --goes \"TASK=FIELD\" or a column \"field\"", f.into)}
	}
	return putInto(cmd, f.into, values, after{
		beside: files,
		notes:  func(s *scenarios.Scenario) []string { return timestudy.Unlike(s, r) },
	}, f.showOnly)
}

// leftOut is a warning of rows that were left out.
func leftOut(rows []string) []result.Warning {
	if len(rows) == 0 {
		return nil
	}
	text := "1 row or cell could not be read and was left out; it is named on the page."
	if len(rows) > 1 {
		text = fmt.Sprintf("%d rows or cells could not be read and were left out; they are named on the page.", len(rows))
	}
	return []result.Warning{{Code: "rows left out", Text: text}}
}

// snippet is the file with the piece for a scenario.
const snippet = "snippet.yaml"

// writeSnippet writes the piece of a scenario file beside the results.
func writeSnippet(out, text string) error {
	if err := store.Folder(out); err != nil {
		return &exitError{exitFailed, err}
	}
	if err := store.Write(filepath.Join(out, snippet), []byte(text)); err != nil {
		return &exitError{exitFailed, err}
	}
	return nil
}

// refuse names every row that cannot be read, and ends unless the user wants to go on without them. What it gives names the file without its folder: it goes
// into results.
func refuse(cmd *cobra.Command, path string, faults []sheet.Fault, goOn bool) ([]string, error) {
	var all []string
	for _, f := range faults {
		fmt.Fprintln(cmd.ErrOrStderr(), f.Error())
		if at, ok := strings.CutPrefix(f.Place, path); ok {
			f.Place = filepath.Base(path) + at
		}
		all = append(all, f.Error())
	}
	if len(all) == 0 || goOn {
		return all, nil
	}
	what := "1 row or cell"
	if len(all) > 1 {
		what = fmt.Sprintf("%d rows or cells", len(all))
	}
	return nil, &exitError{exitScenario, fmt.Errorf("%s: %s cannot be read; nothing was done. Put them right, or go on without them: --leave-out", path, what)}
}

func fitOptions(f fitFlags) (o timestudy.Options, err error) {
	o = timestudy.Options{Fields: map[string]string{}, Pool: f.pool}
	for _, x := range []struct {
		flag, text  string
		to          *float64
		least, most float64
	}{{"half-width", f.half, &o.HalfWidth, 0.001, 1}, {"rating", f.rating, &o.Rules.Rating, 0.2, 2}, {"allowance", f.allowance, &o.Rules.Allowance, 0, 0.9}} {
		var p units.Percent
		if err := p.Parse(x.text); err != nil || float64(p) < x.least || float64(p) > x.most {
			return o, fmt.Errorf("--%s %q is not a share from %g %% to %g %%, such as \"5 %%\"", x.flag, x.text, 100*x.least, 100*x.most)
		}
		*x.to = float64(p)
	}
	if f.of != "work" && f.of != "shift" {
		return o, fmt.Errorf("--allowance-of %q is neither work nor shift", f.of)
	}
	o.Rules.OfShift = f.of == "shift"
	if f.unit != "" && !sheet.IsTimeUnit(f.unit) {
		return o, fmt.Errorf("--unit %q is no unit of time: s, min, h, m:ss or h:mm", f.unit)
	}
	for _, g := range f.goes {
		task, field, ok := strings.Cut(g, "=")
		if !ok || strings.TrimSpace(task) == "" || strings.TrimSpace(field) == "" {
			return o, fmt.Errorf("--goes %q is not TASK=FIELD, such as \"fill carrier=loading.hand_time\"", g)
		}
		o.Fields[strings.TrimSpace(task)] = strings.TrimSpace(field)
	}
	if f.showOnly && f.into == "" {
		return o, fmt.Errorf("--show-only goes with --into SCENARIO")
	}
	return o, nil
}
