package page

import (
	"pascaline/report/number"
	"pascaline/sim/result"
)

// gainSection shows what the line would gain if one thing at a time were a little better.
func gainSection(r *result.Run) (*section, error) {
	g := r.Gains
	if g == nil || len(g.Rows) == 0 {
		return nil, nil
	}
	s := &section{ID: "gains", Title: "What limits: the gain from a little more", Says: []string{g.Sentence}, After: g.Method}
	t := table{Caption: "Gain in " + g.Unit + " from one change at a time, the greatest first; the intervals hold together",
		Head: columns("Candidate", "=change", "gain", "interval", "of the rate", "=shown?")}
	var list []result.Difference
	for _, x := range g.Rows {
		d := result.Difference{Scenario: x.Candidate, Unit: g.Unit, Mean: x.Mean, Low: x.Low, High: x.High, Above: 1}
		if x.Low != nil {
			list = append(list, d)
		}
		t.Rows = append(t.Rows, []string{x.Candidate, x.Change, number.Difference(d), number.Interval(d), number.SignedPercent(x.Share), gainShown(x)})
	}
	if len(list) > 0 {
		c, err := intervals("gains", "Gain in "+g.Unit+" from one change at a time", list)
		if err != nil {
			return nil, err
		}
		s.Charts = []chart{c}
	}
	s.Tables = []table{t}
	return s, nil
}

func gainShown(x result.Gain) string {
	switch {
	case x.Low == nil:
		return "not known"
	case !x.Shown && x.Mean == 0 && *x.Low == *x.High:
		return "exactly 0"
	case !x.Shown:
		return "no gain shown"
	case x.NotToldApart:
		return "yes, not told apart from the greatest"
	}
	return "yes"
}
