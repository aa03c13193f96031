package random

import (
	"fmt"
	"math"

	"pascaline/scenarios"
)

// Law is a distribution of a time in seconds, or of a count.
type Law interface {
	// Quantile is the value that the share u of all draws does not exceed, for u in the open interval (0, 1). It never
	// falls as u rises, but for rounding (1 in 10^14 of the mean).
	Quantile(u float64) float64
	// Mean is the mean really used.
	Mean() float64
	// SD is the standard deviation.
	SD() float64
}

// bounded is a law that knows its support.
type bounded interface{ bounds() (low, high float64) }

// Bounds is the support of a law: no draw lies outside; high may be +Inf.
func Bounds(l Law) (low, high float64) {
	if b, ok := l.(bounded); ok {
		return b.bounds()
	}
	const edge = 1.0 / (1 << 53)
	return l.Quantile(edge), l.Quantile(1 - edge)
}

// NewLaw makes the law that l describes. The zero Law is the constant 0. The error says what is wrong with the values.
func NewLaw(l scenarios.Law) (Law, error) {
	law, err := newLaw(l)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", l.Shape, err)
	}
	return law, nil
}

func newLaw(l scenarios.Law) (Law, error) {
	switch l.Shape {
	case scenarios.Constant, "":
		return constant(l.Mean), sane(number{"value", l.Mean})
	case scenarios.Uniform:
		return newUniform(l.Low, l.High)
	case scenarios.Triangular:
		return newTriangular(l.Low, l.Likely, l.High)
	case scenarios.PERT:
		return newPERT(l.Low, l.Likely, l.High)
	case scenarios.Exponential:
		if err := sane(number{"mean", l.Mean}); err != nil || l.Mean == 0 {
			return constant(0), err
		}
		return exponential{l.Mean}, nil
	case scenarios.Empirical:
		return newEmpirical(l.Values)
	}
	if err := sane(number{"mean", l.Mean}, number{"sd", l.SD}); err != nil {
		return nil, err
	}
	if l.SD == 0 {
		return constant(l.Mean), nil
	}
	switch l.Shape {
	case scenarios.Normal:
		return newNormal(l.Mean, l.SD), nil
	case scenarios.Lognormal:
		return newLognormal(l.Mean, l.SD)
	case scenarios.Gamma:
		return newGamma(l.Mean, l.SD)
	case scenarios.Weibull:
		return newWeibull(l.Mean, l.SD)
	}
	return nil, fmt.Errorf("not a known shape of distribution")
}

// number is a value with the word that the user knows it by.
type number struct {
	name  string
	value float64
}

// sane refuses what no time or count can be.
func sane(values ...number) error {
	for _, v := range values {
		switch {
		case math.IsNaN(v.value) || math.IsInf(v.value, 0):
			return fmt.Errorf("%s is not a number", v.name)
		case v.value < 0:
			return fmt.Errorf("%s %g is negative", v.name, v.value)
		}
	}
	return nil
}

// ordered refuses values of which one is below the one before it.
func ordered(values ...number) error {
	if err := sane(values...); err != nil {
		return err
	}
	for i, v := range values[1:] {
		if before := values[i]; v.value < before.value {
			return fmt.Errorf("%s %g is below %s %g", v.name, v.value, before.name, before.value)
		}
	}
	return nil
}

// spread checks the ratio of sd to mean, which must be one that the shape takes.
func spread(shape scenarios.Shape, mean, sd float64) error {
	least, most := shape.Spreads()
	if cv := sd / mean; !(cv >= least && cv <= most) {
		return fmt.Errorf("sd %g must be %g to %g times the mean %g", sd, least, most, mean)
	}
	return nil
}
