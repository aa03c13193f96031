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
	s.says(none, r.Verdict, 3)
	s.line(none, "")
	for _, row := range words.ClaimRows(r) {
		s.line(none, s.left(row[0], 46)+row[1])
	}
	s.line(none, "")
	s.says(faint, r.Cautions[0]+" "+r.Cautions[1], 4)
	return nil
}
