package random

import (
	"fmt"
	"math"
	"slices"
)

// constant is the same value every time.
type constant float64

func (c constant) Quantile(float64) float64    { return float64(c) }
func (c constant) Mean() float64               { return float64(c) }
func (c constant) SD() float64                 { return 0 }
func (c constant) bounds() (low, high float64) { return float64(c), float64(c) }

// uniform has every value between its bounds alike.
type uniform struct{ low, high float64 }

func newUniform(low, high float64) (Law, error) {
	if err := ordered(number{"low", low}, number{"high", high}); err != nil {
		return nil, err
	}
	if low == high {
		return constant(low), nil
	}
	return uniform{low, high}, nil
}

func (l uniform) Quantile(u float64) float64  { return l.low + float64(u*(l.high-l.low)) }
func (l uniform) Mean() float64               { return (l.low + l.high) / 2 }
func (l uniform) SD() float64                 { return (l.high - l.low) / math.Sqrt(12) }
func (l uniform) bounds() (low, high float64) { return l.low, l.high }

// triangular rises from low to likely and falls to high, both on a straight line.
type triangular struct {
	low, likely, high float64
	turn              float64 // share of draws below likely
	rise, fall        float64
}

func newTriangular(low, likely, high float64) (Law, error) {
	if err := ordered(number{"low", low}, number{"likely", likely}, number{"high", high}); err != nil {
		return nil, err
	}
	if low == high {
		return constant(low), nil
	}
	return triangular{
		low: low, likely: likely, high: high,
		turn: (likely - low) / (high - low),
		rise: (high - low) * (likely - low),
		fall: (high - low) * (high - likely),
	}, nil
}

// Quantile chooses the side without a branch, which could not be foretold: low + sqrt(u rise) or high - sqrt((1-u) fall).
func (l triangular) Quantile(u float64) float64 {
	x, end, sign := math.Float64bits((1-u)*l.fall), math.Float64bits(l.high), uint64(1)<<63
	rising, low := math.Float64bits(u*l.rise), math.Float64bits(l.low)
	if u < l.turn {
		x = rising
	}
	if u < l.turn {
		end = low
	}
	if u < l.turn {
		sign = 0
	}
	root := math.Float64bits(math.Sqrt(math.Float64frombits(x)))
	return math.Float64frombits(end) + math.Float64frombits(root^sign)
}

func (l triangular) Mean() float64 { return (l.low + l.likely + l.high) / 3 }

func (l triangular) SD() float64 {
	a, b, c := l.likely-l.low, l.high-l.likely, l.high-l.low
	return math.Sqrt((float64(a*a) + float64(b*b) + float64(c*c)) / 36)
}

func (l triangular) bounds() (low, high float64) { return l.low, l.high }

// empirical draws each reading equally likely.
type empirical struct {
	values   []float64 // sorted
	mean, sd float64
}

func newEmpirical(values []float64) (Law, error) {
	if len(values) == 0 {
		return nil, fmt.Errorf("no readings")
	}
	l := empirical{values: slices.Clone(values)}
	slices.Sort(l.values)
	for _, v := range values {
		if err := sane(number{"reading", v}); err != nil {
			return nil, err
		}
	}
	if l.values[0] == l.values[len(l.values)-1] {
		return constant(l.values[0]), nil
	}
	n := float64(len(l.values))
	for _, v := range l.values {
		l.mean += v
	}
	l.mean /= n
	for _, v := range l.values {
		l.sd += float64((v - l.mean) * (v - l.mean))
	}
	l.sd = math.Sqrt(l.sd / n)
	return l, nil
}

func (l empirical) Quantile(u float64) float64 {
	return l.values[min(int(u*float64(len(l.values))), len(l.values)-1)]
}
func (l empirical) Mean() float64               { return l.mean }
func (l empirical) SD() float64                 { return l.sd }
func (l empirical) bounds() (low, high float64) { return l.values[0], l.values[len(l.values)-1] }
