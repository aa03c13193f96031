// Package capital works out what an investment brings: cash flows, payback, net present value, internal rates, cost per kg,
// and how sure they are. It takes what the simulation showed and what the user says of money; it knows no file and no page.
//
// Conventions: Flows[0] is paid today, Flows[t] at the end of year t. Spreadsheets' NPV discounts its first value too; here it
// does not. Money is in the user's currency, of the year in which it is paid. What pays back has no ± : it is a
// reciprocal, so an interval of it is made by mapping values, never by adding a half width.
package capital

import (
	"math"

	"pascaline/sim/interest"
)

// Flows are amounts by year: [0] today, [t] at the end of year t.
type Flows []float64

// NPV is the net present value at a rate per year, as a fraction above -1.
func (f Flows) NPV(rate float64) float64 { return f.at(1 / (1 + rate)) }

// at is the polynomial of the flows at x = 1/(1+rate), from the last flow inwards.
func (f Flows) at(x float64) float64 {
	sum := 0.0
	for t := len(f) - 1; t >= 0; t-- {
		sum = float64(sum*x) + f[t]
	}
	return sum
}

// Total is the sum without interest.
func (f Flows) Total() float64 { return f.at(1) }

// Payback is the time in years after which the sum of the flows is back at 0, linear within a year, and false where it never
// comes back. Flows that never fall below 0 pay at once; flows of nothing but 0 bring nothing and never pay.
func (f Flows) Payback() (years float64, pays bool) { return f.Discounted(0) }

// Discounted is the payback time with interest: of the discounted flows, linear within a year.
func (f Flows) Discounted(rate float64) (years float64, pays bool) {
	x, factor, sum, some := 1/(1+rate), 1.0, 0.0, false
	below := false
	for t, a := range f {
		part := float64(a * factor)
		some = some || a != 0
		if below && sum+part >= 0 {
			return float64(t-1) + -sum/part, true
		}
		sum += part
		below = sum < 0
		factor *= x
	}
	return 0, some && !below
}

// Sums are the sums of the flows from year 0 to each year, without interest.
func (f Flows) Sums() []float64 {
	sums, sum := make([]float64, len(f)), 0.0
	for t, a := range f {
		sum += a
		sums[t] = sum
	}
	return sums
}

// Minus is the difference of two rows of flows; the shorter one has nothing more.
func (f Flows) Minus(g Flows) Flows {
	d := make(Flows, max(len(f), len(g)))
	copy(d, f)
	for t, a := range g {
		d[t] -= a
	}
	return d
}

// Annual is the level amount at the end of each year that is worth as much as the flows over their life: NPV x (A/P, rate, life). With
// costs for flows it is the equivalent annual cost. Options of unequal lives are compared by it, as if each were bought
// again when it is worn out (Newnan, Eschenbach and Lavelle, Engineering Economic Analysis, ch. 6).
func (f Flows) Annual(rate float64) float64 {
	if len(f) < 2 {
		return 0
	}
	return float64(f.NPV(rate) * interest.AP(rate, len(f)-1))
}

// MIRR is the modified internal rate: what is paid is financed at one rate, what is earned is put out at another until the end
// (Lin 1976: from memory). It is one number where there are several internal rates, and NaN where nothing is paid or earned.
func (f Flows) MIRR(finance, reinvest float64) float64 {
	var paid, earned float64
	n := len(f) - 1
	for t, a := range f {
		if a < 0 {
			paid -= float64(a * interest.PF(finance, t))
		} else {
			earned += float64(a * interest.FP(reinvest, n-t))
		}
	}
	if paid == 0 || earned == 0 || n < 1 {
		return math.NaN()
	}
	return math.Pow(earned/paid, 1/float64(n)) - 1
}
