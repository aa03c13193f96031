package scenarios

import (
	"bytes"
	"slices"
	"strings"

	"pascaline/scenarios/sheet"
)

const mostReadings = 1_000_000

// readings are the values of one column of a table beside the scenario, in seconds, sorted; nil where they cannot be read.
func (r *reader) readings(path string, n *node, column string) []float64 {
	p := n.get("file")
	src := r.beside(p.value.at, join(path, "file"), p.value)
	if src == nil {
		return nil
	}
	r.sources = append(r.sources, src)
	t := r.table(src, path, p.value, "a CSV or XLSX table of readings", sheet.Options{Rows: mostReadings, Figures: true})
	if t == nil {
		return nil
	}
	i := r.readingColumn(t, path, column, n)
	if i < 0 {
		return nil
	}
	head := t.Head[i]
	if !sheet.IsTimeUnit(head.TimeUnit()) {
		r.add(cellPlace(src, head), path, quote(head.Text), `a heading with its unit, such as "hand time (s)" or "seconds"`, "")
		return nil
	}
	if len(t.Rows) == 0 {
		r.add(place{src: src, line: 1, column: 1}, path, "no readings", "one reading a line under the headings", "")
		return nil
	}
	return r.times(src, t, path, i)
}

// times reads a column; each cell that is no time is a fault.
func (r *reader) times(src *source, t *sheet.Table, path string, i int) []float64 {
	values := make([]float64, 0, len(t.Rows))
	unit := t.Head[i].TimeUnit()
	for _, row := range t.Rows {
		cell := row.At(i)
		v, f := t.Seconds(cell, unit)
		if f != nil {
			if strings.Count(cell.Text, ",") == 1 {
				f.Hint = "a decimal comma; write " + strings.Replace(cell.Text, ",", ".", 1)
			}
			r.add(cellPlace(src, cell), path, f.Found, f.Want, f.Hint)
			continue
		}
		values = append(values, v)
	}
	if len(values) < len(t.Rows) {
		return nil
	}
	slices.Sort(values)
	return values
}

// readingColumn finds the column that was named, by its heading with or without the unit, or the only one; -1 where there is none.
func (r *reader) readingColumn(t *sheet.Table, path, name string, n *node) int {
	switch i := t.Named(name); {
	case name != "" && i >= 0:
		return i
	case name == "" && len(t.Head) == 1:
		return 0
	}
	var texts, all []string
	for _, h := range t.Head {
		if h.Text != "" {
			texts, all = append(texts, h.Text), append(all, h.Name())
		}
	}
	if p := n.get("column"); p != nil {
		r.add(p.value.at, join(path, "column"), quote(name), "one of the headings "+orList(quoted(texts)), didYouMean(name, append(all, texts...)))
		return -1
	}
	r.add(n.get("file").value.at, path, "a file of several columns", "column: one of "+orList(quoted(texts)), "")
	return -1
}

// table reads a table that a scenario names at n; what cannot be read is told where it stands, and then there is none.
func (r *reader) table(src *source, path string, n *node, want string, o sheet.Options) *sheet.Table {
	if b := src.bytes; bytes.HasPrefix(b, []byte("PK")) || bytes.HasPrefix(b, []byte("\xff\xfe")) || bytes.HasPrefix(b, []byte("\xfe\xff")) {
		src.lines = nil // a workbook has no lines to show, and those of UTF-16 cannot be shown
	}
	t, faults, err := sheet.ReadBytes(src.name, src.bytes, o)
	if err != nil {
		r.add(n.at, path, n.show(), want, err.Error())
		return nil
	}
	for _, f := range faults {
		r.add(place{src: src, line: max(1, f.Row), column: max(1, f.At)}, path, f.Found, f.Want, f.Hint)
	}
	if len(faults) > 0 {
		return nil
	}
	return t
}

// cellPlace is where a cell stands: in a CSV file by the character, so that the mark under the line stands under the cell; in a workbook by its column.
func cellPlace(src *source, c sheet.Cell) place {
	if c.At == 0 {
		return place{src: src, line: c.Row, column: c.Column}
	}
	return place{src: src, line: c.Row, column: c.At}
}
