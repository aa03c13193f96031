package timestudy

import (
	"fmt"
	"slices"
	"strings"

	"pascaline/scenarios/sheet"
)

// Reading is one reading of a stopwatch.
type Reading struct {
	Seconds float64 // as it counts: rated, and with allowances
	Packs   float64 // that it was taken of; 0 where that was not written
	People  float64 // who worked; 0 where that was not written
	Shift   string
	Place   string // where it stands in the sheet
}

// Task is all the readings of one task, in their order.
type Task struct {
	Name     string
	Field    string // where the sheet says it goes in a scenario
	Readings []Reading
}

// Rules are how a time on the watch becomes a time to plan with.
type Rules struct {
	Rating    float64 // pace seen over normal pace, such as 0.95; a column in the sheet goes before it
	Allowance float64 // personal needs and fatigue, as a share
	OfShift   bool    // the allowance is a share of the shift, so that the time is divided by 1-a; else of the work, times 1+a
}

// factor is what the watch's time is multiplied by.
func (r Rules) factor(rating float64) float64 {
	if r.OfShift {
		return rating / (1 - r.Allowance)
	}
	return rating * (1 + r.Allowance)
}

// of is what the allowance is a share of.
func (r Rules) of() string {
	if r.OfShift {
		return "shift"
	}
	return "work"
}

// Names by which columns are known.
var (
	taskNames   = []string{"task", "step", "operation", "work", "element"}
	timeNames   = []string{"seconds", "time", "reading", "duration", "minutes", "hand time", "watch", "s", "sec", "min"}
	packsNames  = []string{"packs", "pieces", "quantity"}
	peopleNames = []string{"people", "persons", "crew", "heads"}
	shiftNames  = []string{"shift"}
	dateNames   = []string{"date", "day"}
	ratingNames = []string{"rating", "pace"}
	fieldNames  = []string{"field", "goes into"}
	asideNames  = []string{"note", "notes", "remark", "remarks", "comment", "observer", "when", "at", "start", "time of day", "nr", "no", "number"}
)

// timesReader turns rows into readings.
type timesReader struct {
	t      *sheet.Table
	rules  Rules
	tasks  []Task
	faults []sheet.Fault
}

// Times reads a stopwatch sheet: long (one reading a row: task, time), or wide (a column for each task, or readings of a task side by
// side in its row). unit is the unit of times whose heading names none; "" refuses them. Every row that cannot be read is a fault.
func Times(t *sheet.Table, unit string, r Rules) ([]Task, []sheet.Fault) {
	x := &timesReader{t: t, rules: r}
	task, time := t.Column(taskNames...), t.Column(timeNames...)
	if time < 0 {
		for i, h := range t.Head {
			if i != task && h.TimeUnit() != "" && task >= 0 && !readingNumber(h) {
				time = i
				break
			}
		}
	}
	switch {
	case time >= 0:
		x.long(task, time, unit)
	case task >= 0:
		x.sideBySide(task, unit)
	default:
		x.columns(unit)
	}
	if len(x.tasks) == 0 && len(x.faults) == 0 {
		place := t.File + ":1:1"
		if len(t.Head) > 0 {
			place = t.Head[0].Place()
		}
		x.faults = append(x.faults, sheet.Fault{Place: place, Found: "no readings", Want: `headings such as "task" and "time (s)", and one reading a row under them`})
	}
	return x.tasks, x.faults
}

// long reads one reading a row.
func (x *timesReader) long(task, time int, unit string) {
	u := x.unit(time, unit)
	for _, row := range x.t.Rows {
		name := "task"
		if task >= 0 {
			if name = row.At(task).Text; name == "" {
				x.faults = append(x.faults, row.At(task).Fault("the name of the task", "each row says it again"))
				continue
			}
		}
		x.add(name, row, row.At(time), u)
	}
}

// sideBySide reads the readings of a task that stand side by side in its row.
func (x *timesReader) sideBySide(task int, unit string) {
	for _, row := range x.t.Rows {
		name := row.At(task).Text
		if name == "" {
			x.faults = append(x.faults, row.At(task).Fault("the name of the task", ""))
			continue
		}
		any := false
		for i, h := range x.t.Head {
			if i == task || x.aside(i) || row.At(i).Text == "" {
				continue
			}
			u := unit
			if h.TimeUnit() != "" {
				u = h.TimeUnit()
			}
			any = x.add(name, row, row.At(i), u) || any
		}
		if !any {
			x.faults = append(x.faults, row.At(task).Fault("readings beside the task", ""))
		}
	}
}

// columns reads a column for each task; empty cells end a column early.
func (x *timesReader) columns(unit string) {
	for i, h := range x.t.Head {
		if x.aside(i) || h.Text == "" {
			continue
		}
		u := x.unit(i, unit)
		name, _, _ := strings.Cut(h.Text, "(")
		name, _, _ = strings.Cut(name, "[")
		for _, row := range x.t.Rows {
			if row.At(i).Text != "" {
				x.add(name, row, row.At(i), u)
			}
		}
	}
}

// readingNumber tells a heading such as "reading 3 (s)" or "7".
func readingNumber(h sheet.Cell) bool {
	name := strings.TrimPrefix(h.Name(), "reading ")
	return name != "" && strings.Trim(name, "0123456789") == ""
}

// aside tells a column that holds no times.
func (x *timesReader) aside(i int) bool {
	all := slices.Concat(packsNames, peopleNames, shiftNames, dateNames, ratingNames, fieldNames, asideNames)
	return slices.Contains(all, x.t.Head[i].Name())
}

// unit of a column: its heading's, or the one that was said.
func (x *timesReader) unit(i int, said string) string {
	if u := x.t.Head[i].TimeUnit(); u != "" {
		return u
	}
	return said
}

// add adds a reading, or names what is wrong with it.
func (x *timesReader) add(name string, row sheet.Row, c sheet.Cell, unit string) bool {
	name = oneLine(name)
	s, f := lasting(x.t, c, unit, leastTime)
	if f == nil && s <= 0 {
		g := c.Fault("a time above 0", "a watch that shows nothing was not read")
		f = &g
	}
	if f != nil {
		x.faults = append(x.faults, *f)
		return false
	}
	r := Reading{Place: c.Place(), Shift: x.shift(row)}
	rating := x.rules.Rating
	for _, col := range []struct {
		names       []string
		to          *float64
		least, most float64
	}{{packsNames, &r.Packs, 0.001, 1e6}, {peopleNames, &r.People, 0.001, 1000}, {ratingNames, &rating, leastRating, mostRating}} {
		if f := x.positive(row, col.names, col.to, col.least, col.most); f != nil {
			x.faults = append(x.faults, *f)
			return false
		}
	}
	r.Seconds = float64(s * x.rules.factor(rating))
	i := slices.IndexFunc(x.tasks, func(t Task) bool { return strings.EqualFold(t.Name, name) })
	if i < 0 {
		x.tasks = append(x.tasks, Task{Name: name})
		i = len(x.tasks) - 1
	}
	if f := row.At(x.t.Column(fieldNames...)).Text; f != "" {
		x.tasks[i].Field = f
	}
	x.tasks[i].Readings = append(x.tasks[i].Readings, r)
	return true
}

// positive reads a number from least to most from the column of one of the names, if there is one and the cell is filled. "95 %" is 0.95; a
// rating above 10 is taken for per cent.
func (x *timesReader) positive(row sheet.Row, names []string, to *float64, least, most float64) *sheet.Fault {
	i := x.t.Column(names...)
	if i < 0 || row.At(i).Text == "" {
		return nil
	}
	c := row.At(i)
	text, percent := strings.CutSuffix(c.Text, "%")
	c.Text = strings.TrimSpace(text)
	v, f := x.t.Number(c)
	if f == nil && v <= 0 {
		g := c.Fault("a number above 0", "")
		f = &g
	}
	if f != nil {
		return f
	}
	if percent || names[0] == "rating" && (v > 10 || x.t.Head[i].Unit() == "%") {
		v /= 100
	}
	if v < least || v > most {
		return faultOf(row.At(i), fmt.Sprintf("a number from %g to %.0f", least, most))
	}
	*to = v
	return nil
}

// shift is the shift of a row, with its day where there is one: pace differs from one shift to the next, not from early to late.
func (x *timesReader) shift(row sheet.Row) string {
	s := row.At(x.t.Column(shiftNames...)).Text
	if d := row.At(x.t.Column(dateNames...)).Text; d != "" && s != "" {
		return d + " " + s
	}
	return s
}
