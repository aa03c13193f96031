package main

import (
	"fmt"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"pascaline/report/store"
	"pascaline/scenarios/sheet"
	"pascaline/scenarios/units"
	"pascaline/sim/result"
	"pascaline/sim/timestudy"
)

// fitFlags are the flags of fit.
type fitFlags struct {
	sheet, unit, half, rating, allowance, of, pool, into, out string
	decimalComma, leaveOut, showOnly, json                    bool
	goes                                                      []string
}

func fitCommand() *cobra.Command {
	var f fitFlags
	c := &cobra.Command{
		Use:   "fit TIMES.csv|xlsx",
		Short: "Turn a stopwatch sheet into task times for a scenario",
		Long: `Reads a stopwatch sheet and finds for each task the distribution that the readings support, how sure the mean is, and what speaks
against the readings. Writes results.json, report.html and snippet.yaml, a piece of a scenario file with the evidence as comments.

The sheet has one reading a row, with a column "task" and a column such as "time (s)", "time (min)", "time (m:ss)" or "seconds"; or a
column for each task, named by it, such as "tip swap (s)". Other columns are used where they are there: packs, people, shift, date, rating (%),
field (where the task goes in a scenario, such as tip.swap). A task whose name is that of a field, such as "come up", needs no more.`,
		Example: "  pascaline fit times.csv --into line.yaml\n  pascaline fit times.xlsx --sheet Watch --allowance \"12 %\" --goes \"fill carrier=loading.hand_time\"",
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
	fl.BoolVar(&f.showOnly, "show-only", false, "with --into: show what would change and change nothing")
	fl.BoolVar(&f.leaveOut, "leave-out", false, "go on without rows that cannot be read; they are named all the same")
	fl.StringVar(&f.out, "out", "", "folder for results.json, report.html and snippet.yaml (default: results/NAME)")
	fl.BoolVar(&f.json, "json", false, "print results.json instead of the summary")
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
	if len(left) > 0 {
		r.Warnings = append(r.Warnings, result.Warning{Code: "rows left out", Text: fmt.Sprintf("%d rows could not be read and were left out; they are listed on the page.", len(left))})
	}
	sign(r)
	out := f.out
	if out == "" {
		out = filepath.Join("results", folderName(path, ""))
	}
	if err := writeFit(out, r); err != nil {
		return err
	}
	if err := writeResults(cmd, r, out, "pascaline fit "+quoted(filepath.Base(path)), f.json); err != nil {
		return err
	}
	if f.into == "" {
		return nil
	}
	return putInto(cmd, f.into, timestudy.Values(r, f.pool), r, f.showOnly)
}

// writeFit writes the snippet, and the readings of tasks that stand for themselves, beside the results.
func writeFit(out string, r *result.TimeFit) error {
	if err := store.Folder(out); err != nil {
		return &exitError{exitFailed, err}
	}
	if err := store.Write(filepath.Join(out, "snippet.yaml"), []byte(r.Snippet)); err != nil {
		return &exitError{exitFailed, err}
	}
	return writeReadings(out, r)
}

// writeReadings writes a file for each task whose readings stand for themselves.
func writeReadings(folder string, r *result.TimeFit) error {
	for _, t := range r.Tasks {
		if t.ReadingsS == nil {
			continue
		}
		var b strings.Builder
		b.WriteString("seconds\n")
		for _, s := range t.ReadingsS {
			b.WriteString(strconv.FormatFloat(s, 'f', -1, 64) + "\n")
		}
		if err := store.Write(filepath.Join(folder, timestudy.OwnFile(t.Name)), []byte(b.String())); err != nil {
			return &exitError{exitFailed, err}
		}
	}
	return nil
}

// refuse names every row that cannot be read, and ends unless the user wants to go on without them.
func refuse(cmd *cobra.Command, path string, faults []sheet.Fault, goOn bool) ([]string, error) {
	var all []string
	for _, f := range faults {
		all = append(all, f.Error())
		fmt.Fprintln(cmd.ErrOrStderr(), f.Error())
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
