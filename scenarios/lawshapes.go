package scenarios

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// The fields by which a time or an interval is described.
var lawFields = []string{"low", "likely", "high", "mean", "sd", "file", "column"}

// shapesBy says which shapes fit what is known, the one taken by default first. For mean alone a time has no default.
var shapesBy = []struct {
	known  string // names in order of the alphabet
	shapes []Shape
}{
	{"high low", []Shape{Uniform}},
	{"high likely low", []Shape{Triangular, PERT}},
	{"mean", []Shape{Exponential, Constant}},
	{"mean sd", []Shape{Lognormal, Gamma, Weibull, Normal}},
	{"file", []Shape{Empirical}},
	{"column file", []Shape{Empirical}},
}

// lawShapes are the shapes that fit what is known, or nil where that describes no distribution.
func lawShapes(known []string) []Shape {
	k := slices.Sorted(slices.Values(known))
	for _, s := range shapesBy {
		if s.known == strings.Join(k, " ") {
			return s.shapes
		}
	}
	return nil
}

const (
	normalRefused = 0.01   // P(negative) above which a normal time is refused
	normalWarned  = 0.0001 // and above which it is warned of
)

// Spreads is the least and the most standard deviation that a shape takes, as a share of the mean. The shape of gamma and Weibull is found by
// iteration or from a table, which hold their digits between these.
func (s Shape) Spreads() (least, most float64) {
	switch s {
	case Lognormal:
		return 1e-6, 100
	case Gamma:
		return 0.01, 5
	case Weibull:
		return 0.05, 5
	}
	return 0, math.Inf(1)
}

// Refused says what a scenario finds wrong with the numbers of a law, or "".
func (l Law) Refused() string {
	found, _, _ := l.fault()
	return found
}

// fault says what is wrong with the numbers of a law, or "".
func (l Law) fault() (found, want, hint string) {
	switch {
	case l.Shape == Uniform && l.Low > l.High:
		return "low above high", "low at most as long as high", ""
	case (l.Shape == Triangular || l.Shape == PERT) && (l.Low > l.Likely || l.Likely > l.High):
		return "low, likely and high out of order", "low at most likely, likely at most high", ""
	case l.needsSD() && l.SD <= 0:
		return "a standard deviation of 0", "more than 0", "for a time that is always the same write it as one word"
	case (l.needsSD() || l.Shape == Exponential) && l.Mean <= 0:
		return "a mean of 0", "more than 0", ""
	case l.needsSD() && !l.spreads():
		least, most := l.Shape.Spreads()
		return fmt.Sprintf("a standard deviation of %.3g times the mean", l.SD/l.Mean),
			fmt.Sprintf("%s to %g times the mean for as: %s", strconv.FormatFloat(least, 'f', -1, 64), most, l.Shape), ""
	case l.Shape == Normal && l.negative() > normalRefused:
		return fmt.Sprintf("a normal time that is negative in %.1f of 100 draws", 100*l.negative()),
			"as: lognormal or as: gamma, which are never negative",
			fmt.Sprintf("drawn again until positive, the mean would be %.4g s, not %.4g s", l.MeanUsed(), l.Mean)
	}
	return "", "", ""
}

func (l Law) needsSD() bool {
	return slices.Contains([]Shape{Lognormal, Gamma, Weibull, Normal}, l.Shape)
}

// spreads tells whether the standard deviation is one that the shape takes.
func (l Law) spreads() bool {
	least, most := l.Shape.Spreads()
	cv := l.SD / l.Mean
	return cv >= least && cv <= most
}

// negative is the chance that a normal draw is below 0.
func (l Law) negative() float64 { return math.Erfc(l.Mean/l.SD/math.Sqrt2) / 2 }

// MeanUsed is the mean of what is really drawn, in seconds or pieces. Only for a normal law does it differ from what was
// asked for: draws below 0 are taken again, so that it is mean + sd φ(z)/Φ(z) with z = mean/sd (the mean of a normal
// distribution truncated at 0).
func (l Law) MeanUsed() float64 {
	switch l.Shape {
	case Uniform:
		return (l.Low + l.High) / 2
	case Triangular:
		return (l.Low + l.Likely + l.High) / 3
	case PERT:
		return (l.Low + 4*l.Likely + l.High) / 6
	case Normal:
		z := l.Mean / l.SD
		return l.Mean + l.SD*math.Exp(-z*z/2)/math.Sqrt(2*math.Pi)/(1-l.negative())
	case Empirical:
		sum := 0.0
		for _, v := range l.Values {
			sum += v
		}
		return sum / float64(max(1, len(l.Values)))
	}
	return l.Mean
}

// Least is the shortest that can be drawn, in seconds or pieces.
func (l Law) Least() float64 {
	switch l.Shape {
	case Constant:
		return l.Mean
	case Uniform, Triangular, PERT:
		return l.Low
	case Empirical:
		if len(l.Values) > 0 {
			return l.Values[0]
		}
	}
	return 0
}
