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
	text, err := decode(b)
	if err != nil {
		return nil, nil, fmt.Errorf("%s %w", name, err)
	}
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	t := &Table{File: name, DecimalComma: o.DecimalComma}
	comma, skip := separator(text)
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.FieldsPerRecord, r.ReuseRecord = comma, -1, true
	lines := strings.Split(text, "\n")
	var rows []Row
	var faults []Fault
	for {
		record, err := r.Read()
		var p *csv.ParseError
		switch {
		case err == io.EOF:
			return build(t, rows, faults)
		case errors.As(err, &p):
			faults = append(faults, quoteFault(name, p))
			continue
		case err != nil:
			return nil, nil, fmt.Errorf("%s cannot be read: %w", name, err)
		}
		line, _ := r.FieldPos(0)
		if line <= skip {
			continue
		}
		row := Row{Number: line}
		for i, text := range record {
			l, at := r.FieldPos(i)
			row.Cells = append(row.Cells, Cell{Text: tidy(text), Row: l, Column: i + 1, At: signsBefore(lines, l, at) + 1, place: cellPlace(t, l, i+1)})
		}
		if blank(row.Cells) {
			continue
		}
		if len(rows) > mostRows {
			return nil, nil, fmt.Errorf("%s has more than %d rows; split it", name, mostRows)
		}
		if c, long := tooLong(row.Cells); long {
			faults = append(faults, Fault{Place: c.place, Found: fmt.Sprintf("a cell of %d characters", len(c.Text)), Want: "at most 10000", Hint: "a quote mark may be missing"})
			continue
		}
		rows = append(rows, row)
	}
}

// signsBefore counts the characters of a line, from 1, before a byte of it, from 1.
func signsBefore(lines []string, line, at int) int {
	if line < 1 || line > len(lines) || at < 1 {
		return 0
	}
	return utf8.RuneCountInString(lines[line-1][:min(at-1, len(lines[line-1]))])
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

// cellPlace of a CSV file counts columns as cells: that is what a spreadsheet shows.
func cellPlace(t *Table, row, column int) string {
	if t.Sheet != "" {
		return fmt.Sprintf("%s:%s!%s%d", t.File, t.Sheet, letters(column), row)
	}
	return fmt.Sprintf("%s:%d:%d", t.File, row, column)
}

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
	return Fault{Place: fmt.Sprintf("%s:%d:1", name, p.StartLine), Found: found, Want: `quote marks around a whole cell, doubled ("") inside it`}
}

// decode takes off a BOM and gives UTF-8.
func decode(b []byte) (string, error) {
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
		l = strings.TrimSpace(l)
		if l == "" {
			continue
		}
		if rest, ok := strings.CutPrefix(l, "sep="); ok && len(rest) == 1 && strings.Contains(";,\t|", rest) {
			return rune(rest[0]), line
		}
		return mostOf(l), 0
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
