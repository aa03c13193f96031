package study

import "math"

// Pairs are two samples of the same replications: what a base and another scenario gave with the same random numbers.
type Pairs struct{ Base, Other Sample }

// Add takes in one replication of both.
func (p *Pairs) Add(base, other float64) {
	p.Base, p.Other = append(p.Base, base), append(p.Other, other)
}

// Differences are other minus base, replication by replication. Of a scenario with itself they are exactly 0.
func (p *Pairs) Differences() Sample {
	d := make(Sample, len(p.Base))
	for i, x := range p.Base {
		d[i] = p.Other[i] - x
	}
	return d
}

// Correlation is Pearson's coefficient of the two samples; false where one of them does not vary or there are fewer than two values.
func (p *Pairs) Correlation() (float64, bool) {
	sa, sb := p.Base.SD(), p.Other.SD()
	if len(p.Base) < 2 || sa == 0 || sb == 0 {
		return 0, false
	}
	ma, mb, sum := p.Base.Mean(), p.Other.Mean(), 0.0
	for i, x := range p.Base {
		sum += float64((x - ma) * (p.Other[i] - mb))
	}
	r := sum / float64(len(p.Base)-1) / sa / sb
	return math.Max(-1, math.Min(1, r)), true
}

// Saved is the share of variance that pairing took away: 1 - var(differences) / (var(base) + var(other)), twice the covariance over the sum of
// variances (common random numbers; Law and Kelton, from memory). Below 0 pairing cost precision. False where neither varies.
func (p *Pairs) Saved() (float64, bool) {
	sa, sb := p.Base.SD(), p.Other.SD()
	apart := float64(sa*sa) + float64(sb*sb)
	if len(p.Base) < 2 || apart == 0 {
		return 0, false
	}
	d := p.Differences().SD()
	return 1 - float64(d*d)/apart, true
}

// Bonferroni is the level of each of k intervals that hold together at a level: 1 - (1 - level) / k.
func Bonferroni(level float64, k int) float64 { return 1 - (1-level)/float64(max(k, 1)) }
