package text

import (
	"fmt"

	"pascaline/report/number"
	"pascaline/sim/result"
)

const mostLots = 12

// lots prints when each lot is done, under a heading for the first column; startMin is when the run starts, in minutes of the plant week.
func (s *screen) lots(heading string, startMin int, each []result.Lot) {
	when := func(h *float64) string {
		if h == nil {
			return "not finished"
		}
		return number.Moment(startMin, *h)
	}
	row := func(look style, name, packs, half, most, due, late string) {
		s.line(look, s.left(name, 18)+s.right(packs, 9)+s.right(half, 17)+s.right(most, 17)+s.right(due, 12)+s.right(late, 7))
	}
	s.line(none, "")
	row(bold, heading, "packs", "half done by", "9 of 10 by", "due", "late")
	for i := range each {
		x := &each[i]
		if i == mostLots-1 && len(each) > mostLots {
			s.line(faint, fmt.Sprintf("and %d more lots: see the page", len(each)-i))
			return
		}
		due, late := "", ""
		if x.DueH != nil {
			due, late = when(x.DueH), number.Percent(*x.Late)
		}
		row(none, x.Lot, number.Count(x.Packs), when(x.Finish.P50H), when(x.Finish.P90H), due, late)
	}
}
