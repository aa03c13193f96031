package capital

import (
	"math"
	"slices"
)

// Dated is an amount paid so many days after the first day.
type Dated struct {
	Day    int
	Amount float64
}

const daysInYear = 365

// NPVDated is the present value on day 0 of dated amounts, at a rate per year of 365 days (the convention of spreadsheets).
func NPVDated(flows []Dated, rate float64) float64 {
	sum := 0.0
	for _, t := range termsOf(flows) {
		sum += float64(t.amount * math.Pow(1+rate, -float64(t.at)/daysInYear))
	}
	return sum
}

// RatesDated are all internal rates of dated amounts, per year of 365 days.
func RatesDated(flows []Dated) []float64 { return ratesOf(termsOf(flows), daysInYear) }

func termsOf(flows []Dated) []term {
	var terms []term
	for _, f := range flows {
		if f.Amount != 0 {
			terms = append(terms, term{f.Day, f.Amount})
		}
	}
	slices.SortStableFunc(terms, func(a, b term) int { return a.at - b.at })
	return terms
}
