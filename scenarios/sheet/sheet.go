// Package sheet reads tables that people keep: CSV in its many habits, and XLSX by the values that are stored, not as they are
// shown. Every cell keeps its place, so that whoever reads a table can name the row that it refuses; nothing is dropped silently.
package sheet

import (
	"fmt"
	"strings"
)

// Options say how a table was written.
type Options struct {
	DecimalComma bool   // numbers are written 12,5; without it a comma in a number is refused
	Sheet        string // which sheet of a workbook; "" takes the first
}

// Table is a heading and the rows under it. Rows that are wholly blank are left out; their numbers show it.
type Table struct {
	File         string // as it was named
	Sheet        string // "" for CSV
	DecimalComma bool
	Head         []Cell
	Rows         []Row
}

// Row is one row of a table. Cells are as many as there are headings.
type Row struct {
	Number int // as the user's program counts it, from 1
	Cells  []Cell
}

// Cell is one cell and where it stands. Text has no blanks at its ends.
type Cell struct {
	Text   string
	Row    int // from 1
	Column int // from 1
	At     int // the character of its line at which it begins, from 1; 0 in a workbook
	place  string
}

// Place is where the cell stands: file:line:column for CSV, file:sheet!B7 for a workbook.
func (c Cell) Place() string { return c.place }

// Fault is one thing wrong with a table.
type Fault struct {
	Place string
	Found string
	Want  string
	Hint  string // why, or what to do; may be ""
}

// Error is the fault in one line.
func (f Fault) Error() string {
	s := fmt.Sprintf("%s: found %s, want %s", f.Place, f.Found, f.Want)
	if f.Hint != "" {
		s += " (" + f.Hint + ")"
	}
	return s
}

// Fault is a fault at a cell.
func (c Cell) Fault(want, hint string) Fault {
	found := Quote(c.Text)
	if c.Text == "" {
		found = "an empty cell"
	}
	return Fault{Place: c.place, Found: found, Want: want, Hint: hint}
}

// Name is the heading without its unit, in lower case: "Hand time (s)" is "hand time".
func (c Cell) Name() string {
	name, _ := splitUnit(c.Text)
	return strings.ToLower(strings.Join(strings.Fields(name), " "))
}

// Unit is what stands in brackets at the end of a heading, or "".
func (c Cell) Unit() string {
	_, unit := splitUnit(c.Text)
	return unit
}

// splitUnit parts "Hand time (s)" and "Hand time [s]" into name and unit.
func splitUnit(head string) (name, unit string) {
	for _, pair := range []string{"()", "[]"} {
		if i := strings.LastIndex(head, pair[:1]); i >= 0 && strings.HasSuffix(head, pair[1:]) {
			return strings.TrimSpace(head[:i]), strings.TrimSpace(head[i+1 : len(head)-1])
		}
	}
	return head, ""
}

// Column finds a heading by one of its names, without its unit and in any case; -1 where there is none. Earlier names win.
func (t *Table) Column(names ...string) int {
	for _, name := range names {
		for i, h := range t.Head {
			if h.Name() == name {
				return i
			}
		}
	}
	return -1
}

// At is the cell of a row under a heading by index; an empty cell where the index is -1.
func (r Row) At(column int) Cell {
	if column < 0 || column >= len(r.Cells) {
		return Cell{Row: r.Number}
	}
	return r.Cells[column]
}

const longestQuote = 60

// Quote puts what somebody wrote into a message: in quotes, on one line, 60 letters at most.
func Quote(text string) string {
	r := []rune(text)
	if len(r) > longestQuote {
		text = string(r[:longestQuote]) + "…"
	}
	return `"` + strings.ReplaceAll(text, "\n", "⏎") + `"`
}
