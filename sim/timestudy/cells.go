package timestudy

import (
	"fmt"

	"pascaline/scenarios/sheet"
)

// What a cell may hold: beyond it no time of a plant lies, and sums and squares of it would be no numbers any more.
const (
	leastTime = 1e-6        // seconds: what a scenario takes
	longest   = 366 * 86400 // seconds
	mostCount = 1e9         // packs, cycles, running hours

	leastRating, mostRating = 0.2, 2
)

// numberIn reads a cell as a number from least to most.
func numberIn(t *sheet.Table, c sheet.Cell, least, most float64) (float64, *sheet.Fault) {
	v, f := t.Number(c)
	if f == nil && (v < least || v > most) {
		f = faultOf(c, fmt.Sprintf("a number from %s to %s", plain(least), plain(most)))
	}
	return v, f
}

// lasting reads a cell as a length of time of at least so many seconds, and at most a year.
func lasting(t *sheet.Table, c sheet.Cell, unit string, least float64) (float64, *sheet.Fault) {
	s, f := t.Seconds(c, unit)
	switch {
	case f != nil:
	case s > longest:
		f = faultOf(c, "at most a year")
	case s < least && s > 0:
		f = faultOf(c, "a microsecond or more")
	}
	return s, f
}

// plain writes a number without an exponent.
func plain(v float64) string { return fmt.Sprintf("%.0f", v) }
