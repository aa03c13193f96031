package sheet

import (
	"bytes"
	"encoding/binary"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// readCSV reads cells parted by semicolons, tabs or commas, whichever the heading uses most. A BOM, a line "sep=;", quotes,
// blank lines and any mixture of line ends are taken as what they are.
func readCSV(name string, b []byte, o Options) (*Table, []Fault, error) {
	text, err := decode(b, o)
	if err != nil {
		return nil, nil, fmt.Errorf("%s %w", name, err)
	}
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	t := &Table{File: name, DecimalComma: o.DecimalComma}
	comma, skip := separator(text)
	if n := widest(text, comma); n >= mostBeside {
		return nil, nil, fmt.Errorf("%s has a line of more than %d cells; keep only the columns that are needed", name, mostBeside)
	}
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.FieldsPerRecord, r.ReuseRecord = comma, -1, true
	x := csvRows{t: t, o: o, r: r, lines: lineCounter{rest: text, line: 1}}
	for {
		record, err := r.Read()
		var p *csv.ParseError
		switch {
		case err == io.EOF:
			return build(t, o, x.rows, x.faults)
		case errors.As(err, &p):
			x.faults = append(x.faults, quoteFault(name, p))
			continue
		case err != nil:
			return nil, nil, fmt.Errorf("%s cannot be read: %w", name, err)
		}
		if line, _ := r.FieldPos(0); line <= skip {
			continue
		}
		if err := x.add(record); err != nil {
			return nil, nil, err
		}
	}
}

// csvRows gathers the rows of a CSV file.
type csvRows struct {
	t      *Table
	o      Options
	r      *csv.Reader
	lines  lineCounter
	rows   []Row
	cells  int
	faults []Fault
}

func (x *csvRows) add(record []string) error {
	line, _ := x.r.FieldPos(0)
	row := Row{Number: line, in: x.t}
	for len(record) > 0 && tidy(record[len(record)-1]) == "" {
		record = record[:len(record)-1]
	}
	if len(record) == 0 {
		return nil
	}
	if err := tooMuch(x.t.File, len(x.rows)+1, x.cells+len(record), x.o); err != nil {
		return err
	}
	x.cells += len(record)
	row.Cells = make([]Cell, 0, len(record))
	for i, text := range record {
		l, at := x.r.FieldPos(i)
		row.Cells = append(row.Cells, Cell{Text: tidy(text), Row: l, Column: i + 1, At: x.lines.signsBefore(l, at) + 1, in: x.t})
	}
	if c, long := tooLong(row.Cells); long {
		x.faults = append(x.faults, c.faulty(fmt.Sprintf("a cell of %d characters", len(c.Text)), "at most 10000", "a quote mark may be missing"))
		return nil
	}
	x.rows = append(x.rows, row)
	return nil
}

// widest is the greatest number of separators in a line.
func widest(text string, comma rune) int {
	most := 0
	for l := range strings.Lines(text) {
		most = max(most, strings.Count(l, string(comma)))
	}
	return most
}

// lineCounter goes through the lines of a text and never back.
type lineCounter struct {
	rest string // from the beginning of the line
	line int
}

// signsBefore counts the characters of a line, from 1, before a byte of it, from 1.
func (c *lineCounter) signsBefore(line, at int) int {
	for ; c.line < line; c.line++ {
		_, c.rest, _ = strings.Cut(c.rest, "\n")
	}
	return utf8.RuneCountInString(c.rest[:min(max(at-1, 0), len(c.rest))])
}

func tooLong(cells []Cell) (Cell, bool) {
	for _, c := range cells {
		if len(c.Text) > mostCell {
			return c, true
		}
	}
	return Cell{}, false
}

// tidy takes away blanks at the ends, also those that do not break a line.
func tidy(text string) string { return strings.TrimSpace(strings.ReplaceAll(text, "\u00a0", " ")) }

// letters is a column's name in a workbook: 1 is A, 27 is AA.
func letters(column int) string {
	s := ""
	for ; column > 0; column = (column - 1) / 26 {
		s = string(rune('A'+(column-1)%26)) + s
	}
	return s
}

func quoteFault(name string, p *csv.ParseError) Fault {
	found := "a quote mark that does not fit"
	if p.StartLine != p.Line {
		found = "a quote mark that is not closed, so that nothing after it can be read"
	}
	return Fault{Place: fmt.Sprintf("%s:%d:1", name, p.StartLine), Found: found, Want: `quote marks around a whole cell, doubled ("") inside it`, Row: p.StartLine, At: 1}
}

// decode takes off a BOM and gives UTF-8.
func decode(b []byte, o Options) (string, error) {
	switch {
	case bytes.HasPrefix(b, []byte("\xff\xfe")):
		b = utf16Bytes(b[2:], binary.LittleEndian)
	case bytes.HasPrefix(b, []byte("\xfe\xff")):
		b = utf16Bytes(b[2:], binary.BigEndian)
	default:
		b = bytes.TrimPrefix(b, []byte("\xef\xbb\xbf"))
	}
	if i := bytes.IndexByte(b, 0); i >= 0 {
		return "", errors.New("is no text file; save the table as CSV or XLSX")
	}
	if o.Figures { // an old code page spoils names and notes, no figures
		b = bytes.ToValidUTF8(b, []byte("\ufffd"))
	}
	if !utf8.Valid(b) {
		line := 1
		for rest := b; len(rest) > 0; {
			r, n := utf8.DecodeRune(rest)
			if r == utf8.RuneError && n == 1 {
				break
			}
			if r == '\n' {
				line++
			}
			rest = rest[n:]
		}
		return "", fmt.Errorf("has a character on line %d that is not UTF-8; save it as \"CSV UTF-8\"", line)
	}
	return string(b), nil
}

func utf16Bytes(b []byte, order binary.ByteOrder) []byte {
	u := make([]uint16, len(b)/2)
	for i := range u {
		u[i] = order.Uint16(b[2*i:])
	}
	return []byte(string(utf16.Decode(u)))
}

// separator is what parts the cells of the first line that is not blank, and the number of a line "sep=;" to be left out.
func separator(text string) (comma rune, skip int) {
	line := 0
	for l := range strings.Lines(text) {
		line++
		if strings.TrimSpace(l) == "" {
			continue
		}
		if rest, ok := strings.CutPrefix(strings.Trim(l, " \n"), "sep="); ok && len(rest) == 1 && strings.Contains(";,\t|", rest) {
			return rune(rest[0]), line
		}
		return mostOf(strings.TrimSpace(l)), 0
	}
	return ',', 0
}

// mostOf counts outside quotes.
func mostOf(line string) rune {
	counts, quoted := map[rune]int{}, false
	for _, r := range line {
		if r == '"' {
			quoted = !quoted
		}
		if !quoted {
			counts[r]++
		}
	}
	best := ','
	for _, r := range []rune{';', '\t'} {
		if counts[r] > counts[best] || counts[r] > 0 && counts[r] == counts[best] {
			best = r
		}
	}
	return best
}
