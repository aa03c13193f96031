package sheet

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
)

// Limits of a table.
const (
	mostBytes   = 32 << 20
	mostRows    = 200_000 // under the heading, where nothing else is asked for
	mostColumns = 500
	mostCells   = 4_000_000
	mostCell    = 10_000 // bytes of one cell
	mostBeside  = 16_384 // cells side by side that are looked at, as in the widest sheets
)

// Read reads a table from a CSV or XLSX file; which of them it is shows in its first bytes, not in its name. The faults are rows and
// cells that cannot be read, in order of place; what is in the table is whole. The error is for a file that cannot be opened or is no
// table at all; it names the file.
func Read(path string, o Options) (*Table, []Fault, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return nil, nil, fmt.Errorf("%s is not there; check the name", path)
	case err != nil:
		return nil, nil, err
	case info.IsDir():
		return nil, nil, fmt.Errorf("%s is a folder; name a CSV or XLSX file in it", path)
	case info.Size() > mostBytes:
		return nil, nil, tooLarge(path)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, nil, err
	}
	defer f.Close()
	b, err := io.ReadAll(io.LimitReader(f, mostBytes+1))
	if err != nil {
		return nil, nil, fmt.Errorf("%s cannot be read: %w", path, err)
	}
	if len(b) > mostBytes {
		return nil, nil, tooLarge(path)
	}
	return ReadBytes(path, b, o)
}

func tooLarge(path string) error {
	return fmt.Errorf("%s is larger than %d MiB; a table of readings is far smaller: keep only the rows and columns that are needed", path, mostBytes>>20)
}

// ReadBytes reads a table from memory; the name stands in its faults. Otherwise as Read.
func ReadBytes(name string, b []byte, o Options) (*Table, []Fault, error) {
	switch {
	case bytes.HasPrefix(b, []byte("PK\x03\x04")):
		return readXLSX(name, b, o)
	case bytes.HasPrefix(b, []byte("\xd0\xcf\x11\xe0")):
		return nil, nil, fmt.Errorf("%s is an old .xls file or is locked by a password; save it as .xlsx without a password, or as CSV", name)
	case bytes.HasPrefix(b, []byte("%PDF")):
		return nil, nil, fmt.Errorf("%s is a PDF; save the table as CSV or XLSX", name)
	}
	if o.Sheet != "" {
		return nil, nil, fmt.Errorf("%s is a CSV file and has no sheets; leave --sheet out", name)
	}
	return readCSV(name, b, o)
}

// tooMuch refuses a table of more rows or cells than are read.
func tooMuch(name string, rows, cells int, o Options) error {
	mostR, mostC := cmp.Or(o.Rows, mostRows), cmp.Or(o.cells, mostCells)
	switch {
	case rows > mostR+1:
		return fmt.Errorf("%s has more than %d rows; split it", name, mostR)
	case cells > mostC:
		return fmt.Errorf("%s has more than %d cells; keep only the rows and columns that are needed", name, mostC)
	}
	return nil
}

// build makes a table of raw rows: the first that is not blank holds the headings. A row with more cells than headings is refused.
func build(t *Table, o Options, rows []Row, faults []Fault) (*Table, []Fault, error) {
	where := t.File
	if t.Sheet != "" {
		where += ", sheet " + Quote(t.Sheet)
	}
	if len(rows) == 0 && len(faults) == 0 {
		return nil, nil, fmt.Errorf("%s is empty; wanted is a row of headings, then one row a reading", where)
	}
	if len(rows) == 0 {
		return t, faults, nil
	}
	t.Head = filled(rows[0].Cells)
	if len(t.Head) > mostColumns {
		return nil, nil, fmt.Errorf("%s has %d columns, at most %d are read", where, len(t.Head), mostColumns)
	}
	if !o.Figures {
		faults = append(faults, twice(t.Head)...)
	}
	for _, r := range rows[1:] {
		if f, bad := fit(t, &r); bad {
			faults = append(faults, f)
			continue
		}
		t.Rows = append(t.Rows, r)
	}
	return t, faults, nil
}

// twice finds headings that stand twice, which could not be told apart.
func twice(head []Cell) []Fault {
	var faults []Fault
	seen := map[string]Cell{}
	for _, h := range head {
		if h.Text == "" {
			continue
		}
		name := strings.ToLower(h.Text)
		if first, ok := seen[name]; ok {
			faults = append(faults, h.Fault("each heading once", "first at "+first.Place()))
			continue
		}
		seen[name] = h
	}
	return faults
}

// fit takes the empty cells off the end of a row; bad tells that others stand beyond the last heading.
func fit(t *Table, r *Row) (f Fault, bad bool) {
	r.Cells = filled(r.Cells)
	if len(r.Cells) <= len(t.Head) {
		return Fault{}, false
	}
	hint := ""
	if t.Sheet == "" {
		hint = "a number with a comma is two cells here unless it stands in quotes; or the heading is missing"
	}
	return r.Cells[len(t.Head)].faulty(fmt.Sprintf("a cell %s beyond the last heading", Quote(r.Cells[len(r.Cells)-1].Text)),
		fmt.Sprintf("at most %d cells, as there are headings", len(t.Head)), hint), true
}

// filled are the cells up to the last that is not empty.
func filled(cells []Cell) []Cell {
	for len(cells) > 0 && cells[len(cells)-1].Text == "" {
		cells = cells[:len(cells)-1]
	}
	return cells
}
