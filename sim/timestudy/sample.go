// Package timestudy goes from what people measured to distributions and back: from a stopwatch sheet to task times, from a stop log to times
// to stop and repair times, and from a scenario to what was counted on the floor. Nothing is fitted that the readings do not
// carry: each answer comes with how sure it is, and what speaks against it.
package timestudy

import (
	"math"
	"slices"
)

// Sample is what was measured: exact values, and values that were still running when the watch stopped (right-censored). All are above 0.
type Sample struct {
	Exact    []float64
	Censored []float64
}

// N is how many values there are, censored ones too.
func (s Sample) N() int { return len(s.Exact) + len(s.Censored) }

func sum(v []float64) float64 {
	t := 0.0
	for _, x := range v {
		t += x
	}
	return t
}

func mean(v []float64) float64 { return sum(v) / float64(len(v)) }

// spread is the sum of squares about the mean.
func spread(v []float64) float64 {
	m, t := mean(v), 0.0
	for _, x := range v {
		t += float64((x - m) * (x - m))
	}
	return t
}

// stdDev divides by n-1; 0 for fewer than two values.
func stdDev(v []float64) float64 {
	if len(v) < 2 {
		return 0
	}
	return math.Sqrt(spread(v) / float64(len(v)-1))
}

func logs(v []float64) []float64 {
	out := make([]float64, len(v))
	for i, x := range v {
		out[i] = math.Log(x)
	}
	return out
}

func sorted(v []float64) []float64 {
	c := slices.Clone(v)
	slices.Sort(c)
	return c
}

// quantileOf is the value below which a share of sorted values lies, between neighbours in a straight line (R's type 7).
func quantileOf(v []float64, p float64) float64 {
	if len(v) == 0 {
		return 0
	}
	h := p * float64(len(v)-1)
	i := int(h)
	if i >= len(v)-1 {
		return v[len(v)-1]
	}
	return v[i] + float64((h-float64(i))*(v[i+1]-v[i]))
}

// Survived is the product-limit estimate of the share that lasts longer than t (Kaplan and Meier 1958). Where a value ends and another
// is censored at the same time, the censored one counts as still running.
func (s Sample) Survived(t float64) float64 {
	share := 1.0
	exact := sorted(s.Exact)
	for i := 0; i < len(exact) && exact[i] <= t; {
		j := i
		for j < len(exact) && exact[j] == exact[i] {
			j++
		}
		at := len(exact) - i
		for _, c := range s.Censored {
			if c >= exact[i] {
				at++
			}
		}
		share *= 1 - float64(j-i)/float64(at)
		i = j
	}
	return share
}
