package measure

import (
	"math"
	"math/bits"

	"pascaline/sim/clock"
)

// Tally sums up many times (waits, time out of the chilled store). Count, sum, mean, maximum and the number over the
// limit are exact; a quantile is at most 1/64 of its value off. The zero Tally is ready.
type Tally struct {
	n, sum  int64
	most    clock.Tick
	limit   clock.Tick
	limited bool
	over    int64
	bins    []int64 // by bin; made with the first value
}

// A bin holds values that agree in their highest mantissaBits+1 bits: values up to 127 ticks have a bin each, above
// that a bin's width is at most 1/64 of its values.
const (
	mantissaBits = 6
	nBins        = (64 - mantissaBits) << mantissaBits
)

func bin(x clock.Tick) int {
	e := max(bits.Len64(uint64(x))-mantissaBits-1, 0)
	return e<<mantissaBits + int(x>>e)
}

// middle is the middle of bin i.
func middle(i int) clock.Tick {
	e := max(i>>mantissaBits-1, 0)
	low := clock.Tick(i-e<<mantissaBits) << e
	return low + (clock.Tick(1)<<e-1)/2
}

// SetLimit makes Over count the times above x. It is set before the first Add.
func (t *Tally) SetLimit(x clock.Tick) { t.limit, t.limited = x, true }

// Add takes in a time. A negative one is an internal error and panics.
func (t *Tally) Add(x clock.Tick) {
	if x < 0 {
		panic("measure: negative time in a tally")
	}
	if t.bins == nil {
		t.bins = make([]int64, nBins)
	}
	t.n++
	t.sum += x
	if x > t.most {
		t.most = x
	}
	if x > t.limit {
		t.over++
	}
	t.bins[bin(x)]++
}

// AddTimes takes in the same time k times over, 0 or more.
func (t *Tally) AddTimes(x clock.Tick, k int64) {
	if k <= 0 {
		return
	}
	t.Add(x)
	t.n += k - 1
	t.sum += (k - 1) * x
	if x > t.limit {
		t.over += k - 1
	}
	t.bins[bin(x)] += k - 1
}

// N is the number of times.
func (t *Tally) N() int64 { return t.n }

// Sum is their sum.
func (t *Tally) Sum() clock.Tick { return t.sum }

// Max is the longest, 0 without any.
func (t *Tally) Max() clock.Tick { return t.most }

// Mean is their mean in ticks, 0 without any.
func (t *Tally) Mean() float64 {
	if t.n == 0 {
		return 0
	}
	return float64(t.sum) / float64(t.n)
}

// Over is the number of times above the limit, 0 when none was set.
func (t *Tally) Over() int64 {
	if !t.limited {
		return 0
	}
	return t.over
}

// Quantile is the shortest time that at least the share p of all does not exceed, to 1/64 of its value; exact up to
// 127 ticks and for p = 1. It is 0 without any times.
func (t *Tally) Quantile(p float64) clock.Tick {
	rank := max(int64(math.Ceil(p*float64(t.n))), 1)
	if rank >= t.n {
		return t.most
	}
	for i, n := range t.bins {
		if rank -= n; rank <= 0 {
			return min(middle(i), t.most)
		}
	}
	return t.most
}

// Merge adds the times of o, which has the same limit.
func (t *Tally) Merge(o *Tally) {
	if o.n == 0 {
		return
	}
	if t.bins == nil {
		t.bins = make([]int64, nBins)
	}
	if !t.limited {
		t.limit, t.limited = o.limit, o.limited
	}
	t.n += o.n
	t.sum += o.sum
	t.most = max(t.most, o.most)
	t.over += o.over
	for i, n := range o.bins {
		t.bins[i] += n
	}
}
