package text

import (
	"fmt"

	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

// ordering is the screen of a better order of lots.
func (s *screen) ordering(r *result.Ordering) error {
	r, err := number.Shown(r)
	if err != nil {
		return err
	}
	s.answer(r.Answer, r.Warnings, r.Incomplete)
	s.line(none, "")
	s.line(none, fmt.Sprintf("%s, as listed:    %s", words.Goal(r), number.PlusMinus(r.Listed.Value, "h")))
	s.line(none, fmt.Sprintf("%s, as suggested: %s", words.Goal(r), number.PlusMinus(r.Suggested.Value, "h")))
	s.line(faint, fmt.Sprintf("%d orders tried; found by: %s", r.Tried, r.Rule))
	at := func(h *float64) string {
		if h == nil {
			return "not finished"
		}
		return number.Moment(r.StartMin, *h)
	}
	s.line(none, "")
	s.line(bold, s.left("as suggested", 18)+s.right("packs", 9)+s.right("half done by", 17)+s.right("9 of 10 by", 17)+s.right("due", 12)+s.right("late", 7))
	for i := range r.Suggested.Lots {
		x := &r.Suggested.Lots[i]
		if i == mostLots-1 && len(r.Suggested.Lots) > mostLots {
			s.line(faint, fmt.Sprintf("and %d more lots: see the page", len(r.Suggested.Lots)-i))
			break
		}
		due, late := "", ""
		if x.DueH != nil {
			due, late = at(x.DueH), number.Percent(*x.Late)
		}
		s.line(none, s.left(x.Lot, 18)+s.right(number.Count(x.Packs), 9)+s.right(at(x.Finish.P50H), 17)+s.right(at(x.Finish.P90H), 17)+s.right(due, 12)+s.right(late, 7))
	}
	s.notes(r.Warnings)
	return nil
}
