package sheet

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"
)

var (
	pointNumber = regexp.MustCompile(`^[+-]?[0-9]+(\.[0-9]+)?([eE][+-]?[0-9]+)?$`)
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
	"h:mm:ss": 1, "hh:mm:ss": 1, "m:ss": 1, "mm:ss": 1, "min:s": 1, "h:mm": 60, "hh:mm": 60, "h:min": 60,
}

// IsTimeUnit tells whether a word names a unit of time.
func IsTimeUnit(word string) bool { return timeUnits[strings.ToLower(word)] > 0 }

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

// Seconds reads a cell as a length of time. unit is what the heading says. Written with colons, h:mm:ss is plain; with one colon only
// the unit "m:ss" or "h:mm" tells what is meant. A number may carry its own unit: "25 s".
func (t *Table) Seconds(c Cell, unit string) (float64, *Fault) {
	if m := clockCell.FindStringSubmatch(strings.Replace(c.Text, ",", ".", btoi(t.DecimalComma))); m != nil {
		return clockSeconds(c, m, strings.ToLower(unit))
	}
	if strings.Contains(c.Text, ":") {
		return 0, fault(c, "a time such as 0:02:05", "")
	}
	n := c
	if number, own, ok := strings.Cut(c.Text, " "); ok && IsTimeUnit(own) {
		n.Text, unit = number, own
	}
	v, f := t.Number(n)
	if f != nil {
		return 0, fault(c, "a time", f.Hint)
	}
	scale := timeUnits[strings.ToLower(unit)]
	switch {
	case scale == 0:
		return 0, fault(c, "a time with its unit", `put the unit into the heading, such as "time (s)"`)
	case v < 0:
		return 0, fault(c, "a time of 0 or more", "")
	case v*scale > 366*86400:
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

func clockSeconds(c Cell, m []string, unit string) (float64, *Fault) {
	a, _ := strconv.ParseFloat(m[1], 64)
	b, _ := strconv.ParseFloat(m[2], 64)
	switch {
	case m[3] != "":
		s, _ := strconv.ParseFloat(m[3], 64)
		return float64(a*3600) + float64(b*60) + s, nil
	case unit == "m:ss" || unit == "mm:ss" || unit == "min:s":
		return float64(a*60) + b, nil
	case unit == "h:mm" || unit == "hh:mm" || unit == "h:min":
		return float64(a*3600) + float64(b*60), nil
	}
	return 0, fault(c, "h:mm:ss", `minutes and seconds, or hours and minutes? Say it in the heading: "time (m:ss)" or "time (h:mm)"`)
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
