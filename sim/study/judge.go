package study

import "math"

// A verdict is what is known of a setting and its target.
type verdict int

const (
	undecided verdict = iota
	meets
	fails
)

// rule is a target and how sure a decision about it has to be.
type rule struct {
	target     float64
	share      float64 // of the shifts that must reach it; 0: their mean must
	tolerance  float64 // so much less than the target is as good
	confidence float64
}

// low is what is as good as the target.
func (r *rule) low() float64 { return float64(r.target * (1 - r.tolerance)) }

// trial is what one replication says of a setting.
type trial struct {
	mean   float64 // what a shift made, over the shifts of the replication
	full   float64 // share of its shifts that reached the target
	nearly float64 // share that reached what is as good
	pay    float64 // for overtime, in a year of such weeks; nothing is judged by it
}

// A judge hears trials one after another and decides at any moment whether a setting meets. A setting is good if it meets the target,
// bad if it does not even meet what is as good; between the two either answer is right.
type judge interface {
	hear(t trial) verdict
}

// judgeOf is a judge for one of k settings among which the cheapest good one is looked for. Each lets its errors happen so rarely that
// the choice is right with the confidence of the rule:
//
// a choice is wrong if the cheapest good setting is dropped, or a bad one that is cheaper is taken. So half of the error is for the first, once,
// and half is shared by all k for the second; this holds whatever the settings have in common (Bonferroni), so common random numbers may be used.
func (r *rule) judgeOf(k int) judge {
	alpha := 1 - r.confidence
	if r.share == 0 {
		return newTriangle(r, alpha/float64(max(1, k)))
	}
	return newWager(r, alpha/2/float64(max(1, k)), alpha/2)
}

// wager decides about a share by two games that are fair where the answer would be wrong: the money won in a fair game exceeds 1/beta at any
// time with a chance of at most beta (Ville 1939), so a setting may be looked at after each replication, and nothing is assumed of how
// shifts vary or hang together within a replication (betting on bounded means: Waudby-Smith and Ramdas 2024; sequential probability ratio:
// Wald 1945; both from memory). One game bets that more than the share reach what is as good, one that fewer reach the target.
type wager struct {
	up, down             []float64 // money of each bet
	upStakes, downStakes []float64
	share                float64
	upEnough, downEnough float64
}

// Bets are on these parts of the way from the share up to all, and down to none.
var (
	betsUp   = [...]float64{0.15, 0.3, 0.5, 0.75, 1}
	betsDown = [...]float64{0.03, 0.06, 0.12, 0.25, 0.5, 1}
)

// A stake of (p - share) / (share x (1 - share)) makes the money the likelihood ratio of p where an observation is 0 or 1.
func newWager(r *rule, wronglyMeets, wronglyFails float64) *wager {
	w := &wager{share: r.share, upEnough: 1 / wronglyMeets, downEnough: 1 / wronglyFails}
	for _, b := range betsUp {
		w.up, w.upStakes = append(w.up, 1/float64(len(betsUp))), append(w.upStakes, b/r.share)
	}
	for _, b := range betsDown {
		w.down, w.downStakes = append(w.down, 1/float64(len(betsDown))), append(w.downStakes, b/(1-r.share))
	}
	return w
}

func (w *wager) hear(t trial) verdict {
	up, down := 0.0, 0.0
	for i := range w.up {
		w.up[i] *= 1 + float64(w.upStakes[i]*(t.nearly-w.share))
		up += w.up[i]
	}
	for i := range w.down {
		w.down[i] *= 1 - float64(w.downStakes[i]*(t.full-w.share))
		down += w.down[i]
	}
	switch {
	case up >= w.upEnough:
		return meets
	case down >= w.downEnough:
		return fails
	}
	return undecided
}

// First is how many trials a mean is judged from at least; the variance of these sets how far the sum of the others may go.
const First = 20

// triangle decides about a mean by the sum of differences from a standard half way between what is good and what is bad; it ends when the sum
// leaves a triangle that narrows as trials come (sequential feasibility check of Batur and Kim 2010, ACM TOMACS 20:13, on the region
// of Kim and Nelson 2001, ACM TOMACS 11:251: both from memory). Trials are taken for normal.
type triangle struct {
	standard, zone float64
	beta           float64
	first          Sample
	n              int
	sum, reach     float64
}

func newTriangle(r *rule, beta float64) *triangle {
	return &triangle{standard: (r.target + r.low()) / 2, zone: (r.target - r.low()) / 2, beta: beta}
}

func (x *triangle) hear(t trial) verdict {
	x.n++
	x.sum += t.mean - x.standard
	if x.n <= First {
		x.first = append(x.first, t.mean)
	}
	if x.n < First {
		return undecided
	}
	if x.n == First {
		s := x.first.SD()
		x.reach = KimNelsonH2(Eta(x.beta, First), First) * float64(s*s) / 2 / x.zone
	}
	r := math.Max(0, x.reach-float64(x.zone/2*float64(x.n)))
	switch {
	case x.sum >= r:
		return meets
	case x.sum <= -r:
		return fails
	}
	return undecided
}

// Eta sets the width of a continuation region that lets one comparison fail with chance beta after a first stage of n: (1/2)((2 beta)^(-2/(n-1)) - 1)
// (Kim and Nelson 2001, procedure KN with c = 1 and beta = alpha/(k-1): from memory).
func Eta(beta float64, n int) float64 {
	return math.Round((math.Pow(2*beta, -2/float64(n-1))-1)/2*1e12) / 1e12 // the last bits depend on the processor
}

// KimNelsonH2 is the constant h squared of the same procedure, 2 eta (n-1).
func KimNelsonH2(eta float64, n int) float64 { return 2 * eta * float64(n-1) }
