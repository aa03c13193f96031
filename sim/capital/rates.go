package capital

import (
	"math"
	"slices"

	"pascaline/sim/interest"
)

// term is an amount paid at a whole number of periods from today.
type term struct {
	at     int
	amount float64
}

// Rates between which internal rates are looked for, per year.
const (
	lowestRate  = -0.9999
	highestRate = 1e6
)

// Rates are all internal rates of return, from the lowest up: the rates above -99.99 % at which the net present value is 0. There is
// none for flows that are never paid back or that cost nothing, and there may be several where the flows change their sign more
// than once; then none of them may be taken for the one.
func (f Flows) Rates() []float64 {
	var terms []term
	for t, a := range f {
		if a != 0 {
			terms = append(terms, term{t, a})
		}
	}
	return ratesOf(terms, 1)
}

// Rate is the one internal rate, and false where there is none or more than one.
func (f Flows) Rate() (rate float64, unique bool) {
	all := f.Rates()
	if len(all) != 1 {
		return 0, false
	}
	return all[0], true
}

// ratesOf finds all rates per year of terms in order of time, with so many periods in a year.
func ratesOf(terms []term, periods int) []float64 {
	if changes(terms) == 0 {
		return nil
	}
	low := math.Pow(1/(1+highestRate), 1/float64(periods))
	high := math.Pow(1/(1+lowestRate), 1/float64(periods))
	var rates []float64
	for _, x := range roots(terms, low, high) {
		rates = append(rates, interest.Power(1/x, periods)-1)
	}
	slices.Sort(rates)
	return rates
}

// changes counts how often the amounts change their sign: at least as many as there are roots (Descartes' rule).
func changes(terms []term) (n int) {
	for i := range terms[min(1, len(terms)):] {
		if (terms[i].amount < 0) != (terms[i+1].amount < 0) {
			n++
		}
	}
	return n
}

// roots are all x in (low, high) at which the sum of amount·x^at is 0, in order. Between two extremes there is one root at most, and
// the extremes are the roots of the derivative, which has a term less: so down to one term, which has none.
func roots(terms []term, low, high float64) []float64 {
	if len(terms) < 2 || changes(terms) == 0 {
		return nil
	}
	first := terms[0].at
	lower := make([]term, len(terms)) // divided by x^first: x is not 0
	for i, t := range terms {
		lower[i] = term{t.at - first, t.amount}
	}
	edges := []float64{low, high}
	if changes(terms) > 1 {
		slope := make([]term, len(terms)-1)
		for i, t := range lower[1:] {
			slope[i] = term{t.at - 1, t.amount * float64(t.at)}
		}
		edges = slices.Concat([]float64{low}, roots(slope, low, high), []float64{high})
	}
	var found []float64
	for i := range edges[1:] {
		if x, ok := rootBetween(lower, edges[i], edges[i+1]); ok && (len(found) == 0 || x > found[len(found)-1]) {
			found = append(found, x)
		}
	}
	return found
}

// nearZero is what a sum may differ from 0 by rounding, as a share of the sum of its terms' sizes.
const nearZero = 1e-14

// rootBetween is the root between two points of a stretch that only rises or only falls, by halving until no number lies between.
func rootBetween(terms []term, a, b float64) (float64, bool) {
	fa, fb := signAt(terms, a), signAt(terms, b)
	switch {
	case fa == 0:
		return a, true
	case fb == 0:
		return b, true
	case fa == fb:
		return 0, false
	}
	for {
		m := a + (b-a)/2
		if m <= a || m >= b {
			return m, true
		}
		switch signAt(terms, m) {
		case fa:
			a = m
		case fb:
			b = m
		default:
			return m, true
		}
	}
}

func signAt(terms []term, x float64) int {
	sum, size, p, at := 0.0, 0.0, 1.0, 0
	for _, t := range terms {
		p *= interest.Power(x, t.at-at)
		at = t.at
		sum += float64(t.amount * p)
		size += math.Abs(float64(t.amount * p))
	}
	switch {
	case math.Abs(sum) <= nearZero*size:
		return 0
	case sum < 0:
		return -1
	}
	return 1
}
