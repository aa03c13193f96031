package text

import (
	"fmt"

	"pascaline/report/number"
	"pascaline/sim/result"
)

const mostTasks = 14

// timeFit is the screen of a stopwatch sheet.
func (s *screen) timeFit(r *result.TimeFit) error {
	r, err := number.Shown(r)
	if err != nil {
		return err
	}
	s.answer(r.Answer, r.Warnings, false)
	s.line(faint, r.Rule)
	s.line(none, "")
	s.line(bold, s.left("task", 22)+s.right("n", 5)+s.right("mean, s", 10)+s.right("±", 9)+s.right("sd", 9)+s.right("more", 7)+"  distribution")
	for i, t := range r.Tasks {
		if i == mostTasks-1 && len(r.Tasks) > mostTasks {
			s.line(faint, fmt.Sprintf("and %d more tasks: see the page", len(r.Tasks)-i))
			break
		}
		half, more := "-", "-"
		if t.HalfS != nil {
			half = number.Figure(*t.HalfS, 2)
		}
		if t.Needed > t.N {
			more = number.Count(int64(t.Needed - t.N))
		}
		s.line(none, s.left(t.Name, 22)+s.right(number.Count(int64(t.N)), 5)+s.right(number.Figure(t.MeanS, 4), 10)+s.right(half, 9)+
			s.right(number.Figure(t.SDS, 3), 9)+s.right(more, 7)+"  "+t.Best)
	}
	s.line(faint, fmt.Sprintf("more: readings still needed for ± %s of the mean", number.Percent(r.HalfShare)))
	s.doubts(r)
	if r.Pace != nil {
		s.line(none, "")
		s.says(none, r.Pace.Sentence, 3)
	}
	s.notes(r.Warnings)
	return nil
}

// doubts prints what speaks against the readings, besides their number.
func (s *screen) doubts(r *result.TimeFit) {
	first := true
	for _, t := range r.Tasks {
		for _, d := range t.Doubts {
			if first {
				s.line(none, "")
				first = false
			}
			if s.n > mostLines-4 {
				s.line(alert, "and more: see the page")
				return
			}
			s.says(alert, t.Name+": "+d, 3)
		}
	}
}
