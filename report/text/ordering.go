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
	s.lots("as suggested", r.StartMin, r.Suggested.Lots)
	s.notes(r.Warnings)
	return nil
}
