package text

import (
	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

// claim is the screen of a quoted output.
func (s *screen) claim(r *result.Claim) error {
	r, err := number.Shown(r)
	if err != nil {
		return err
	}
	s.answer(r.Answer, nil, false)
	for _, l := range s.wrap(r.Verdict, columns, 3) {
		s.line(none, l)
	}
	s.line(none, "")
	for _, row := range words.ClaimRows(r) {
		s.line(none, s.left(row[0], 46)+row[1])
	}
	s.line(none, "")
	for _, l := range s.wrap(r.Cautions[0]+" "+r.Cautions[1], columns, 4) {
		s.line(faint, l)
	}
	return nil
}
