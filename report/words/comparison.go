package words

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// FillComparison writes the sentences of a comparison into it, once, before it is saved. Runs are those of its scenarios, in their order.
func FillComparison(c *result.Comparison, runs []*result.Run) {
	c.Cautions = Cautions()
	for i, r := range runs {
		r.Replications = c.Replications
		if limit, _, ok := Limit(r); ok {
			c.Scenarios[i].Holds = limit
		}
	}
	if len(runs) > 0 {
		c.Replications.Length = length(runs[0])
	}
	for i := range c.Measures {
		c.Measures[i].Says = strings.ReplaceAll(c.Measures[i].Says, "rostered hour", hourOf(c))
	}
	c.Method = pairedMethods(c)
	c.Answer = compared(c)
}

// hourOf is what the rates of a comparison are counted by. Where every hour of every scenario is rostered, as without a roster, that is any hour.
func hourOf(c *result.Comparison) string {
	return HourOf(slices.ContainsFunc(c.Scenarios, func(s result.Compared) bool { return s.LengthH == 0 || s.RosteredH != s.LengthH }))
}

// pairedMethods says how the differences were found and how sure they are.
func pairedMethods(c *result.Comparison) []string {
	m := []string{
		"Every replication was run for each scenario with the same random numbers: the same carrier has the same hand time, the same stop falls due alike. So a difference is a difference of the scenarios, not of luck. What counts is the spread of the differences, not of the scenarios.",
		"No difference shown means that 0 lies inside the interval: there may be one, smaller than this study can see.",
	}
	if n := len(c.Scenarios) - 1; n > 1 {
		m = append(m, fmt.Sprintf("The %d intervals of the headline (%s) hold together at 95 %% (Bonferroni: each at %s). Those of all other measures are single ones at 95 %%: of twenty such, one may miss.", n, c.Measures[0].Name, number.Percent(headline(c)[0].Level)))
	} else {
		m = append(m, fmt.Sprintf("The interval of the headline (%s) holds at 95 %%. Those of the other measures are single ones at 95 %% too, and do not hold together.", c.Measures[0].Name))
	}
	return append(m, "Variance saved by pairing: the share by which the variance of the difference is smaller than with separate random numbers. Below 0 pairing cost precision.")
}

// headline is the differences in the first measure.
func headline(c *result.Comparison) []result.Difference {
	var out []result.Difference
	for _, d := range c.Differences {
		if len(c.Measures) > 0 && d.Measure == c.Measures[0].Name {
			out = append(out, d)
		}
	}
	return out
}

// compared is the first sentence of a comparison.
func compared(c *result.Comparison) string {
	base, heads := number.Plain(c.Scenarios[0].Name), headline(c)
	what := "packs"
	if len(c.Measures) > 0 {
		what, _, _ = strings.Cut(c.Measures[0].Name, "/")
	}
	switch {
	case len(heads) == 0:
		return "There is nothing to compare: no replication has the same measure in both."
	case len(heads) == 1:
		return one(base, what+" per "+hourOf(c), heads[0])
	}
	return several(base, what+" per "+hourOf(c), heads)
}

func moreOrLess(d result.Difference) string {
	if d.Mean < 0 {
		return "less"
	}
	return "more"
}

func exactlyNothing(d result.Difference) bool {
	return d.Mean == 0 && d.Above == 0 && d.Below == 0
}

func one(base, what string, d result.Difference) string {
	name := number.Plain(d.Scenario)
	switch {
	case exactlyNothing(d):
		return fmt.Sprintf("%s finishes exactly as much as %s, in every replication: the difference is 0.", name, base)
	case d.Low == nil:
		return fmt.Sprintf("%s finished %s %s %s than %s in one replication; whether that is more than chance is not known.", name, number.Size(d), what, moreOrLess(d), base)
	case !d.Shown:
		return fmt.Sprintf("No difference shown between %s and %s: %s, interval %s.", name, base, number.Difference(d), number.Interval(d))
	}
	s := fmt.Sprintf("%s finishes %s %s %s than %s", name, number.Size(d), what, moreOrLess(d), base)
	if d.Share != 0 {
		s += " (" + number.SignedPercent(d.Share) + ")"
	}
	return s + "."
}

// several ranks what is shown to be more; ranks among the others are told only where their intervals, which hold together, do not overlap.
func several(base, what string, heads []result.Difference) string {
	var more, less, not []result.Difference
	for _, d := range heads {
		switch {
		case d.Low == nil:
			return fmt.Sprintf("One replication of %d scenarios beside %s: how they differ is not known beyond chance.", len(heads), base)
		case d.Low != nil && !d.Shown:
			not = append(not, d)
		case d.Mean > 0:
			more = append(more, d)
		default:
			less = append(less, d)
		}
	}
	slices.SortStableFunc(more, func(a, b result.Difference) int { return cmp.Compare(b.Mean, a.Mean) })
	var parts []string
	if len(more) > 0 {
		best := more[0]
		s := fmt.Sprintf("%s finishes most: %s %s more than %s (%s)", number.Plain(best.Scenario), number.Size(best), what, base, number.SignedPercent(best.Share))
		if near := overlapping(best, more[1:]); len(near) > 0 {
			s += ", not told apart from " + names(near)
		}
		parts = append(parts, s)
		if rest := more[1+len(overlapping(best, more[1:])):]; len(rest) > 0 {
			parts = append(parts, "also more: "+names(rest))
		}
	}
	if len(less) > 0 {
		parts = append(parts, "less than "+base+": "+names(less))
	}
	if len(not) > 0 {
		parts = append(parts, "no difference shown for "+names(not))
	}
	return upper(strings.Join(parts, "; ")) + "."
}

// overlapping are those of a list, sorted by mean, that reach into the interval of best, without a gap from the first on.
func overlapping(best result.Difference, rest []result.Difference) []result.Difference {
	n := 0
	for n < len(rest) && *rest[n].High >= *best.Low {
		n++
	}
	return rest[:n]
}

func names(list []result.Difference) string {
	var out []string
	for _, d := range list {
		out = append(out, number.Plain(d.Scenario))
	}
	if len(out) > 4 {
		return strings.Join(out[:3], ", ") + fmt.Sprintf(" and %d more", len(out)-3)
	}
	if len(out) < 2 {
		return strings.Join(out, "")
	}
	return strings.Join(out[:len(out)-1], ", ") + " and " + out[len(out)-1]
}
