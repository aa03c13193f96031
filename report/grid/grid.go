// Package grid makes tables to count on with from tables to read: figures become numbers, their units go into the headings. What a page prints as
// "5,631 ± 38 packs/h" becomes two columns of numbers, "6 min 56 s" becomes 416 under a heading with (s).
package grid

import (
	"bytes"
	"encoding/csv"
	"regexp"
	"strconv"
	"strings"

	"pascaline/report/number"
)

// Full is the number of decimals of a value that is written in full.
const Full = -1

// Cell is a text or a number.
type Cell struct {
	Text     string
	Value    float64
	Number   bool
	Decimals int // of a number, or Full
}

// Grid is a table. All rows have as many cells as there are heads.
type Grid struct {
	Head []string
	Rows [][]Cell
}

// Of makes a grid from headings, which of them stand over figures, and rows of texts.
func Of(head []string, figures []bool, rows [][]string) Grid {
	t := Grid{Rows: make([][]Cell, len(rows))}
	for i, name := range head {
		texts := make([]string, len(rows))
		for k, row := range rows {
			if i < len(row) {
				texts[k] = row[i]
			}
		}
		for _, c := range split(name, texts, figures[i]) {
			t.Head = append(t.Head, c.head)
			for k := range t.Rows {
				t.Rows[k] = append(t.Rows[k], c.cells[k])
			}
		}
	}
	return t
}

// CSV writes the grid as RFC 4180 has it, in UTF-8 with a mark at its begin. A text that begins like a formula, and a part of one after a
// semicolon, stands behind an apostrophe, so that no program takes it for one.
func (t *Grid) CSV() ([]byte, error) {
	var b bytes.Buffer
	b.WriteString("\ufeff")
	w := csv.NewWriter(&b)
	w.UseCRLF = true
	head := make([]string, len(t.Head))
	for i, h := range t.Head {
		head[i] = inert(h)
	}
	if err := w.Write(head); err != nil {
		return nil, err
	}
	for _, cells := range t.Rows {
		row := make([]string, len(cells))
		for i, c := range cells {
			row[i] = inert(c.Text)
			if c.Number {
				row[i] = strconv.FormatFloat(c.Value, 'f', c.Decimals, 64)
			}
		}
		if err := w.Write(row); err != nil {
			return nil, err
		}
	}
	w.Flush()
	return b.Bytes(), w.Error()
}

// formula is how a formula begins: at the begin of a text, or after a sign at which some program, by the settings of its country, begins another cell.
var formula = regexp.MustCompile(`(^|[;\t\r\n|])(\s*[=+\-@＝＋－＠])`)

// inert keeps a text, and each part of it, from being taken for a formula by a program that opens the file.
func inert(s string) string {
	if strings.HasPrefix(s, "\t") || strings.HasPrefix(s, "\r") {
		s = "'" + s
	}
	return formula.ReplaceAllString(s, "$1'$2")
}

// column is one column of an export.
type column struct {
	head  string
	cells []Cell
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
	c := column{head: head, cells: make([]Cell, len(read))}
	for i, r := range read {
		switch v, has := of(r); {
		case ok[i] && has:
			c.cells[i] = Cell{Value: v, Number: true, Decimals: r.Decimals}
		case texts != nil && !ok[i]:
			c.cells[i] = Cell{Text: strings.TrimSuffix(texts[i], " %")} // "<0.1 %": the unit stands in the heading
		}
	}
	return c
}

func words(head string, texts []string) column {
	c := column{head: head, cells: make([]Cell, len(texts))}
	for i, s := range texts {
		c.cells[i] = Cell{Text: s}
	}
	return c
}
