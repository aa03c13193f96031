package measure

import "pascaline/sim/clock"

// Record keeps the mean and the highest content of each of n steps of time from tick 0 on; the last step takes in all
// that follows. It is called before any time has passed.
func (l *Level) Record(step clock.Tick, n int) {
	if step <= 0 || n <= 0 {
		return
	}
	l.steps = &steps{step: step, area: make([]int64, n), most: make([]int64, n), end: step}
	l.steps.most[0] = l.n
}

// Steps are the mean and the highest content of each step that began before end; a step that end cuts is averaged over
// its part. Both are nil without Record. It brings the level up to end.
func (l *Level) Steps(end clock.Tick) (mean, most []float64) {
	s := l.steps
	if s == nil {
		return nil, nil
	}
	if end > l.last {
		l.pass(end)
	}
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
	step clock.Tick
	i    int        // the step in hand
	end  clock.Tick // of it
	area []int64    // content x ticks
	most []int64
}

// pass adds content n from a tick to a later one, which may be many steps on.
func (s *steps) pass(n int64, from, to clock.Tick) {
	for to >= s.end && s.i < len(s.area)-1 {
		s.area[s.i] += n * (s.end - from)
		from = s.end
		s.i++
		s.end += s.step
		if to > from {
			s.see(n) // held into the next step
		}
	}
	s.area[s.i] += n * (to - from)
}

// see notes a content in the step in hand.
func (s *steps) see(n int64) {
	if n > s.most[s.i] {
		s.most[s.i] = n
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
