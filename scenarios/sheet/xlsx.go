package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"
)

const (
	mostUnzipped = 256 << 20
	mostFormulas = 100_000 // empty cells that are looked at for a formula
)

// readXLSX reads the values that are stored in a sheet, never those that are shown: a time shown as 0:01 may be 65 s. A cell whose number
// format is a date or a time is written out as one, because the stored value is days; a formula without a stored value is refused.
func readXLSX(name string, b []byte, o Options) (table *Table, faults []Fault, err error) {
	defer func() { // the workbook's library falls over some damaged files
		if recover() != nil {
			table, faults, err = nil, nil, fmt.Errorf("%s is damaged; open it in its own program and save it again, or save it as CSV", name)
		}
	}()
	f, err := excelize.OpenReader(bytes.NewReader(b), excelize.Options{RawCellValue: true, UnzipSizeLimit: mostUnzipped, UnzipXMLSizeLimit: mostUnzipped})
	if err != nil {
		return nil, nil, fmt.Errorf("%s cannot be read as a workbook: %w; save it as .xlsx again, or as CSV", name, err)
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	sheet, err := sheetOf(f, name, o.Sheet)
	if err != nil {
		return nil, nil, err
	}
	w := &workbook{f: f, sheet: sheet, styles: map[int]clock{}, t: &Table{File: name, Sheet: sheet, DecimalComma: o.DecimalComma}}
	if p, err := f.GetWorkbookProps(); err == nil && p.Date1904 != nil {
		w.from1904 = *p.Date1904
	}
	rows, err := w.rows()
	if err != nil {
		return nil, nil, err
	}
	return build(w.t, rows, w.faults)
}

func sheetOf(f *excelize.File, name, asked string) (string, error) {
	all := f.GetSheetList()
	if len(all) == 0 {
		return "", fmt.Errorf("%s has no sheet", name)
	}
	if asked == "" {
		return all[0], nil
	}
	for _, s := range all {
		if strings.EqualFold(s, asked) {
			return s, nil
		}
	}
	return "", fmt.Errorf("%s has no sheet %q; there are: %s", name, asked, strings.Join(all, ", "))
}

// workbook is a sheet while it is read.
type workbook struct {
	f        *excelize.File
	sheet    string
	t        *Table
	styles   map[int]clock
	from1904 bool
	looked   int
	faults   []Fault
}

func (w *workbook) rows() ([]Row, error) {
	it, err := w.f.Rows(w.sheet)
	if err != nil {
		return nil, fmt.Errorf("%s, sheet %q, cannot be read: %w", w.t.File, w.sheet, err)
	}
	defer it.Close()
	var rows []Row
	for n := 1; it.Next(); n++ {
		texts, err := it.Columns(excelize.Options{RawCellValue: true})
		if err != nil {
			return nil, fmt.Errorf("%s, sheet %q, row %d cannot be read: %w", w.t.File, w.sheet, n, err)
		}
		row, bad := w.row(n, texts, len(rows) == 0)
		switch {
		case bad, blank(row.Cells):
			continue
		case len(rows) > mostRows:
			return nil, fmt.Errorf("%s has more than %d rows; split it", w.t.File, mostRows)
		}
		rows = append(rows, row)
	}
	return rows, it.Error()
}

// row reads one row; bad tells that it is refused and was named.
func (w *workbook) row(n int, texts []string, heading bool) (row Row, bad bool) {
	row = Row{Number: n}
	for i, text := range texts {
		ref := fmt.Sprintf("%s%d", letters(i+1), n)
		c := Cell{Text: tidy(text), Row: n, Column: i + 1, place: cellPlace(w.t, n, i+1)}
		switch {
		case c.Text == "" && !heading && w.formula(ref):
			w.faults = append(w.faults, Fault{Place: c.place, Found: "a formula without a stored value", Want: "a value",
				Hint: "open the file in its own program, let it calculate, and save it again"})
			bad = true
		case len(c.Text) > mostCell:
			w.faults = append(w.faults, Fault{Place: c.place, Found: "a very long cell", Want: "at most 10000 characters"})
			bad = true
		case strings.HasPrefix(c.Text, "#") && strings.Contains("#N/A #DIV/0! #VALUE! #REF! #NAME? #NUM! #NULL!", c.Text):
			w.faults = append(w.faults, c.Fault("a value", "a formula that failed"))
			bad = true
		default:
			c.Text = w.asClock(ref, c.Text)
		}
		row.Cells = append(row.Cells, c)
	}
	return row, bad
}

func (w *workbook) formula(ref string) bool {
	if w.looked++; w.looked > mostFormulas {
		return false
	}
	text, err := w.f.GetCellFormula(w.sheet, ref)
	return err == nil && text != ""
}

// clock is what a number format shows.
type clock int

const (
	noClock clock = iota
	dayTime       // hours, minutes, seconds
	date          // a day, with a time or without
)

// asClock writes a stored number of days out as what its format says it is.
func (w *workbook) asClock(ref, text string) string {
	days, err := strconv.ParseFloat(text, 64)
	if err != nil || days < 0 || days > 1e6 {
		return text
	}
	id, err := w.f.GetCellStyle(w.sheet, ref)
	if err != nil || id == 0 {
		return text
	}
	kind, ok := w.styles[id]
	if !ok {
		if s, err := w.f.GetStyle(id); err == nil {
			kind = formatOf(s)
		}
		w.styles[id] = kind
	}
	switch {
	case kind == dayTime || kind == date && days < 1:
		return clockText(days)
	case kind == date:
		at, err := excelize.ExcelDateToTime(days, w.from1904)
		if err != nil {
			return text
		}
		return at.Round(time.Millisecond).Format("2006-01-02 15:04:05.999")
	}
	return text
}

// clockText is days as h:mm:ss, to the millisecond.
func clockText(days float64) string {
	ms := int64(math.Round(float64(days * 86400e3)))
	s := fmt.Sprintf("%d:%02d:%02d", ms/3600e3, ms/60e3%60, ms/1000%60)
	if ms%1000 != 0 {
		s += strings.TrimRight(fmt.Sprintf(".%03d", ms%1000), "0")
	}
	return s
}

// formatOf tells dates and times by the number format: the built-in ones by number (ECMA-376 part 1, 18.8.30), others by their letters.
func formatOf(s *excelize.Style) clock {
	switch n := s.NumFmt; {
	case n >= 18 && n <= 21, n >= 45 && n <= 47:
		return dayTime
	case n >= 14 && n <= 22, n >= 27 && n <= 36, n >= 50 && n <= 58:
		return date
	}
	if s.CustomNumFmt == nil {
		return noClock
	}
	letters := formatLetters(*s.CustomNumFmt)
	switch {
	case strings.ContainsAny(letters, "yd"):
		return date
	case strings.ContainsAny(letters, "hs"):
		return dayTime
	}
	return noClock
}

// formatLetters is a format in lower case without quoted text, colours and escapes; [h], [m] and [s] stay.
func formatLetters(format string) string {
	var b strings.Builder
	quoted := false
	for i := 0; i < len(format); i++ {
		c := format[i]
		switch {
		case c == '"':
			quoted = !quoted
		case quoted:
		case c == '\\' || c == '_' || c == '*':
			i++
		case c == '[':
			end := strings.IndexByte(format[i:], ']')
			if end < 0 {
				return b.String()
			}
			if inner := strings.ToLower(format[i+1 : i+end]); strings.Trim(inner, "hms") == "" {
				b.WriteString(inner)
			}
			i += end
		default:
			b.WriteByte(c)
		}
	}
	return strings.ToLower(b.String())
}
