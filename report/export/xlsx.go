package export

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"

	"pascaline/report/grid"
	"pascaline/report/number"
	"pascaline/report/store"
	"pascaline/sim/result"
)

// XLSX writes results as a spreadsheet file: a sheet with the answer, one with the assumptions and the seed, one for each table of the page, one with every
// value in full. command is how to run it again; "" leaves it out. Errors name the file and say what to do.
func XLSX(path string, r result.Results, command string) error {
	b, err := bookOf(r, command)
	if err != nil {
		return err
	}
	data, err := spreadsheet(b)
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", path, err)
	}
	return store.Write(path, data)
}

// writer fills the sheets of a file; the first error stays and stops what follows.
type writer struct {
	file   *excelize.File
	err    error
	sheet  string
	row    int // next row, from 1
	names  map[string]bool
	styles map[string]int
}

func spreadsheet(b *book) ([]byte, error) {
	w := &writer{file: excelize.NewFile(), names: map[string]bool{}, styles: map[string]int{}}
	w.open(answerName)
	w.pairs(b.answer)
	w.open(assumptionsName)
	w.pairs(b.grounds)
	for _, t := range b.assumptions {
		w.row++
		w.table(t)
	}
	w.widths([]float64{34, 60, 16, 70})
	for _, t := range append(append([]table{}, b.tables...), b.values) {
		w.page(t)
	}
	return w.bytes()
}

// bytes is the file, opened at its first sheet; the first error of all that was written.
func (w *writer) bytes() ([]byte, error) {
	if w.err != nil {
		return nil, w.err
	}
	w.file.SetActiveSheet(0)
	var out bytes.Buffer
	if err := w.file.Write(&out); err != nil {
		return nil, err
	}
	return out.Bytes(), w.file.Close()
}

// page is a sheet of its own for a table: what it is, the headings, which stay in sight, and the rows.
func (w *writer) page(t table) {
	name := t.caption
	if t.title == valuesName {
		name = valuesName
	}
	w.open(name)
	w.table(t)
	w.widths(widths(t))
	w.do(func() error {
		return w.file.SetPanes(w.sheet, &excelize.Panes{Freeze: true, YSplit: 2, TopLeftCell: "A3", ActivePane: "bottomLeft"})
	})
}

func (w *writer) do(f func() error) {
	if w.err == nil {
		w.err = f()
	}
}

// open begins a sheet; its name is cut to what spreadsheets allow and told apart from the others.
func (w *writer) open(name string) {
	clean := cutTo(strings.Join(strings.FieldsFunc(mainPart(name), func(r rune) bool { return strings.ContainsRune(` []:*?/\'`, r) }), " "), 31)
	for n := 2; clean == "" || w.names[strings.ToLower(clean)]; n++ {
		clean = fmt.Sprintf("%s %d", cutTo(clean, 27), n)
	}
	w.names[strings.ToLower(clean)] = true
	first := w.sheet == ""
	w.sheet, w.row = clean, 1
	w.do(func() error {
		if first {
			return w.file.SetSheetName(w.file.GetSheetName(0), clean)
		}
		_, err := w.file.NewSheet(clean)
		return err
	})
}

func (w *writer) pairs(all []pair) {
	for _, p := range all {
		w.text(1, p.name, w.style("bold"))
		w.text(2, p.value, w.style("wrap"))
		w.row++
	}
	w.widths([]float64{34, 100})
}

func (w *writer) table(t table) {
	w.text(1, t.caption, w.style("bold"))
	w.row++
	for i, h := range t.Head {
		w.text(i+1, h, w.style("head"))
	}
	w.row++
	for _, whole := range t.Rows {
		for _, cells := range inParts(whole) {
			w.cells(cells)
		}
	}
	if t.foot != "" {
		w.text(1, t.foot, 0)
		w.row++
	}
}

func (w *writer) cells(all []grid.Cell) {
	for i, c := range all {
		if c.Number {
			w.number(i+1, c)
		} else if c.Text != "" {
			w.text(i+1, c.Text, 0)
		}
	}
	w.row++
}

// text stores words as words: no reader takes them for a formula.
func (w *writer) text(column int, s string, style int) {
	w.put(column, style, func(at string) error { return w.file.SetCellStr(w.sheet, at, s) })
}

func (w *writer) number(column int, c grid.Cell) {
	format := "0"
	switch {
	case c.Decimals == grid.Full:
		format = "General"
	case c.Decimals > 0:
		format = "#,##0." + strings.Repeat("0", c.Decimals)
	case c.Value >= 1000 || c.Value <= -1000:
		format = "#,##0"
	}
	w.put(column, w.style(format), func(at string) error { return w.file.SetCellFloat(w.sheet, at, c.Value, -1, 64) })
}

func (w *writer) put(column, style int, set func(at string) error) {
	w.do(func() error {
		at, err := excelize.CoordinatesToCellName(column, w.row)
		if err != nil {
			return err
		}
		if err := set(at); err != nil || style == 0 {
			return err
		}
		return w.file.SetCellStyle(w.sheet, at, at, style)
	})
}

// style gives a look by name, or a number format, made once.
func (w *writer) style(name string) int {
	if id, ok := w.styles[name]; ok || name == "General" {
		return id
	}
	s := &excelize.Style{}
	switch name {
	case "bold":
		s.Font, s.Alignment = &excelize.Font{Bold: true}, &excelize.Alignment{Vertical: "top"}
	case "head":
		s.Font = &excelize.Font{Bold: true}
		s.Alignment = &excelize.Alignment{WrapText: true, Vertical: "bottom"}
		s.Border = []excelize.Border{{Type: "bottom", Color: "1A1A1A", Style: 2}}
	case "wrap":
		s.Alignment = &excelize.Alignment{WrapText: true, Vertical: "top"}
	case "right":
		s.Alignment = &excelize.Alignment{Horizontal: "right"}
	default:
		s.CustomNumFmt, s.Alignment = &name, &excelize.Alignment{Horizontal: "right"} // so that a word in place of a number stands where it would
	}
	w.do(func() error {
		id, err := w.file.NewStyle(s)
		w.styles[name] = id
		return err
	})
	return w.styles[name]
}

func (w *writer) widths(all []float64) {
	for i, width := range all {
		w.do(func() error {
			name, err := excelize.ColumnNumberToName(i + 1)
			if err != nil {
				return err
			}
			return w.file.SetColWidth(w.sheet, name, name, width)
		})
	}
}

// widths are what the columns of a table need, between bounds.
func widths(t table) []float64 {
	out := make([]float64, len(t.Head))
	for i, h := range t.Head {
		out[i] = min(14, float64(number.Width(h)+2))
		for _, row := range t.Rows {
			out[i] = max(out[i], min(50, float64(number.Width(row[i].Text)+2)))
		}
		out[i] = max(out[i], 10)
	}
	return out
}
