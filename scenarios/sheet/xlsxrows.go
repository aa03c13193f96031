package sheet

import (
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"
)

// sheetRows gathers the rows of a sheet.
type sheetRows struct {
	w      *workbook
	o      Options
	t      *Table
	rows   []Row
	cells  int
	last   int // cells of the row before
	faults []Fault

	inside bool // the part that holds the cells
	row    Row
	bad    bool // the row is refused, and what is wrong was told
	c      rawCell
}

// rawCell is one cell as it is stored.
type rawCell struct {
	column         int // from 1; 0 before the first of a row
	kind           string
	style          int
	formula, value bool
	inV            bool
	v              []byte
	text           richText
}

func (x *sheetRows) token(t xml.Token) error {
	switch t := t.(type) {
	case xml.StartElement:
		return x.start(t)
	case xml.EndElement:
		return x.end(t.Name.Local)
	case xml.CharData:
		if x.c.inV && len(x.c.v) <= mostCell {
			x.c.v = append(x.c.v, t...)
		}
		x.c.text.token(t)
	}
	return nil
}

func (x *sheetRows) start(e xml.StartElement) error {
	if e.Name.Local == "sheetData" {
		x.inside = true
	}
	if !x.inside {
		return nil
	}
	switch e.Name.Local {
	case "row":
		n := x.row.Number + 1
		if r := attr(e, "r"); r != "" {
			var err error
			if n, err = strconv.Atoi(r); err != nil || n < 1 || n > 1<<24 {
				return x.w.unreadable(fmt.Errorf("a row has the number %s", Quote(r)))
			}
		}
		x.row, x.bad, x.c = Row{Number: n, in: x.t}, false, rawCell{}
	case "c":
		return x.startCell(e)
	case "f":
		x.c.formula = true
	case "v":
		x.c.value, x.c.inV = true, true
	default:
		x.c.text.token(e)
		x.c.value = x.c.value || e.Name.Local == "t"
	}
	return nil
}

func (x *sheetRows) startCell(e xml.StartElement) error {
	column := x.c.column + 1
	if ref := attr(e, "r"); ref != "" {
		column = columnOf(ref)
	}
	if column < 1 || column > mostBeside {
		return x.w.unreadable(fmt.Errorf("row %d has a cell outside of any sheet", x.row.Number))
	}
	style, _ := strconv.Atoi(attr(e, "s"))
	x.c = rawCell{column: column, kind: attr(e, "t"), style: style}
	return nil
}

// columnOf is the number of a column from the name of a cell: B7 is 2; 0 where it has no letters.
func columnOf(ref string) int {
	n := 0
	for _, r := range strings.ToUpper(ref) {
		if r < 'A' || r > 'Z' || n > mostBeside {
			break
		}
		n = 26*n + int(r-'A') + 1
	}
	return n
}

func (x *sheetRows) end(name string) error {
	x.c.text.token(xml.EndElement{Name: xml.Name{Local: name}})
	switch {
	case name == "sheetData":
		return errEnough
	case !x.inside:
	case name == "v":
		x.c.inV = false
	case name == "c":
		return x.endCell()
	case name == "row" && !x.bad && len(x.row.Cells) > 0:
		x.rows, x.last = append(x.rows, x.row), len(x.row.Cells)
		return tooMuch(x.t.File, len(x.rows), x.cells, x.o)
	}
	return nil
}

// endCell puts the cell that was read into its row, or names what is wrong with it.
func (x *sheetRows) endCell() error {
	text, err := x.c.stored(x.w)
	if err != nil {
		return err
	}
	c := Cell{Text: tidy(text), Row: x.row.Number, Column: x.c.column, in: x.t}
	switch {
	case c.Text == "" && x.c.formula && !(x.c.value && x.c.kind == "str") && len(x.rows) > 0:
		x.refuse(c.faulty("a formula without a stored value", "a value", "open the file in its own program, let it calculate, and save it again"))
		return nil
	case c.Text == "":
		return nil
	case len(c.Text) > mostCell:
		x.refuse(c.faulty("a very long cell", "at most 10000 characters", ""))
		return nil
	case x.c.kind == "e":
		x.refuse(c.Fault("a value", "a formula that failed"))
		return nil
	case c.Column > mostColumns:
		x.refuse(c.Fault(fmt.Sprintf("cells in the first %d columns", mostColumns), "keep only the columns that are needed"))
		return nil
	}
	if x.c.kind == "" || x.c.kind == "n" {
		x.w.asClock(&c, x.c.style)
	}
	return x.put(c)
}

func (x *sheetRows) refuse(f Fault) {
	x.faults, x.bad = append(x.faults, f), true
}

// put fills the row up to the cell.
func (x *sheetRows) put(c Cell) error {
	if len(x.row.Cells) == 0 {
		x.row.Cells = make([]Cell, 0, max(c.Column, x.last))
	}
	for i := len(x.row.Cells) + 1; i <= c.Column; i++ {
		x.row.Cells = append(x.row.Cells, Cell{Row: c.Row, Column: i, in: x.t})
		x.cells++
	}
	x.row.Cells[c.Column-1] = c
	return tooMuch(x.t.File, 0, x.cells, x.o)
}

// stored is the text of what is stored in a cell (ECMA-376 part 1, 18.18.11).
func (c *rawCell) stored(w *workbook) (string, error) {
	v := strings.TrimSpace(string(c.v))
	switch c.kind {
	case "s":
		n, err := strconv.Atoi(v)
		switch {
		case v == "":
			return "", nil
		case err != nil || n < 0 || n >= len(w.texts):
			return "", w.unreadable(fmt.Errorf("a cell has the text number %s, a text that is not in it", Quote(v)))
		}
		return w.texts[n], nil
	case "inlineStr":
		return c.text.String(), nil
	case "str":
		return unescaped(string(c.v)), nil
	case "b":
		return map[string]string{"1": "TRUE", "0": "FALSE"}[v], nil
	case "d":
		return strings.TrimSuffix(v, "Z"), nil
	}
	return v, nil
}
