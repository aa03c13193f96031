package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"
)

// readXLSX reads the values that are stored in a sheet, never those that are shown: a time shown as 0:01 may be 65 s. A cell whose number
// format is a date or a time is written out as one, because the stored value is days; a formula without a stored value is refused.
func readXLSX(name string, b []byte, o Options) (table *Table, faults []Fault, err error) {
	unworked, err := lookOver(name, b)
	if err != nil {
		return nil, nil, err
	}
	defer func() { // the workbook's library falls over some damaged files
		if recover() != nil {
			table, faults, err = nil, nil, damaged(name)
		}
	}()
	f, err := excelize.OpenReader(bytes.NewReader(b), excelize.Options{RawCellValue: true, UnzipSizeLimit: mostUnpacked, UnzipXMLSizeLimit: mostUnpacked})
	if err != nil {
		return nil, nil, fmt.Errorf("%s cannot be read as a workbook: %w; save it as .xlsx again, or as CSV", name, err)
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	sheet, err := sheetOf(f, name, o.Sheet)
	if err != nil {
		return nil, nil, err
	}
	w := &workbook{f: f, o: o, unworked: unworked, styles: map[int]shown{}, t: &Table{File: name, Sheet: sheet, DecimalComma: o.DecimalComma}}
	if p, err := f.GetWorkbookProps(); err == nil && p.Date1904 != nil {
		w.from1904 = *p.Date1904
	}
	if err := w.read(); err != nil {
		return nil, nil, err
	}
	return build(w.t, o, w.rows, w.faults)
}

func damaged(name string) error {
	return fmt.Errorf("%s is damaged; open it in its own program and save it again, or save it as CSV", name)
}

func sheetOf(f *excelize.File, name, asked string) (string, error) {
	all := f.GetSheetList()
	if len(all) == 0 {
		return "", fmt.Errorf("%s has no sheet", name)
	}
	if asked == "" {
		return all[0], nil
	}
	if i := slices.IndexFunc(all, func(s string) bool { return strings.EqualFold(s, asked) }); i >= 0 {
		return all[i], nil
	}
	return "", fmt.Errorf("%s has no sheet %q; there are: %s", name, asked, Harmless(strings.Join(all, ", ")))
}

// workbook is a sheet while it is read.
type workbook struct {
	f        *excelize.File
	o        Options
	t        *Table
	styles   map[int]shown
	from1904 bool
	unworked map[string]bool // cells that have a formula and no value, in this sheet or another
	cells    int
	rows     []Row
	faults   []Fault
}

func (w *workbook) read() error {
	it, err := w.f.Rows(w.t.Sheet)
	if err != nil {
		return fmt.Errorf("%s, sheet %q, cannot be read: %w", w.t.File, w.t.Sheet, err)
	}
	defer it.Close()
	for n := 1; it.Next(); n++ {
		texts, err := it.Columns(excelize.Options{RawCellValue: true})
		if err != nil {
			return fmt.Errorf("%s, sheet %q, row %d cannot be read: %w", w.t.File, w.t.Sheet, n, err)
		}
		row, bad := Row{Number: n, in: w.t}, false
		for i, text := range texts {
			c := Cell{Text: tidy(text), Row: n, Column: i + 1, in: w.t}
			if f, wrong := w.refused(c); wrong {
				w.faults, bad = append(w.faults, f), true
				continue
			}
			w.asBool(&c)
			w.asClock(&c)
			row.Cells = append(row.Cells, c)
		}
		row.Cells = filled(row.Cells)
		if bad || len(row.Cells) == 0 {
			continue
		}
		w.rows, w.cells = append(w.rows, row), w.cells+len(row.Cells)
		if err := tooMuch(w.t.File, len(w.rows), w.cells, w.o); err != nil {
			return err
		}
	}
	return it.Error()
}

// asBool writes a yes or no as a word: it is stored as a number, and none.
func (w *workbook) asBool(c *Cell) {
	if c.Text != "0" && c.Text != "1" {
		return
	}
	if kind, err := w.f.GetCellType(w.t.Sheet, c.ref()); err == nil && kind == excelize.CellTypeBool {
		c.Text = map[string]string{"1": "TRUE", "0": "FALSE"}[c.Text]
	}
}

// refused tells what is wrong with a cell, if anything is.
func (w *workbook) refused(c Cell) (f Fault, wrong bool) {
	switch {
	case c.Text == "" && len(w.rows) > 0 && w.formula(c):
		return c.faulty("a formula without a stored value", "a value", "open the file in its own program, let it calculate, and save it again"), true
	case c.Text == "":
		return Fault{}, false
	case len(c.Text) > mostCell:
		return c.faulty("a very long cell", "at most 10000 characters", ""), true
	case c.Column > mostColumns:
		return c.Fault(fmt.Sprintf("cells in the first %d columns", mostColumns), "keep only the columns that are needed"), true
	case strings.HasPrefix(c.Text, "#") && slices.Contains(failed, c.Text):
		return c.Fault("a value", "a formula that failed"), true
	}
	return Fault{}, false
}

// failed are the values of formulas that failed (ECMA-376 part 1, 18.17.3).
var failed = []string{"#N/A", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#NULL!"}

// formula tells whether an empty cell has a formula that was never worked out; an empty text is a value.
func (w *workbook) formula(c Cell) bool {
	if !w.unworked[c.ref()] {
		return false
	}
	text, err := w.f.GetCellFormula(w.t.Sheet, c.ref())
	return err == nil && text != ""
}
