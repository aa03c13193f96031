package study

import (
	"fmt"
	"math"

	"pascaline/sim/result"
)

// warnings are the doubts that travel with the numbers. Bound is the rate that the hand check allows, 0 where it has none: a rate above it by
// more than two half widths (some 4 standard errors) is told.
func (t *total) warnings(bound float64, stopped string) []result.Warning {
	list := endWarnings(t.n, stopped)
	if h, ok := t.rate.Half(); ok && bound > 0 && t.rate.Mean()-2*h > bound {
		list = warn(list, "above the hand check", "The simulated rate is above what the mean times allow (%.0f packs/h). Work outside rostered hours can explain it; else please report this file.", bound)
	}
	if t.n > 1 && t.n < 400 {
		list = warn(list, "few for chances", "P10 and P90 come from %d replications. A chance near 10 %% is known to about 3 points only with 400.", t.n)
	}
	return append(list, t.lineWarnings()...)
}

func warn(list []result.Warning, code, format string, a ...any) []result.Warning {
	return append(list, result.Warning{Code: code, Text: fmt.Sprintf(format, a...)})
}

// endWarnings are the doubts about a study of n replications that follow from how it ended.
func endWarnings(n int, stopped string) []result.Warning {
	list := []result.Warning{}
	switch {
	case n == 1:
		list = warn(list, "one replication", "There is one replication only, so there is no interval: nobody knows how far another day would differ.")
	case stopped == "cap":
		list = warn(list, "cap reached", "The cap of %d replications was reached before the precision asked for; the interval is wider than wanted.", Most)
	case stopped == "interrupted":
		list = warn(list, "interrupted", "The study was interrupted after %d replications; they are all counted, but more were wanted.", n)
	}
	return list
}

// bindingCarriers is the share of loading's time without an empty carrier from which on it is told.
const bindingCarriers = 0.01

// lineWarnings are the doubts about the line and its scenario: what went amiss in replications, values outside their source.
func (t *total) lineWarnings() []result.Warning {
	var list []result.Warning
	never := 0
	for _, x := range t.ends {
		if math.IsInf(x, 1) {
			never++
		}
	}
	if never > 0 {
		list = warn(list, "lots unfinished", "In %d of %d replications not all of the %d lots were finished when the time allowed was over; they count as later than any other.", never, t.n, len(t.lots))
	}
	for i, w := range t.doubts {
		if t.n == 1 {
			list = warn(list, w.Code, "%s.", w.Text)
		} else {
			list = warn(list, w.Code, "In %d of %d replications (in the first of them: %s).", t.doubted[i], t.n, w.Text)
		}
	}
	if c := t.m.Scenario().Carriers; c != nil && c.Owned > 0 {
		if x := t.shortOfCarriers(); x > bindingCarriers {
			list = warn(list, "carriers binding", "Loading waited for an empty carrier in %.1f %% of its time: the %d carriers are a limit that no station shows.", 100*x, c.Owned)
		}
	}
	for _, w := range t.m.Scenario().Warnings() {
		list = warn(list, w.Code, "%s", w.Text)
	}
	return list
}

// warnings of a comparison: about how it ended, about pairing, about files that are not alike, and about each line; what holds for
// all of them is said once.
func (c *comparison) warnings(r *result.Comparison, alike []result.Warning) []result.Warning {
	list := endWarnings(c.n, r.Replications.StoppedBy)
	for _, d := range r.Differences {
		if d.VarianceSaved != nil && d.Correlation != nil && *d.Correlation < 0 && *d.VarianceSaved < -0.01 {
			list = warn(list, "pairing cost precision", "%s: pairing cost precision in %s (correlation %.2f): the interval is wider than that of as many separate replications.", d.Scenario, d.Measure, *d.Correlation)
		}
	}
	list = append(list, alike...)
	all := make([][]result.Warning, len(c.totals))
	for i, t := range c.totals {
		all[i] = t.lineWarnings()
	}
	for i, own := range all {
		for _, w := range own {
			if inAll(all, w) {
				list = addOnce(list, w)
			} else {
				list = warn(list, w.Code, "%s: %s", c.list[i].Name, w.Text)
			}
		}
	}
	return list
}

func inAll(all [][]result.Warning, w result.Warning) bool {
	for _, own := range all {
		if len(addOnce(own, w)) > len(own) {
			return false
		}
	}
	return true
}
