package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"
)

// shown is what a number format shows.
type shown int

const (
	plainNumber shown = iota
	clockFull         // a time of day or a length of time, with seconds
	clockShort        // hours and minutes, without seconds
	day               // a day
	dayAndTime        // a day with its time
)

// asClock writes a stored number of days out as what its format says it is.
func (w *workbook) asClock(c *Cell) {
	days, err := strconv.ParseFloat(c.Text, 64)
	if err != nil || days < 0 || days > 1e6 {
		return
	}
	switch kind := w.shownAs(c); {
	case kind == plainNumber:
	case kind == clockFull, kind == clockShort, days < 1:
		c.Text, c.noS = clockText(days), kind == clockShort
	default:
		at, err := excelize.ExcelDateToTime(days, w.from1904)
		if err != nil {
			return
		}
		layout := "2006-01-02 15:04:05.999"
		if kind == day && days == math.Floor(days) {
			layout = "2006-01-02"
		}
		c.Text = at.Round(time.Millisecond).Format(layout)
	}
}

// shownAs is what the format of a cell shows.
func (w *workbook) shownAs(c *Cell) shown {
	id, err := w.f.GetCellStyle(w.t.Sheet, c.ref())
	if err != nil || id == 0 {
		return plainNumber
	}
	kind, ok := w.styles[id]
	if !ok {
		if s, err := w.f.GetStyle(id); err == nil {
			kind = formatOf(s)
		}
		w.styles[id] = kind
	}
	return kind
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
func formatOf(s *excelize.Style) shown {
	if s.CustomNumFmt != nil {
		return formatOfCode(*s.CustomNumFmt)
	}
	switch n := s.NumFmt; {
	case n == 18 || n == 20:
		return clockShort
	case n == 19 || n == 21, n >= 45 && n <= 47:
		return clockFull
	case n == 22:
		return dayAndTime
	case n >= 14 && n <= 17, n >= 27 && n <= 36, n >= 50 && n <= 58:
		return day
	}
	return plainNumber
}

func formatOfCode(code string) shown {
	letters, lower := formatLetters(code), strings.ToLower(code)
	hasDay, hasTime := strings.ContainsAny(letters, "yd"), strings.ContainsAny(letters, "hs")
	switch {
	case letters == "general":
		return plainNumber
	case strings.Contains(lower, "[m]"), strings.Contains(lower, "[mm]"): // minutes, not months
		return clockFull
	case hasDay && hasTime:
		return dayAndTime
	case hasDay:
		return day
	case strings.Contains(letters, "h") && !strings.Contains(letters, "s"):
		return clockShort
	case hasTime:
		return clockFull
	}
	return plainNumber
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
