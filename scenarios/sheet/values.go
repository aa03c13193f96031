package sheet

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

var (
	pointNumber = regexp.MustCompile(`^[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][+-]?[0-9]+)?$`)
	commaNumber = regexp.MustCompile(`^[+-]?[0-9]+,[0-9]+$`)
	clockCell   = regexp.MustCompile(`^([0-9]+):([0-5][0-9])(?::([0-5][0-9](?:\.[0-9]+)?))?$`)
)

// Number reads a cell as a number. A decimal comma is taken only where it was declared; a workbook stores points whatever it shows.
func (t *Table) Number(c Cell) (float64, *Fault) {
	text := c.Text
	if commaNumber.MatchString(text) {
		if !t.DecimalComma {
			return 0, fault(c, "a number", fmt.Sprintf("with a decimal comma? Then say --decimal-comma; else write %s", strings.Replace(text, ",", ".", 1)))
		}
		text = strings.Replace(text, ",", ".", 1)
	} else if t.DecimalComma && t.Sheet == "" && strings.Count(text, ".") == 1 && len(text)-strings.IndexByte(text, '.') == 4 {
		return 0, fault(c, "a number with a decimal comma", "a point before three digits could mean thousands; write it without")
	}
	if !pointNumber.MatchString(text) {
		return 0, fault(c, "a number", "")
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(v, 0) {
		return 0, fault(c, "a number", "")
	}
	return v, nil
}

func fault(c Cell, want, hint string) *Fault {
	f := c.Fault(want, hint)
	return &f
}

// Units of time that a heading or a cell may name, in seconds.
var timeUnits = map[string]float64{
	"s": 1, "sec": 1, "secs": 1, "second": 1, "seconds": 1, "min": 60, "mins": 60, "minute": 60, "minutes": 60,
	"h": 3600, "hr": 3600, "hour": 3600, "hours": 3600, "ms": 0.001, "day": 86400, "days": 86400, "cmin": 0.6,
	"msec": 0.001, "millisecond": 0.001, "milliseconds": 0.001, "hrs": 3600,
}

// Ways of writing times with colons that a heading may name.
var (
	hoursMinutes   = []string{"h:mm", "hh:mm", "h:min", "[h]:mm"}
	minutesSeconds = []string{"m:ss", "mm:ss", "min:s", "[m]:ss", "[mm]:ss"}
	allThree       = []string{"h:mm:ss", "hh:mm:ss", "[h]:mm:ss"}
)

// IsTimeUnit tells whether a word names a unit of time, or a way of writing times with colons.
func IsTimeUnit(word string) bool {
	return timeUnits[strings.ToLower(word)] > 0 || isClock(strings.ToLower(word))
}

func isClock(unit string) bool {
	return slices.Contains(hoursMinutes, unit) || slices.Contains(minutesSeconds, unit) || slices.Contains(allThree, unit)
}

// TimeUnit is the unit of a column of times, from its heading: the one in brackets, or the heading itself where it is a unit ("seconds").
func (c Cell) TimeUnit() string {
	if u := strings.ToLower(c.Unit()); u != "" {
		return u
	}
	if IsTimeUnit(c.Name()) {
		return c.Name()
	}
	return ""
}

const longestTime = 366 * 86400 // s

// Seconds reads a cell as a length of time, from 0 to a year. unit is what the heading says. Written with colons, h:mm:ss is plain; with one colon
// only the unit "m:ss" or "h:mm" tells what is meant. A number may carry its own unit: "25 s"; under a heading that names a way of writing with
// colons it must.
func (t *Table) Seconds(c Cell, unit string) (float64, *Fault) {
	unit = strings.ToLower(unit)
	if m := clockCell.FindStringSubmatch(strings.Replace(c.Text, ",", ".", btoi(t.DecimalComma))); m != nil {
		return clockSeconds(c, m, unit)
	}
	if strings.Contains(c.Text, ":") {
		return 0, fault(c, "a time such as 0:02:05", "")
	}
	n := c
	if number, own, ok := strings.Cut(c.Text, " "); ok && timeUnits[strings.ToLower(own)] > 0 {
		n.Text, unit = number, strings.ToLower(own)
	}
	v, f := t.Number(n)
	if f != nil {
		return 0, fault(c, "a time", f.Hint)
	}
	scale := timeUnits[unit]
	switch {
	case isClock(unit):
		return 0, fault(c, "a time with colons, as the heading says", fmt.Sprintf(`%s of what? Write "%s s" or "%s min", or put the unit into the heading, such as "time (s)"`, n.Text, n.Text, n.Text))
	case scale == 0:
		return 0, fault(c, "a time with its unit", `put the unit into the heading, such as "time (s)"`)
	case v < 0:
		return 0, fault(c, "a time of 0 or more", "")
	case v*scale > longestTime:
		return 0, fault(c, "at most a year", "")
	}
	return float64(v * scale), nil
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// clockSeconds is a time with colons in seconds; m are its parts.
func clockSeconds(c Cell, m []string, unit string) (float64, *Fault) {
	a, _ := strconv.ParseFloat(m[1], 64)
	b, _ := strconv.ParseFloat(m[2], 64)
	s, inS := 0.0, slices.Contains(minutesSeconds, unit)
	switch {
	case m[3] != "":
		s, _ = strconv.ParseFloat(m[3], 64)
		if hint := mistaken(c, a, s, unit); hint != "" {
			return 0, fault(c, "a time as the heading says", hint)
		}
	case inS:
		a, b, s = 0, a, b
	case !slices.Contains(hoursMinutes, unit):
		return 0, fault(c, "h:mm:ss", `minutes and seconds, or hours and minutes? Say it in the heading: "time (m:ss)" or "time (h:mm)"`)
	}
	v := float64(a*3600) + float64(b*60) + s
	if v > longestTime {
		return 0, fault(c, "at most a year", "")
	}
	return v, nil
}

// mistaken says why a time with hours was probably meant as minutes and seconds: spreadsheets take 1:30 as hours and minutes and store 1:30:00,
// whatever the heading says, so that it would come out 60 times too long. "" where nothing speaks for it.
func mistaken(c Cell, hours, seconds float64, unit string) string {
	inS, inH := slices.Contains(minutesSeconds, unit), slices.Contains(hoursMinutes, unit)
	typed := c.noS && seconds == 0
	switch {
	case inS && (hours >= 1 || typed):
		return `a spreadsheet takes 1:30 as hours and minutes; type minutes and seconds as 0:01:30, or write seconds under "time (s)"; ` +
			`if hours are meant, head the column "time (h:mm:ss)"`
	case typed && !inH:
		return `a spreadsheet takes 1:30 as hours and minutes; head the column "time (h:mm)" if these are meant, else type minutes and seconds as 0:01:30`
	}
	return ""
}

// The ways in which a moment may be written. Day before month only with points, as nobody writes it otherwise round.
var momentLayouts = []string{
	"2006-01-02 15:04:05", "2006-01-02 15:04", "2006-01-02T15:04:05", "2006-01-02T15:04", "2006-01-02",
	"2.1.2006 15:04:05", "2.1.2006 15:04", "2.1.2006",
}

// Moment reads a cell as a day and a time of day, in plant time without a zone. A date with strokes is refused: 3/4 is
// April in one country and March in another.
func (t *Table) Moment(c Cell) (time.Time, *Fault) {
	for _, layout := range momentLayouts {
		if at, err := time.Parse(layout, c.Text); err == nil {
			return at, nil
		}
	}
	hint := ""
	if strings.Contains(c.Text, "/") {
		hint = "a date with strokes is read in two ways; write 2026-03-02"
	}
	return time.Time{}, fault(c, "a date and time such as 2026-03-02 14:05", hint)
}
