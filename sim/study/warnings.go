package study

import (
	"fmt"
	"math"

	"pascaline/sim/result"
)

// warnings are the doubts that travel with the numbers. Bound is the rate that the hand check allows, 0 where it has none: a rate above it by
// more than two half widths (some 4 standard errors) is told.
func (t *total) warnings(bound float64, stopped string) []result.Warning {
	list := []result.Warning{}
	add := func(code, format string, a ...any) {
		list = append(list, result.Warning{Code: code, Text: fmt.Sprintf(format, a...)})
	}
	switch {
	case t.n == 1:
		add("one replication", "There is one replication only, so there is no interval: nobody knows how far another day would differ.")
	case stopped == "cap":
		add("cap reached", "The cap of %d replications was reached before the precision asked for; the interval is wider than wanted.", Most)
	case stopped == "interrupted":
		add("interrupted", "The study was interrupted after %d replications; they are all counted, but more were wanted.", t.n)
	}
	if h, ok := t.rate.Half(); ok && bound > 0 && t.rate.Mean()-2*h > bound {
		add("above the hand check", "The simulated rate is above what the mean times allow (%.0f packs/h). Work outside rostered hours can explain it; else please report this file.", bound)
	}
	if t.n > 1 && t.n < 400 {
		add("few for chances", "P10 and P90 come from %d replications. A chance near 10 %% is known to about 3 points only with 400.", t.n)
	}
	never := 0
	for _, x := range t.ends {
		if math.IsInf(x, 1) {
			never++
		}
	}
	if never > 0 {
		add("lots unfinished", "In %d of %d replications not all of the %d lots were finished when the time allowed was over; they count as later than any other.", never, t.n, len(t.lots))
	}
	for i, w := range t.doubts {
		if t.n == 1 {
			add(w.Code, "%s.", w.Text)
		} else {
			add(w.Code, "In %d of %d replications (in the first of them: %s).", t.doubted[i], t.n, w.Text)
		}
	}
	for _, w := range t.m.Scenario().Warnings() {
		add(w.Code, "%s", w.Text)
	}
	return list
}
