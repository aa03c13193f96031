package export

import (
	"strings"

	"pascaline/report/number"
	"pascaline/report/page"
)

// cell is a text or a number.
type cell struct {
	text     string
	value    float64
	number   bool
	decimals int
}

// table is a table of the page with its figures as numbers. All rows have as many cells as there are heads.
type table struct {
	section, title, caption, foot string
	head                          []string
	rows                          [][]cell
}

// numbers makes a table of numbers from one of the page.
func numbers(s page.Sheet) table {
	t := table{section: s.Section, title: s.Title, caption: s.Caption, foot: s.Foot, rows: make([][]cell, len(s.Rows))}
	for i, name := range s.Head {
		texts := make([]string, len(s.Rows))
		for k, row := range s.Rows {
			if i < len(row) {
				texts[k] = row[i]
			}
		}
		for _, c := range split(name, texts, s.Figures[i]) {
			t.head = append(t.head, c.head)
			for k := range t.rows {
				t.rows[k] = append(t.rows[k], c.cells[k])
			}
		}
	}
	return t
}

// column is one column of an export.
type column struct {
	head  string
	cells []cell
}

// split makes one column of the page into what it takes to hold it: the number with its unit in the heading, its half width, the upper end of
// ranges, and, where the rows differ in unit, a column for that.
func split(name string, texts []string, figures bool) []column {
	read := make([]number.Reading, len(texts))
	ok := make([]bool, len(texts))
	any, half, to := false, false, false
	for i, s := range texts {
		if figures {
			read[i], ok[i] = number.Read(s)
		}
		any, half, to = any || ok[i], half || read[i].HasHalf, to || read[i].HasTo
	}
	if !any {
		return []column{words(name, texts)}
	}
	unit, mixed := common(read, ok)
	if mixed {
		unit = ""
	}
	out := []column{pick(headed(name, unit), texts, read, ok, func(r number.Reading) (float64, bool) { return r.Value, true })}
	if half {
		out = append(out, pick(headed(name+" ±", unit), nil, read, ok, func(r number.Reading) (float64, bool) { return r.Half, r.HasHalf }))
	}
	if to {
		out = append(out, pick(headed(name+", up to", unit), nil, read, ok, func(r number.Reading) (float64, bool) { return r.To, r.HasTo }))
	}
	if mixed {
		units := make([]string, len(read))
		for i, r := range read {
			units[i] = r.Unit
		}
		out = append(out, words("unit", units))
	}
	return out
}

// common brings times to one unit and gives the unit of all figures; mixed where they differ.
func common(read []number.Reading, ok []bool) (unit string, mixed bool) {
	times, first := true, true
	for i, r := range read {
		if !ok[i] {
			continue
		}
		if first {
			unit, first = r.Unit, false
		}
		times = times && number.Seconds[r.Unit] > 0
		mixed = mixed || r.Unit != unit
	}
	if !mixed || !times {
		return unit, mixed
	}
	for i := range read {
		if by := number.Seconds[read[i].Unit]; by > 0 {
			read[i].Value, read[i].Half, read[i].To, read[i].Unit = read[i].Value*by, read[i].Half*by, read[i].To*by, "s"
		}
	}
	return "s", false
}

// headed puts a unit into a heading that does not name it yet.
func headed(name, unit string) string {
	if unit == "" || strings.HasSuffix(name, " "+unit) || name == unit {
		return name
	}
	return name + " (" + unit + ")"
}

// pick is the column of one number of each reading; where there is none it has the text, if any are given.
func pick(head string, texts []string, read []number.Reading, ok []bool, of func(number.Reading) (float64, bool)) column {
	c := column{head: head, cells: make([]cell, len(read))}
	for i, r := range read {
		switch v, has := of(r); {
		case ok[i] && has:
			c.cells[i] = cell{value: v, number: true, decimals: r.Decimals}
		case texts != nil && !ok[i]:
			c.cells[i] = cell{text: strings.TrimSuffix(texts[i], " %")} // "<0.1 %": the unit stands in the heading
		}
	}
	return c
}

func words(head string, texts []string) column {
	c := column{head: head, cells: make([]cell, len(texts))}
	for i, s := range texts {
		c.cells[i] = cell{text: s}
	}
	return c
}
