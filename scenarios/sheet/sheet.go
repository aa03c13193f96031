// Package sheet reads tables that people keep: CSV in its many habits, and XLSX by the values that are stored, not as they are
// shown. Every cell keeps its place, so that whoever reads a table can name the row that it refuses; no row is dropped silently. What is read
// is limited in bytes, rows and cells, so that no file takes more than some seconds and some hundred megabytes.
package sheet

import (
	"fmt"
	"strings"
	"unicode"
)

// Options say how a table was written.
type Options struct {
	DecimalComma bool   // numbers are written 12,5; without it a comma in a number is refused
	Sheet        string // which sheet of a workbook; "" takes the first
	Rows         int    // most rows under the heading that are read; 0 is 200,000
	Figures      bool   // only figures are wanted: headings may stand twice, and what is not UTF-8 reads as �
	cells        int    // most cells, filled ones and empty ones before them in their rows; 0 is mostCells
}

// Table is a heading and the rows under it. Rows that are wholly blank are left out; their numbers show it.
type Table struct {
	File         string // as it was named
	Sheet        string // "" for CSV
	DecimalComma bool
	Head         []Cell
	Rows         []Row
}

// Row is one row of a table. Cells are at most as many as there are headings; empty ones at the end are left out, and At gives them.
type Row struct {
	Number int // as the user's program counts it, from 1
	Cells  []Cell
	in     *Table
}

// Cell is one cell and where it stands. Text has no blanks at its ends.
type Cell struct {
	Text   string
	Row    int // from 1
	Column int // from 1
	At     int // the character of its line at which it begins, from 1; 0 in a workbook
	in     *Table
	noS    bool // of a workbook: shown as hours and minutes, without seconds
}

// Place is where the cell stands: file:line:column for CSV, file:sheet!B7 for a workbook.
func (c Cell) Place() string {
	switch {
	case c.in == nil || c.Column == 0:
		return ""
	case c.in.Sheet != "":
		return fmt.Sprintf("%s:%s!%s", c.in.File, c.in.Sheet, c.ref())
	}
	return fmt.Sprintf("%s:%d:%d", c.in.File, c.Row, c.Column) // counted in cells: that is what a spreadsheet shows
}

// ref is a cell of a workbook as its program names it: B7.
func (c Cell) ref() string { return fmt.Sprintf("%s%d", letters(c.Column), c.Row) }

// Fault is one thing wrong with a table.
type Fault struct {
	Place string
	Found string
	Want  string
	Hint  string // why, or what to do; may be ""
	Row   int    // from 1; 0 where it is no matter of a row
	At    int    // the character of its line in a CSV file, the column in a workbook
}

// Error is the fault in one line. What comes from the file is harmless in it.
func (f Fault) Error() string {
	s := fmt.Sprintf("%s: found %s, want %s", f.Place, f.Found, f.Want)
	if f.Hint != "" {
		s += " (" + f.Hint + ")"
	}
	return Harmless(s)
}

// Fault is a fault at a cell.
func (c Cell) Fault(want, hint string) Fault {
	found := Quote(c.Text)
	if c.Text == "" {
		found = "an empty cell"
	}
	return c.faulty(found, want, hint)
}

// faulty is a fault at a cell that is more than its text.
func (c Cell) faulty(found, want, hint string) Fault {
	f := Fault{Place: c.Place(), Found: found, Want: want, Hint: hint, Row: c.Row, At: c.At}
	if f.At == 0 {
		f.At = c.Column
	}
	return f
}

// Name is the heading without its unit, in lower case: "Hand time (s)" is "hand time".
func (c Cell) Name() string {
	name, _ := splitUnit(c.Text)
	return joined(name)
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

// Named finds the heading that somebody named, with its unit or without, best as it was written, else in any case; the first such. -1 where there is none.
func (t *Table) Named(name string) int {
	inAnyCase := -1
	for i, h := range t.Head {
		short, _ := splitUnit(h.Text)
		switch {
		case h.Text == "":
		case h.Text == name || short == name:
			return i
		case inAnyCase < 0 && (h.Name() == joined(name) || joined(h.Text) == joined(name)):
			inAnyCase = i
		}
	}
	return inAnyCase
}

// joined is text in lower case with one blank between words.
func joined(text string) string { return strings.ToLower(strings.Join(strings.Fields(text), " ")) }

// At is the cell of a row under a heading by index; an empty cell without a place where the index is -1.
func (r Row) At(column int) Cell {
	switch {
	case column < 0:
		return Cell{Row: r.Number}
	case column >= len(r.Cells):
		return Cell{Row: r.Number, Column: column + 1, in: r.in}
	}
	return r.Cells[column]
}

const longestQuote = 60

// Quote puts what somebody wrote into a message: in quotes, harmless, 60 letters at most.
func Quote(text string) string {
	r := []rune(text)
	if len(r) > longestQuote {
		text = string(r[:longestQuote]) + "…"
	}
	return `"` + Harmless(text) + `"`
}

// Harmless is text from a file so that a terminal shows it and does nothing else: a line break is ⏎, a tab is kept, and control
// characters, marks that turn the direction of writing round and what is no letter at all are � each, so that columns still count.
func Harmless(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return '⏎'
		case r == '\t' || unicode.IsPrint(r) || unicode.Is(unicode.Zs, r) || r == '\u200d': // the last joins emoji
			return r
		}
		return unicode.ReplacementChar
	}, text)
}
