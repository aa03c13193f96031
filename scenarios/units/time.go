package units

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strings"
)

// Lengths of time in microseconds.
const (
	Microsecond Duration = 1
	Millisecond          = 1000 * Microsecond
	Second               = 1000 * Millisecond
	Minute               = 60 * Second
	Hour                 = 60 * Minute
	Day                  = 24 * Hour
	Week                 = 7 * Day
	longest              = 366 * Day
)

var durationUnits = []unit{
	{"s", float64(Second)}, {"min", float64(Minute)}, {"h", float64(Hour)}, {"ms", float64(Millisecond)},
	{"days", float64(Day)}, {"day", float64(Day)}, {"weeks", float64(Week)}, {"week", float64(Week)},
}

// Wants says what is read here.
func (*Duration) Wants() string { return `a time with its unit, such as "25 s", "3 min" or "1.5 h"` }

// Parse reads a length of time, to the nearest microsecond and at most a year.
func (d *Duration) Parse(text string) error {
	us, err := scaled(text, durationUnits)
	switch {
	case err != nil:
		return err
	case us > float64(longest):
		return errors.New("longer than a year")
	case us > 0 && us < 1:
		return errors.New("shorter than a microsecond")
	}
	*d = Duration(math.Round(us))
	return nil
}

// Seconds is the length in seconds.
func (d Duration) Seconds() float64 { return float64(d) / float64(Second) }

// String writes the length in hours or minutes where it is a whole number of them, else in seconds.
func (d Duration) String() string {
	switch {
	case d != 0 && d%Hour == 0:
		return fmt.Sprintf("%d h", d/Hour)
	case d != 0 && d%Minute == 0:
		return fmt.Sprintf("%d min", d/Minute)
	}
	return plain(d.Seconds()) + " s"
}

var (
	clockWords = regexp.MustCompile(`^([0-2][0-9]):([0-5][0-9])$`)
	dayNames   = []string{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"}
)

// timeOfDay reads HH:MM up to 24:00.
func timeOfDay(text string) (Duration, error) {
	m := clockWords.FindStringSubmatch(text)
	if m == nil {
		if clockTime.MatchString(text) && len(text) == 4 {
			return 0, fmt.Errorf("two digits for the hour; write 0%s", text)
		}
		return 0, fmt.Errorf("%q is not a time of day from 00:00 to 24:00", text)
	}
	var h, min Duration
	fmt.Sscanf(m[1], "%d", &h)
	fmt.Sscanf(m[2], "%d", &min)
	at := h*Hour + min*Minute
	if at > Day {
		return 0, fmt.Errorf("%q is not a time of day from 00:00 to 24:00", text)
	}
	return at, nil
}

// Wants says what is read here.
func (*Moment) Wants() string {
	return `a time of day, such as "06:00", or of the week, such as "Mon 06:00"`
}

// Parse reads a time of day with or without a day of the week.
func (m *Moment) Parse(text string) error {
	day, clock, ok := strings.Cut(text, " ")
	n := 0
	if ok {
		var err error
		if n, err = dayOfWeek(day); err != nil {
			return err
		}
	} else {
		clock = text
	}
	at, err := timeOfDay(clock)
	if err != nil {
		return err
	}
	if at == Day {
		return errors.New("24:00 is 00:00 of the next day")
	}
	*m = Moment{At: Duration(n)*Day + at, Daily: !ok}
	return nil
}

// String writes the moment as it is read.
func (m Moment) String() string {
	if m.Daily {
		return clock(m.At)
	}
	return dayNames[m.At/Day%7] + " " + clock(m.At%Day)
}

func clock(d Duration) string { return fmt.Sprintf("%02d:%02d", d/Hour, d%Hour/Minute) }

func dayOfWeek(word string) (int, error) {
	for i, n := range dayNames {
		if n == word {
			return i, nil
		}
	}
	for _, n := range dayNames {
		if len(word) >= 2 && strings.HasPrefix(strings.ToLower(word), strings.ToLower(n[:2])) {
			return 0, fmt.Errorf("%q is not a day of the week; write %s", word, n)
		}
	}
	return 0, fmt.Errorf("%q is not a day of the week", word)
}

// Wants says what is read here.
func (*Hours) Wants() string { return `hours of the day, such as "06:00 to 14:00"` }

// Parse reads from and to; a stretch that ends before it begins runs over midnight.
func (h *Hours) Parse(text string) error {
	a, b, ok := strings.Cut(text, " to ")
	if !ok {
		return errors.New(`"from" and "to" are parted by the word to`)
	}
	from, err := timeOfDay(a)
	if err != nil {
		return err
	}
	to, err := timeOfDay(b)
	switch {
	case err != nil:
		return err
	case from == Day:
		return errors.New("24:00 is 00:00 of the next day")
	case from == to:
		return errors.New("an empty stretch; the whole day is 00:00 to 24:00")
	case to < from:
		to += Day
	}
	*h = Hours{from, to}
	return nil
}

// String writes the hours as they are read.
func (h Hours) String() string {
	to := h.To
	if to > Day {
		to -= Day
	}
	return clock(h.From) + " to " + clock(to)
}

// Wants says what is read here.
func (*Days) Wants() string { return `days, such as "Mon to Fri", "Mon, Wed, Fri" or "every day"` }

// Parse reads days of the week.
func (d *Days) Parse(text string) error {
	*d = Days{}
	if text == "every day" {
		*d = Days{true, true, true, true, true, true, true}
		return nil
	}
	for _, part := range strings.Split(text, ",") {
		a, b, ok := strings.Cut(strings.TrimSpace(part), " to ")
		if !ok {
			b = a
		}
		from, err := dayOfWeek(a)
		if err != nil {
			return err
		}
		to, err := dayOfWeek(b)
		if err != nil {
			return err
		}
		for i := from; ; i = (i + 1) % 7 {
			if d[i] {
				return fmt.Errorf("%s is named twice", dayNames[i])
			}
			d[i] = true
			if i == to {
				break
			}
		}
	}
	return nil
}

// Wants says what is read here.
func (*Span) Wants() string {
	return `an interval with its clock, such as "500 h running", "60 h on shift", "90 days calendar time", "3000 cycles" or "20000 packs"`
}

var spanCounts = map[string]Clock{"cycles": Cycles, "cycle": Cycles, "loads": Cycles, "load": Cycles, "tasks": Cycles, "packs": Packs, "pack": Packs}

// Parse reads a time with the clock it is counted by, a number of cycles or packs, or "new" (0 of any clock). Where a time
// stands without a clock, Clock is empty: whoever asked decides whether another value of the same field names it.
func (s *Span) Parse(text string) error {
	if text == "new" {
		*s = Span{}
		return nil
	}
	n, rest := splitUnit(text)
	if c, ok := spanCounts[rest]; ok {
		v, err := number(n)
		if err == nil && v != math.Trunc(v) {
			err = errors.New("a whole number is wanted of things that are counted")
		}
		if err != nil {
			return err
		}
		*s = Span{v, c}
		return nil
	}
	word, clock := rest, Clock("")
	for _, c := range []Clock{Running, OnShift, Calendar} {
		if before, ok := strings.CutSuffix(rest, " "+string(c)); ok {
			word, clock = before, c
		}
	}
	var d Duration
	if err := d.Parse(strings.TrimSpace(n + " " + word)); err != nil {
		return spanHint(err, word)
	}
	*s = Span{d.Seconds(), clock}
	return nil
}

// spanHint explains a clock that is nearly right: "500 h run".
func spanHint(err error, word string) error {
	if unit, clock, ok := strings.Cut(word, " "); ok && clock != "" {
		for _, u := range durationUnits {
			if u.name == unit {
				return fmt.Errorf("unknown clock %q: running, on shift or calendar time", clock)
			}
		}
	}
	return err
}
