package measure

import "pascaline/sim/clock"

// Record keeps the mean and the highest content of each of n steps of time from tick 0 on; the last step takes in all
// that follows. It is called before any time has passed.
func (l *Level) Record(step clock.Tick, n int) {
	if step <= 0 || n <= 0 {
		return
	}
	l.steps = &steps{step: step, area: make([]int64, n), most: make([]int64, n)}
	l.turn = clock.Never
	if n > 1 {
		l.turn = step
	}
}

// Steps are the mean and the highest content of each step that began before end; a step that end cuts is averaged over
// its part. Both are nil without Record. It brings the level up to end.
func (l *Level) Steps(end clock.Tick) (mean, most []float64) {
	s := l.steps
	if s == nil {
		return nil, nil
	}
	l.last = max(l.last, end)
	l.pass(l.last)
	s.area[s.i] = l.area(l.last) - s.before
	s.most[s.i] = l.highest
	n := min(int((end+s.step-1)/s.step), len(s.area))
	mean, most = make([]float64, n), make([]float64, n)
	for i := range n {
		from := clock.Tick(i) * s.step
		to := min(from+s.step, end)
		if i == len(s.area)-1 {
			to = end
		}
		mean[i] = float64(s.area[i]) / float64(to-from)
		most[i] = float64(s.most[i])
	}
	return mean, most
}

// steps holds a level's sums by step of time.
type steps struct {
	step   clock.Tick
	i      int     // the step in hand
	before int64   // content x ticks up to its begin
	area   []int64 // content x ticks of each that is over
	most   []int64
}

// nextStep ends the step in hand. The content that holds is of the next one if it held into it.
func (l *Level) nextStep(held bool) {
	s := l.steps
	area := l.area(l.turn)
	s.area[s.i], s.before = area-s.before, area
	s.most[s.i] = l.highest
	l.most = max(l.most, l.highest)
	l.highest = 0
	if held {
		l.highest = l.n
	}
	s.i++
	if l.turn += s.step; s.i == len(s.area)-1 {
		l.turn = clock.Never
	}
}

// Counts counts pieces by step of time.
type Counts struct {
	step clock.Tick
	by   []int64
}

// NewCounts counts in n steps from tick 0 on; what falls after the last step goes into the last.
func NewCounts(step clock.Tick, n int) *Counts {
	return &Counts{step: max(step, 1), by: make([]int64, max(n, 1))}
}

// Add counts k pieces now.
func (c *Counts) Add(k int64, now clock.Tick) {
	c.by[min(int(now/c.step), len(c.by)-1)] += k
}

// Values are the pieces of each step.
func (c *Counts) Values() []int64 { return c.by }
