package timestudy

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"pascaline/scenarios"
	"pascaline/sim/result"
)

// Options of a study of task times.
type Options struct {
	HalfWidth float64           // of a mean that is asked for, as a share of it
	Fields    map[string]string // where tasks go in a scenario, by the name of the task
	Pool      string            // pool of people whose shift pace is written; "" writes none
	Rules     Rules
}

// Study fits every task of a sheet.
func Study(file string, tasks []Task, o Options) *result.TimeFit {
	r := &result.TimeFit{Head: result.NewHead(result.KindTimeFit), File: file, HalfShare: o.HalfWidth,
		Rating: o.Rules.Rating, Allowance: o.Rules.Allowance, AllowanceOf: o.Rules.of()}
	var parts []scenarios.Value
	pace, effect := paceOf(tasks, allValues(tasks, o))
	r.Pace = pace
	if o.Pool == "" || pace == nil || pace.Low == 0 {
		effect = nil // the spread keeps what shifts add to it
	}
	files := ownFiles(tasks)
	for i, t := range tasks {
		one := studyTask(t, o, effect)
		if one.ReadingsS != nil {
			KeepIn(&one, files[i])
		}
		widen(&one, pace, effect != nil)
		r.Tasks = append(r.Tasks, one)
		parts = append(parts, snippetOf(one, file))
	}
	if r.Pace != nil && o.Pool != "" {
		parts = append(parts, paceValue(r.Pace, o.Pool, file))
	}
	r.Snippet = SnippetText(r.Tasks, parts)
	return r
}

// allValues are the values of all tasks, brought to one size.
func allValues(tasks []Task, o Options) [][]float64 {
	var all [][]float64
	for _, t := range tasks {
		all = append(all, basisOf(t, FieldOf(t, o.Fields)).values)
	}
	return all
}

// studyTask fits one task. Where the pace of shifts goes into the scenario by itself, its effect (on the logs, by shift) is taken out of hand
// work, or it would count twice.
func studyTask(t Task, o Options, effect map[string]float64) result.FitTask {
	field := FieldOf(t, o.Fields)
	b := basisOf(t, field)
	if effect != nil && b.people > 0 {
		for i, r := range t.Readings {
			b.values[i] *= math.Exp(-effect[r.Shift])
		}
		b.doubts = append(b.doubts, "The pace of shifts was taken out of the readings, because shift_pace has it.")
	}
	v := sorted(b.values)
	n := len(v)
	r := result.FitTask{Name: t.Name, Field: field, Per: b.per, ReadingOf: b.of, Packs: b.packs, People: b.people, N: n, MeanS: round(mean(v)), SDS: round(stdDev(v)),
		LeastS: round(v[0]), MedianS: round(quantileOf(v, 0.5)), MostS: round(v[n-1]), Doubts: b.doubts}
	if n > 1 {
		h := round(student(n-1) * r.SDS / math.Sqrt(float64(n)))
		r.HalfS = &h
	}
	var d distribution
	if v[0] == v[n-1] || n < fewestForShape || r.SDS < 1e-6*r.MeanS {
		withoutShape(&r)
	} else {
		d = withShape(&r, b.values)
	}
	look(&r, t, b.values, d, o.HalfWidth)
	for _, g := range byShift(t, b.values) {
		r.Shifts = append(r.Shifts, result.ShiftMean{Shift: g.name, N: len(g.values), MeanS: round(mean(g.values))})
	}
	return r
}

// withoutShape is for readings that are all alike, or too few to show a shape.
func withoutShape(r *result.FitTask) {
	r.Fits = []result.Fitted{}
	r.Value = braces(r.Per, "mean: "+secondsText(r.MeanS), "as: constant")
	r.Best = string(scenarios.Constant)
	if r.LeastS == r.MostS {
		r.Why = "all readings are the same"
		return
	}
	if !takesSpread(r.MeanS, r.SDS) {
		r.Why = "the readings hardly differ"
		return
	}
	r.Why = fmt.Sprintf("%d readings show no shape; mean and spread go into a lognormal, the usual shape of hand work", r.N)
	r.Best = string(scenarios.Lognormal)
	r.Value = braces(r.Per, "mean: "+secondsText(r.MeanS), "sd: "+secondsText(r.SDS), "as: lognormal")
}

// withShape fits the candidates and takes one; nil where the readings stand for themselves.
func withShape(r *result.FitTask, values []float64) distribution {
	all := fitAll(Sample{Exact: values}, forTasks, writtenSeconds)
	best := choose(all, r.N)
	for _, f := range all {
		r.Fits = append(r.Fits, f.Fitted)
	}
	own := result.Fitted{Distribution: string(scenarios.Empirical), Parameters: []result.Parameter{{Name: "readings", Value: float64(r.N)}}, MeanS: r.MeanS, SDS: r.SDS}
	r.Fits = append(r.Fits, own)
	if best < 0 {
		r.Best, r.Why = string(scenarios.Empirical), "the readings speak against every shape, so that they stand for themselves"
		for _, x := range sorted(values) {
			r.ReadingsS = append(r.ReadingsS, round(x))
		}
		return nil
	}
	f := all[best]
	r.Best, r.Why = f.Distribution, because(all, best)
	r.Value = braces(r.Per, lawText(f)...)
	r.Bars, r.Quantiles = bars(sorted(values), f.dist), points(sorted(values), f.dist)
	return f.dist
}

// because says why a candidate was taken.
func because(all []fitted, best int) string {
	f := all[best]
	why := fmt.Sprintf("lowest AIC of those that can be used (%.1f)", *f.AIC)
	if f.Rejected {
		return why + fmt.Sprintf("; but Anderson-Darling speaks against it (%.2f, at most %.2f), and too few readings stand for themselves", *f.Modified, *f.Critical)
	}
	why += fmt.Sprintf("; Anderson-Darling does not speak against it (%.2f, at most %.2f)", *f.Modified, *f.Critical)
	var near []string
	for i, g := range all {
		if i != best && !g.Rejected && g.Remark == "" && *g.AIC-*f.AIC < 2 {
			near = append(near, g.Distribution)
		}
	}
	if len(near) > 0 {
		why += "; about as good: " + strings.Join(near, ", ")
	}
	return why
}

// lawText is a fitted distribution as a scenario describes it.
func lawText(f fitted) []string {
	switch f.Distribution {
	case string(scenarios.Triangular):
		return []string{"low: " + secondsText(f.Parameters[0].Value), "likely: " + secondsText(f.Parameters[1].Value), "high: " + secondsText(f.Parameters[2].Value)}
	case string(scenarios.Exponential):
		return []string{"mean: " + secondsText(f.MeanS), "as: exponential"}
	}
	return []string{"mean: " + secondsText(f.MeanS), "sd: " + secondsText(f.SDS), "as: " + f.Distribution}
}

// braces puts what describes a time between braces, with what a reading was of before it.
func braces(per string, parts ...string) string {
	if per != "" {
		parts = slices.Insert(parts, 0, "per: "+per)
	}
	return "{" + strings.Join(parts, ", ") + "}"
}

// takesSpread tells whether a lognormal takes so small a standard deviation, as it is written.
func takesSpread(mean, sd float64) bool {
	return scenarios.Law{Shape: scenarios.Lognormal, Mean: writtenSeconds(mean), SD: writtenSeconds(sd)}.Refused() == ""
}

// writtenSeconds keeps four digits of seconds, or the microsecond.
func writtenSeconds(s float64) float64 {
	p := 1e6
	if s > 0 {
		p = math.Min(1e6, math.Pow10(max(0, 3-int(math.Floor(math.Log10(s))))))
	}
	return math.Round(s*p) / p
}

// secondsText writes seconds as a scenario reads them.
func secondsText(s float64) string {
	return strconv.FormatFloat(writtenSeconds(s), 'f', -1, 64) + " s"
}

// KeepIn names the file that holds the readings of a task that stand for themselves, and makes its value one that reads them there.
func KeepIn(t *result.FitTask, file string) {
	t.ReadingsFile = file
	t.Value = braces(t.Per, "file: "+strconv.Quote(file), "as: empirical")
}

const longestStem = 60

// ownFiles are names of files for the readings of tasks, one for each and no two alike on any system: what is a letter of a to z or a digit in the
// name of the task, and a number where that is the same as before.
func ownFiles(tasks []Task) (files []string) {
	for _, t := range tasks {
		stem := strings.Map(func(r rune) rune {
			if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
				return r
			}
			return '-'
		}, strings.ToLower(t.Name))
		stem = strings.Trim(stem[:min(len(stem), longestStem)], "-")
		if stem == "" {
			stem = "task"
		}
		name := stem + readingsEnd
		for n := 2; slices.Contains(files, name); n++ {
			name = NumberedFile(stem+readingsEnd, n)
		}
		files = append(files, name)
	}
	return files
}

const readingsEnd = "-readings.csv"

// NumberedFile is the name of a file of readings with a number from 2 on, where the name without one is taken.
func NumberedFile(file string, n int) string {
	return fmt.Sprintf("%s-%d%s", strings.TrimSuffix(file, readingsEnd), n, readingsEnd)
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// Known says whether every task that has a field by name is in the sheet, every field takes a time, and no two tasks go into one field.
func (o Options) Known(tasks []Task) error {
	var names []string
	for _, t := range tasks {
		names = append(names, t.Name)
	}
	for _, name := range slices.Sorted(maps.Keys(o.Fields)) {
		if !slices.Contains(names, name) {
			return fmt.Errorf("no task %q in the sheet; there are: %s", name, strings.Join(names, ", "))
		}
	}
	fields, goes := scenarios.TimeFields(), map[string]string{}
	for _, t := range tasks {
		f := FieldOf(t, o.Fields)
		switch other, twice := goes[f]; {
		case f == "":
		case !slices.Contains(fields, f):
			return fmt.Errorf("task %q: %q is no field of a scenario that takes a time; there are: %s", t.Name, f, strings.Join(fields, ", "))
		case twice:
			return fmt.Errorf("tasks %q and %q both go into %s, which takes one of them; send the other elsewhere (--goes \"TASK=FIELD\") or take its field out of the sheet",
				other, t.Name, f)
		}
		goes[f] = t.Name
	}
	return nil
}
