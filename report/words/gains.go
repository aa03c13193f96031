package words

import (
	"fmt"
	"strings"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// gains says what limits the line by what a little more of it would bring, what that costs now, and what comes next.
func gains(g *result.Gains) string {
	best := g.Rows[0]
	if best.Low == nil {
		return "One replication tells no gain from chance."
	}
	if !best.Shown {
		return fmt.Sprintf("No single change brings a gain that is more than chance: the greatest would be %s (%s), interval %s.", gainOf(best, g.Unit), changed(best), gainInterval(best))
	}
	var near, next []result.Gain
	for _, x := range g.Rows[1:] {
		switch {
		case x.Shown && x.NotToldApart:
			near = append(near, x)
		case x.Shown:
			next = append(next, x)
		}
	}
	s := fmt.Sprintf("%s limits the line: %s, the line would finish %s more (%s)", upper(the(best.Candidate)), changed(best), gainOf(best, g.Unit), number.SignedPercent(best.Share))
	if strings.HasSuffix(best.Candidate, "s") && best.Kind != "station" && best.Kind != "roster" {
		s = strings.Replace(s, " limits the line", " limit the line", 1)
	}
	if len(near) > 0 {
		s += "; not told apart from " + gainNames(near, g.Unit)
	}
	switch {
	case len(next) > 0:
		s += fmt.Sprintf(". Next comes %s: %s, %s more", the(next[0].Candidate), changed(next[0]), gainOf(next[0], g.Unit))
	case len(near) == 0:
		s += ". Nothing else shows a gain by itself"
	}
	return s + "."
}

// changed is a change as the condition of a sentence.
func changed(x result.Gain) string {
	if x.Kind == "station" {
		return "were it " + x.Change
	}
	return "with " + x.Change
}

func gainOf(x result.Gain, unit string) string {
	return number.Size(result.Difference{Mean: x.Mean, Low: x.Low, High: x.High}) + " " + unit
}

func gainInterval(x result.Gain) string {
	return number.Interval(result.Difference{Mean: x.Mean, Low: x.Low, High: x.High})
}

func gainNames(list []result.Gain, unit string) string {
	var out []string
	for _, x := range list[:min(3, len(list))] {
		out = append(out, fmt.Sprintf("%s (%s: %s)", the(x.Candidate), x.Change, gainOf(x, unit)))
	}
	if len(list) > 3 {
		out = append(out, fmt.Sprintf("%d more", len(list)-3))
	}
	return strings.Join(out, ", ")
}

// gainMethods says how the gains were found.
func gainMethods(g *result.Gains) []string {
	return []string{
		fmt.Sprintf("The line was run again with one thing changed at a time: all servers of a station 10 %% faster (the hold, stops and changeovers stay as they are), one more person, carrier or place, a tenth more coming in, or a roster that takes a tenth less from the line (those that the line has). Each of the %d changes is set beside the same replications with the same random numbers, %d of each; the intervals hold together at 95 %% (Bonferroni: each at %s).",
			len(g.Rows), g.N, number.Percent(g.Level)),
		"Not told apart: the interval reaches into that of the greatest gain. A gain of one change alone says nothing of two together.",
	}
}

// alsoNear names what the greatest gain is not told apart from.
func alsoNear(g *result.Gains) string {
	var out []string
	for _, x := range g.Rows[1:] {
		if g.Rows[0].Shown && x.Shown && x.NotToldApart {
			out = append(out, the(x.Candidate))
		}
	}
	if len(out) == 0 {
		return ""
	}
	return ", not told apart from " + strings.Join(out, ", ")
}
