package text

import (
	"fmt"

	"pascaline/report/number"
	"pascaline/sim/result"
)

const (
	mostOthers = 8 // scenarios in full
	mostFields = 6 // values that differ
)

// comparison is the screen of a comparison.
func (s *screen) comparison(c *result.Comparison) error {
	c, err := number.Shown(c)
	if err != nil {
		return err
	}
	s.answer(c.Answer, c.Warnings, c.Replications.Incomplete)
	base := c.Scenarios[0]
	s.line(none, "")
	for _, v := range base.Values[:min(1, len(base.Values))] {
		s.line(none, base.Name+": "+number.PlusMinus(v.Estimate, c.Measures[0].Unit))
	}
	times := number.Count(int64(c.Replications.N)) + " replications"
	if c.Replications.N == 1 {
		times = "1 replication"
	}
	s.says(faint, fmt.Sprintf("%s of %s, same random numbers in each, seed %d", times, c.Replications.Length, c.Seed), 2)
	s.differences(c)
	s.differing(c)
	s.notes(c.Warnings)
	return nil
}

// differences prints a line for each measure of each scenario; the last column says where none is shown.
func (s *screen) differences(c *result.Comparison) {
	last, printed := "", 0
	s.line(none, "")
	s.line(faint, s.left("", 31)+s.right("difference", 19)+s.right("of base", 9)+"  variance saved")
	for _, d := range c.Differences {
		if d.Scenario != last {
			if printed == mostOthers {
				s.line(faint, fmt.Sprintf("and %d more: see the page", len(c.Scenarios)-1-printed))
				return
			}
			last = d.Scenario
			printed++
			if printed > 1 {
				s.line(none, "")
			}
			s.line(bold, d.Scenario)
		}
		remark := ""
		switch {
		case d.Above+d.Below == 0:
			remark = "exactly the same"
		case d.Low != nil && !d.Shown:
			remark = "no difference shown"
		case d.VarianceSaved != nil && d.Low != nil && d.Correlation != nil:
			remark = number.Percent(*d.VarianceSaved)
			if *d.VarianceSaved < 0 {
				remark = "none: pairing cost"
			}
		}
		name := d.Measure
		if d.Unit == d.Measure {
			d.Unit = ""
		}
		s.line(none, "  "+s.left(name, 29)+s.right(number.Difference(d), 19)+s.right(number.SignedPercent(d.Share), 9)+"  "+remark)
	}
}

// differing prints the values that are not the same.
func (s *screen) differing(c *result.Comparison) {
	if len(c.Differing) == 0 {
		return
	}
	s.line(none, "")
	s.line(bold, "values that differ")
	for i, x := range c.Differing {
		if i == mostFields-1 && len(c.Differing) > mostFields {
			s.line(faint, fmt.Sprintf("  and %d more: see the page", len(c.Differing)-i))
			return
		}
		words := ""
		for k, v := range x.Values {
			if k > 0 {
				words += " | "
			}
			words += v
		}
		s.line(none, "  "+s.left(x.Where, 38)+" "+words)
	}
}
