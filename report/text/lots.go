package text

import (
	"fmt"

	"pascaline/report/number"
	"pascaline/sim/result"
)

const mostLots = 12

// lots prints when each lot is done.
func (s *screen) lots(r *result.Run) {
	if r.Lots == nil {
		return
	}
	when := func(h *float64) string {
		if h == nil {
			return "not finished"
		}
		return number.Moment(r.Profile.StartMin, *h)
	}
	row := func(name, packs string, f result.Finish, due, late string) string {
		return s.left(name, 18) + s.right(packs, 9) + s.right(when(f.P50H), 17) + s.right(when(f.P90H), 17) + s.right(due, 12) + s.right(late, 7)
	}
	s.line(none, "")
	s.line(bold, s.left("lot", 18)+s.right("packs", 9)+s.right("half done by", 17)+s.right("9 of 10 by", 17)+s.right("due", 12)+s.right("late", 7))
	for i := range r.Lots.Each {
		x := &r.Lots.Each[i]
		if i == mostLots-1 && len(r.Lots.Each) > mostLots {
			s.line(faint, fmt.Sprintf("and %d more lots: see the page", len(r.Lots.Each)-i))
			break
		}
		due, late := "", ""
		if x.DueH != nil {
			due, late = when(x.DueH), number.Percent(*x.Late)
		}
		s.line(none, row(x.Lot, number.Count(x.Packs), x.Finish, due, late))
	}
}
