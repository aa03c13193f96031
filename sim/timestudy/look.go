package timestudy

import (
	"fmt"
	"math"
	"strings"

	"pascaline/scenarios"
	"pascaline/sim/result"
)

// look finds what speaks against taking the readings as they are.
func look(r *result.FitTask, t Task, values []float64, d distribution, half float64) {
	for _, i := range outlying(values) {
		if d != nil && float64(len(values))*math.Min(d.CDF(values[i]), d.Survival(values[i])) > 0.025 {
			continue // far from the middle, but not for this shape
		}
		r.Outliers = append(r.Outliers, result.Outlier{Place: t.Readings[i].Place, Seconds: round(values[i])})
	}
	if share, low, high, ok := twoKinds(values); ok {
		r.TwoKinds = &result.TwoKinds{Share: round(share), LowS: round(low), HighS: round(high)}
		r.Doubts = append(r.Doubts, fmt.Sprintf("Two kinds of readings: %.0f %% near %.4g s, the others near %.4g s. Find out what differs (people, product, carrier) and give each its own task.",
			100*share, low, high))
	}
	if len(r.Outliers) > 0 && r.TwoKinds == nil {
		r.Doubts = append(r.Doubts, farOff(r.Outliers))
	}
	r.NextR = round(neighbours(values))
	z, slope := drift(values)
	r.DriftZ, r.DriftPer = round(z), round(10*slope/r.MedianS)
	switch {
	case math.Abs(r.DriftZ) > result.DriftShown:
		way := "shorter"
		why := "people learn, or hurry while they are watched; the last readings may be nearer to every day, or to neither"
		if slope > 0 {
			way, why = "longer", "people tire, or something changed"
		}
		r.Doubts = append(r.Doubts, fmt.Sprintf("Readings get %s: by %.1f %% in 10. %s.", way, 100*math.Abs(r.DriftPer), strings.ToUpper(why[:1])+why[1:]))
	case len(values) >= 10 && math.Abs(r.NextR) > bothSides/math.Sqrt(float64(len(values))):
		r.Doubts = append(r.Doubts, besideEachOther(r.NextR))
	}
	r.Needed = enough(r.MeanS, r.SDS, half, significant(r.NextR, len(values)))
	if r.N > 1 && r.Needed > r.N {
		r.Doubts = append(r.Doubts, fmt.Sprintf("%d readings leave ± %.1f %% on the mean; for ± %.3g %% take %d more.", r.N, 100**r.HalfS/r.MeanS, 100*half, r.Needed-r.N))
	}
	if r.N == 1 {
		r.Doubts = append(r.Doubts, "One reading says nothing about chance.")
	}
	if r.Best == string(scenarios.Empirical) {
		r.Doubts = append(r.Doubts, "No shape fits: the readings are kept in a file of their own, and nothing longer than the longest of them will ever be drawn.")
	}
}

// besideEachOther says what a correlation of each reading with the next means.
func besideEachOther(r float64) string {
	if r < 0 {
		return fmt.Sprintf("A long reading tends to follow a short one and the other way round (correlation %.2f). Find out why: two people or carriers in turn may be two tasks, and a watch that was pressed late makes one reading longer and the next shorter.", r)
	}
	return fmt.Sprintf("Readings one after the other resemble each other (correlation %.2f): they tell less than as many taken apart.", r)
}

func significant(r float64, n int) float64 {
	if n < 10 || math.Abs(r) <= bothSides/math.Sqrt(float64(n)) {
		return 0
	}
	return r
}

func farOff(all []result.Outlier) string {
	var at []string
	for i, o := range all {
		if i == 4 {
			at = append(at, fmt.Sprintf("and %d more", len(all)-i))
			break
		}
		at = append(at, fmt.Sprintf("%.4g s (%s)", o.Seconds, o.Place))
	}
	return "Far from the others: " + strings.Join(at, ", ") + ". They are in the figures; take a row out only if you know what went wrong."
}

// bars of a histogram: as wide as twice the middle half over the cube root of n (Freedman and Diaconis 1981), 5 to 30 of them.
func bars(v []float64, d distribution) []result.FitBar {
	n := float64(len(v))
	low, high := v[0], v[len(v)-1]
	width := 2 * (quantileOf(v, 0.75) - quantileOf(v, 0.25)) / math.Cbrt(n)
	k := 5
	if width > 0 {
		k = min(30, max(5, int(math.Ceil((high-low)/width))))
	}
	width = (high - low) / float64(k)
	out := make([]result.FitBar, k)
	for i := range out {
		a, b := low+float64(float64(i)*width), low+float64(float64(i+1)*width)
		out[i] = result.FitBar{FromS: round(a), ToS: round(b), Expected: round(n * (d.CDF(b) - d.CDF(a)))}
	}
	for _, x := range v {
		out[min(k-1, int((x-low)/width))].Readings++
	}
	return out
}

const mostPoints = 200

// points of a quantile plot, at the middle of each reading's share; of many readings, some.
func points(v []float64, d distribution) []result.FitPoint {
	n := len(v)
	k := min(n, mostPoints)
	out := make([]result.FitPoint, k)
	for i := range out {
		j := i * (n - 1) / max(1, k-1)
		out[i] = result.FitPoint{ExpectedS: round(d.Quantile((float64(j) + 0.5) / float64(n))), ReadS: round(v[j])}
	}
	return out
}
