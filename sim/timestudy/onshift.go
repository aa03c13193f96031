package timestudy

import (
	"time"

	"pascaline/scenarios"
)

// onShift is the time between two moments in which a roster has somebody there; all of it without a roster. Breaks count: a rostered
// hour is an hour with everything in it.
func onShift(r *scenarios.Roster, from, to time.Time) time.Duration {
	if r == nil {
		return to.Sub(from)
	}
	var total time.Duration
	first := time.Date(from.Year(), from.Month(), from.Day(), 0, 0, 0, 0, time.UTC).AddDate(0, 0, -1)
	for day := first; day.Before(to); day = day.AddDate(0, 0, 1) {
		if !r.Days[(int(day.Weekday())+6)%7] {
			continue
		}
		for _, s := range r.Shifts { // in any order: no two are at the same time
			a := later(day.Add(time.Duration(s.Hours.From)*time.Microsecond), from)
			b := day.Add(time.Duration(s.Hours.To) * time.Microsecond)
			if b.After(to) {
				b = to
			}
			if b.After(a) {
				total += b.Sub(a)
			}
		}
	}
	return total
}
