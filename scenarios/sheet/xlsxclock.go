package sheet

import (
	"encoding/xml"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
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

// stylesReader reads which number format the styles of cells have.
type stylesReader struct {
	w      *workbook
	own    map[int]shown // formats that are not built in, by their number
	inside bool          // the styles that cells carry
}

func (r *stylesReader) token(t xml.Token) error {
	switch t := t.(type) {
	case xml.StartElement:
		switch t.Name.Local {
		case "cellXfs":
			r.inside = true
		case "numFmt":
			if id, err := strconv.Atoi(attr(t, "numFmtId")); err == nil {
				r.own[id] = formatOf(attr(t, "formatCode"))
			}
		case "xf":
			if r.inside {
				id, _ := strconv.Atoi(attr(t, "numFmtId"))
				r.w.styles = append(r.w.styles, r.format(id))
			}
		}
	case xml.EndElement:
		if t.Name.Local == "cellXfs" {
			return errEnough
		}
	}
	return nil
}

// format tells what a format shows: those of the file by their letters, the built-in ones by number (ECMA-376 part 1, 18.8.30).
func (r *stylesReader) format(id int) shown {
	if own, ok := r.own[id]; ok {
		return own
	}
	switch {
	case id == 18 || id == 20:
		return clockShort
	case id == 19 || id == 21, id >= 45 && id <= 47:
		return clockFull
	case id == 22:
		return dayAndTime
	case id >= 14 && id <= 17, id >= 27 && id <= 36, id >= 50 && id <= 58:
		return day
	}
	return plainNumber
}

func formatOf(code string) shown {
	letters := formatLetters(code)
	hasDay, hasTime := strings.ContainsAny(letters, "yd"), strings.ContainsAny(letters, "hs")
	switch {
	case letters == "general":
		return plainNumber
	case strings.Contains(strings.ToLower(code), "[m]"), strings.Contains(strings.ToLower(code), "[mm]"): // minutes, not months
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

// asClock writes a stored number of days out as what its format says it is.
func (w *workbook) asClock(c *Cell, style int) {
	days, err := strconv.ParseFloat(c.Text, 64)
	if err != nil || days < 0 || days > 1e6 || style < 0 || style >= len(w.styles) {
		return
	}
	switch kind := w.styles[style]; {
	case kind == plainNumber:
	case kind == clockFull, kind == clockShort, days < 1:
		c.Text, c.noS = clockText(days), kind == clockShort
	case kind == day && days == math.Floor(days):
		c.Text = w.dayOf(days).Format("2006-01-02")
	default:
		c.Text = w.dayOf(days).Format("2006-01-02 15:04:05.999")
	}
}

// dayOf is the moment that a number of days stands for, to the millisecond. Days are counted from the end of 1899, with a 29th of February 1900 that
// never was before day 61; or from the beginning of 1904, which old programs did (ECMA-376 part 1, 18.17.4.1).
func (w *workbook) dayOf(days float64) time.Time {
	zero := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
	switch {
	case w.from1904:
		zero = time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
	case days < 60:
		zero = zero.AddDate(0, 0, 1)
	}
	whole := math.Floor(days)
	ms := math.Round(float64((days - whole) * 86400e3))
	return zero.AddDate(0, 0, int(whole)).Add(time.Duration(ms) * time.Millisecond)
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
