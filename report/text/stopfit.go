package text

import (
	"fmt"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// stopFit is the screen of a stop log.
func (s *screen) stopFit(r *result.StopFit) error {
	r, err := number.Shown(r)
	if err != nil {
		return err
	}
	s.answer(r.Answer, r.Warnings, false)
	s.says(faint, r.Counted, 3)
	s.line(none, "")
	s.line(bold, s.left("station: cause", 32)+s.right("stops", 6)+s.right("stood, h", 10)+s.right("to stop, "+r.Unit, 16)+s.right("length", 15))
	for i, c := range r.Causes {
		if i == mostTasks-1 && len(r.Causes) > mostTasks {
			s.line(faint, fmt.Sprintf("and %d more causes: see the page", len(r.Causes)-i))
			break
		}
		name := c.Station + ": " + c.Name
		if c.Outside {
			name += " (outside)"
		}
		mean, length := "not known", "not known"
		if c.Low != nil {
			mean = number.Figure(c.Mean, 3)
		}
		if c.TakesBest != "" {
			length = number.Duration(c.TakesMeanS)
		}
		s.line(none, s.left(name, 32)+s.right(number.Count(int64(c.N)), 6)+s.right(number.Figure(c.Down, 3), 10)+s.right(mean, 16)+s.right(length, 15))
	}
	if r.Short != nil {
		s.line(none, "")
		s.says(alert, r.Short.Sentence, 5)
	}
	s.notes(r.Warnings)
	return nil
}
