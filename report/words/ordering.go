package words

import (
	"fmt"
	"math"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// FillOrdering writes the sentences of a better order of lots into it, once, before it is saved.
func FillOrdering(r *result.Ordering) {
	r.Cautions = Cautions()
	r.Answer = orderAnswer(r)
}

// Goal is what an order was looked for, in words.
func Goal(r *result.Ordering) string {
	if r.Goal == "changeover" {
		return "the time that stations stand for changeovers"
	}
	return "the greatest lateness of a lot"
}

func orderAnswer(r *result.Ordering) string {
	who := number.Plain(r.Scenario)
	if r.Same {
		return fmt.Sprintf("%s: of %s orders tried none is better than the one listed; nothing need be changed.", who, number.Count(int64(r.Tried)))
	}
	first := ""
	for i, x := range r.Suggested.Lots {
		if i > 0 {
			first += ", "
		}
		if i == 6 && len(r.Suggested.Lots) > 7 {
			first += fmt.Sprintf("and %d more", len(r.Suggested.Lots)-i)
			break
		}
		first += number.Plain(x.Lot)
	}
	s := fmt.Sprintf("%s: the order %s ", who, first)
	gain := number.Duration(3600 * math.Abs(r.Difference.Mean))
	h := r.Difference.HalfWidth
	switch {
	case h != nil && *h >= math.Abs(r.Difference.Mean):
		return s + "was found, but no difference to the order listed is shown; nothing was changed."
	case r.Difference.Mean >= 0:
		return s + "looked better in the search, but is not; nothing was changed."
	case h != nil:
		gain += " ± " + number.Duration(3600**h)
	}
	return s + fmt.Sprintf("lessens %s by %s; it is a suggestion, nothing was changed.", Goal(r), gain)
}
