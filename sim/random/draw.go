package random

import (
	"fmt"
	"math"

	"pascaline/sim/clock"
)

// maxSeconds is the longest time that may be drawn: 35 years.
const maxSeconds = 35 * 365.25 * 24 * 3600

// A ValueError says that a distribution gave a number that is no time.
type ValueError struct {
	Name    string // of the distribution
	Seconds float64
}

// Error names the distribution and the value that was drawn.
func (e *ValueError) Error() string {
	what := "is no number"
	switch {
	case math.IsInf(e.Seconds, 0):
		what = "is without bound"
	case e.Seconds < 0:
		what = "is negative"
	case e.Seconds > maxSeconds:
		what = "is more than 35 years"
	}
	return fmt.Sprintf("%s: a time of %g s %s", e.Name, e.Seconds, what)
}

// Ticks is the one place where a real number of seconds becomes ticks, to the nearest. It refuses what is not a number,
// infinite, negative or more than 35 years with a *ValueError that names the distribution.
func Ticks(seconds float64, name string) (clock.Tick, error) {
	if seconds >= 0 && seconds <= maxSeconds { // false when it is not a number
		return ticks(seconds), nil
	}
	return 0, &ValueError{name, seconds}
}

func ticks(seconds float64) clock.Tick {
	return clock.Tick(float64(seconds*float64(clock.Second)) + 0.5)
}

// Draw is a law with the stream that it draws from.
type Draw struct {
	law    Law
	stream Stream
	name   string
	fixed  clock.Tick // of a constant law, otherwise -1
}

// NewDraw joins a law and a stream; the name is for error messages.
func NewDraw(l Law, s Stream, name string) Draw {
	d := Draw{law: l, stream: s, name: name, fixed: -1}
	if c, ok := l.(constant); ok {
		if t, err := Ticks(float64(c), name); err == nil {
			d.fixed = t
		}
	}
	return d
}

// At is the time of thing number n, from one uniform number. A value that Ticks refuses is an internal error, since
// laws are checked when they are made: it panics with the *ValueError.
func (d *Draw) At(n uint64) clock.Tick {
	if d.fixed >= 0 {
		return d.fixed
	}
	return d.drawn(n)
}

func (d *Draw) drawn(n uint64) clock.Tick {
	t, err := Ticks(d.law.Quantile(d.stream.At(n)), d.name)
	if err != nil {
		panic(err)
	}
	return t
}

// Sum is the sum of the times of k things from number n on, each as At gives it.
func (d *Draw) Sum(n, k uint64) (sum clock.Tick) {
	if d.fixed >= 0 {
		return d.fixed * clock.Tick(k)
	}
	l, ok := d.law.(triangular)
	if !ok || l.low < 0 || l.high > maxSeconds {
		for i := range k {
			sum += d.At(n + i)
		}
		return sum
	}
	for i := range k { // the law of most hand work, and the most draws by far: without a call for each
		sum += ticks(l.Quantile(d.stream.At(n + i)))
	}
	return sum
}

// Seconds is the value of thing number n before it becomes ticks: seconds, or pieces where the law is of a count.
func (d *Draw) Seconds(n uint64) float64 { return d.law.Quantile(d.stream.At(n)) }

// Mean is the law's mean, in seconds or pieces.
func (d *Draw) Mean() float64 { return d.law.Mean() }

// Constant is the one time that is ever drawn, if the law is constant.
func (d *Draw) Constant() (clock.Tick, bool) { return max(d.fixed, 0), d.fixed >= 0 }

// From is the same draw from another stream: what differs from product to product still belongs to the numbers of one purpose.
func (d Draw) From(s Stream) Draw {
	d.stream = s
	return d
}
