// Package number writes figures for people: grouped, with a unit, and rounded to what is known. The page and the terminal
// use it alike, so that the same value never reads differently in two places.
package number

import (
	"math"
	"strconv"
	"strings"

	"pascaline/sim/result"
)

// Fixed writes v with so many decimals and the thousands grouped by commas: 5630.4, 1 gives "5,630.4". A value that rounds
// to zero has no sign; what is not a number reads "n/a". Negative decimals round to tens, hundreds and so on.
func Fixed(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "n/a"
	}
	if decimals < 0 {
		p := math.Pow10(-decimals)
		v, decimals = math.Round(v/p)*p, 0
	}
	s := strconv.FormatFloat(math.Abs(v), 'f', decimals, 64)
	whole, fraction, _ := strings.Cut(s, ".")
	var b strings.Builder
	if v < 0 && strings.Trim(s, "0.") != "" {
		b.WriteByte('-')
	}
	for i := range len(whole) {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteByte(',')
		}
		b.WriteByte(whole[i])
	}
	if fraction != "" {
		b.WriteString("." + fraction)
	}
	return b.String()
}

// Count writes a whole number with its thousands grouped.
func Count(n int64) string { return Fixed(float64(n), 0) }

// Figure writes v with the given number of significant digits, and with its whole part in full: 5631.4, 3 gives "5,631";
// 0.01234, 2 gives "0.012".
func Figure(v float64, digits int) string {
	if v == 0 {
		return "0"
	}
	return Fixed(v, max(0, digits-1-exponent(v)))
}

// Percent writes a share as a percentage with one decimal, none from 99.95 % on: 0.1234 gives "12.3 %", 1 gives "100 %". A
// share over 0 that would round to 0.0 reads "<0.1 %".
func Percent(share float64) string {
	switch {
	case share > 0 && share < 0.0005:
		return "<0.1 %"
	case share == 0, share >= 0.9995 && share < 1.0005:
		return Fixed(100*share, 0) + " %"
	}
	return Fixed(100*share, 1) + " %"
}

// Rounded gives the mean and half width as they are printed: the half width to two significant digits, the mean to the
// same place ("5,631" and "38"). The half width is "" where there is none; the mean then has four significant digits at most.
func Rounded(e result.Estimate) (mean, half string) {
	if e.HalfWidth == nil {
		return trimmed(Figure(e.Mean, 4)), ""
	}
	h := *e.HalfWidth
	if h <= 0 || math.IsNaN(h) || math.IsInf(h, 0) {
		return trimmed(Figure(e.Mean, 4)), "0"
	}
	place := 1 - exponent(h)
	if exponent(math.Round(h*math.Pow10(place))) > 1 {
		place-- // 9.96 rounds up to 10 and has one decimal less
	}
	place = min(place, 6)
	return Fixed(e.Mean, place), Fixed(h, place)
}

// trimmed drops zeros at the end of a fraction, where nothing says how far it is known.
func trimmed(s string) string {
	if !strings.Contains(s, ".") {
		return s
	}
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// PlusMinus writes an estimate with its half width and unit: "5,631 ± 38 packs/h".
func PlusMinus(e result.Estimate, unit string) string {
	mean, half := Rounded(e)
	if half != "" {
		mean += " ± " + half
	}
	if unit != "" {
		mean += " " + unit
	}
	return mean
}

// PercentPlusMinus writes an estimate of a share as a percentage with its half width, both with one decimal: "81.4 ± 1.2 %".
func PercentPlusMinus(e result.Estimate) string {
	e.Mean *= 100
	if e.HalfWidth == nil {
		return Fixed(e.Mean, 1) + " %"
	}
	h := *e.HalfWidth * 100
	if h < 9.95 { // a tenth of a percent is as far as a share of time means anything
		return Fixed(e.Mean, 1) + " ± " + Fixed(h, 1) + " %"
	}
	return Fixed(e.Mean, 0) + " ± " + Fixed(h, 0) + " %"
}

// exponent is the power of ten of the first significant digit of v: 0 for 1 to 9.99, -1 for 0.1.
func exponent(v float64) int {
	if v == 0 {
		return 0
	}
	e := int(math.Floor(math.Log10(math.Abs(v))))
	if math.Abs(v) >= math.Pow10(e+1) { // Log10 of 1000 may come out below 3
		e++
	}
	return e
}
