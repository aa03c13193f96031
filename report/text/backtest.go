package text

import (
	"fmt"

	"pascaline/report/number"
	"pascaline/sim/result"
)

const mostPeriods = 14

// backtest is the screen of a prediction held against counts.
func (s *screen) backtest(r *result.Backtest) error {
	r, err := number.Shown(r)
	if err != nil {
		return err
	}
	s.answer(r.Answer, r.Warnings, r.Incomplete)
	s.says(faint, fmt.Sprintf("%s replications, seed %d", number.Count(int64(r.Replications)), r.Seed), 2)
	s.line(none, "")
	for _, says := range append(r.Says, r.Where) {
		s.says(none, says, 4)
	}
	s.line(none, "")
	s.line(bold, s.left(r.Per, 30)+s.right("counted", 10)+s.right("predicted", 11)+s.right("from", 9)+s.right("to", 9)+"  within")
	for i, p := range r.Periods {
		if i == mostPeriods-1 && len(r.Periods) > mostPeriods {
			s.line(faint, fmt.Sprintf("and %d more: see the page", len(r.Periods)-i))
			break
		}
		inside := "yes"
		if !p.Inside {
			inside = "no"
		}
		s.line(none, s.left(p.Period, 30)+s.right(number.Fixed(p.Counted, 0), 10)+s.right(number.Fixed(p.Mean, 0), 11)+
			s.right(number.Fixed(p.Low, 0), 9)+s.right(number.Fixed(p.High, 0), 9)+"  "+inside)
	}
	s.notes(r.Warnings)
	return nil
}
