package units

import (
	"errors"
	"fmt"
	"strings"
	"time"
)

// When is a time of one run, written "Tue 14:00" (of the week in which the run starts), "week 2 Tue 14:00", "14:00" (of the day on which
// it starts), "2026-03-17 14:00" or "30 h" (after its start).
type When struct {
	week   int // 0 is the week of the start
	moment Moment
	after  Duration
	text   string // as it was written; empty: the start itself
	isTime bool   // a time after the start, not of the week
	date   time.Time
	monday Duration // from the Monday of the week in which the run starts to the date, once Resolve has told it
}

// Date is a day of the calendar, written "2026-03-16".
type Date struct{ day time.Time }

// Wants says what is read here.
func (*Date) Wants() string { return `a day, such as "2026-03-16"` }

// Parse reads year, month and day in this order.
func (d *Date) Parse(text string) error {
	t, err := time.Parse("2006-01-02", text)
	if err != nil {
		return errors.New("year-month-day, such as 2026-03-16")
	}
	d.day = t
	return nil
}

// String writes the day as it is read.
func (d Date) String() string { return d.day.Format("2006-01-02") }

// Monday is the Monday of the day's week.
func (d Date) Monday() time.Time { return d.day.AddDate(0, 0, -(int(d.day.Weekday())+6)%7) }

// Dated tells whether the time is of a day of the calendar, which only a plant week with a date can place.
func (w When) Dated() bool { return !w.date.IsZero() }

// Resolve places a day of the calendar in the weeks of a run, the first of which begins on that Monday.
func (w *When) Resolve(monday time.Time) { w.monday = Duration(w.date.Sub(monday).Microseconds()) }

// Wants says what is read here.
func (*When) Wants() string {
	return `a time of the week, such as "Tue 14:00" or "week 2 Tue 14:00", a day such as "2026-03-17 14:00", or a time from the start, such as "30 h"`
}

// Parse reads a moment of the week, of a later week or of the first day, or a length of time after the start.
func (w *When) Parse(text string) error {
	*w = When{text: text}
	for _, layout := range []string{"2006-01-02 15:04", "2006-01-02 15:04:05", "2006-01-02T15:04"} {
		if t, err := time.Parse(layout, text); err == nil {
			w.date = t
			return nil
		}
	}
	for _, layout := range []string{"2006-01-02", "2.1.2006"} {
		if t, err := time.Parse(layout, text); err == nil {
			return fmt.Errorf("at what time? A day may mean its beginning or its end; write %s 14:00, say", t.Format("2006-01-02"))
		}
	}
	rest := text
	if after, ok := strings.CutPrefix(text, "week "); ok {
		n, moment, _ := strings.Cut(after, " ")
		var c Count
		if err := c.Parse(n); err != nil || c < 1 || c > 52 {
			return fmt.Errorf("%q is no number of a week from 1 to 52; week 1 is the one in which the run starts", n)
		}
		w.week, rest = int(c)-1, moment
	} else if w.after.Parse(text) == nil {
		w.isTime = true
		return nil
	}
	if err := w.moment.Parse(rest); err != nil {
		return err
	}
	if w.week > 0 && w.moment.Daily {
		return errors.New("a week needs its day, such as week 2 Tue 14:00")
	}
	return nil
}

// String writes the time as it is read.
func (w When) String() string { return w.text }

// After is the time from the start of a run that starts at a moment of the plant week; below zero where it lies before.
func (w When) After(start Duration) Duration {
	switch {
	case w.isTime:
		return w.after
	case w.Dated():
		return w.monday - start%Week
	case w.text == "":
		return 0
	case w.moment.Daily:
		return start/Day*Day + w.moment.At - start
	}
	return start/Week*Week + Duration(w.week)*Week + w.moment.At - start
}
