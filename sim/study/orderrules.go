package study

import (
	"cmp"
	"context"
	"math"
	"slices"

	"pascaline/sim/line"
	"pascaline/sim/result"
)

// orderRule is a known rule by which lots are sorted.
type orderRule struct {
	goal, name string
	less       func(q *orderer, a, b int) int
}

// Earliest due date first minimises the greatest lateness of jobs on one machine, all ready at the start (Jackson 1955: from memory). On a line,
// with lots that become ready later, it is where the search begins.
var orderRules = []orderRule{
	{LeastLateness, "earliest due date first (Jackson 1955)", func(q *orderer, a, b int) int { return cmp.Compare(q.due(a), q.due(b)) }},
	{LeastLateness, "least slack first", func(q *orderer, a, b int) int { return cmp.Compare(q.due(a)-q.work(a), q.due(b)-q.work(b)) }},
	{LeastLateness, "shortest first (Smith 1956)", func(q *orderer, a, b int) int { return cmp.Compare(q.work(a), q.work(b)) }},
	{LeastChangeover, "product after product", func(q *orderer, a, b int) int {
		return cmp.Or(cmp.Compare(q.s.GroupOf(&q.s.Lots[a]), q.s.GroupOf(&q.s.Lots[b])), cmp.Compare(q.s.Lots[a].Product, q.s.Lots[b].Product))
	}},
}

// due is when a lot is due in hours, without end where it has no due time.
func (q *orderer) due(i int) float64 {
	if d := q.s.Lots[i].Due; d != nil {
		return d.After(q.s.Run.Starts.At.At).Seconds() / 3600
	}
	return math.Inf(1)
}

// work is how long a lot keeps the slowest station by the hand check, in hours.
func (q *orderer) work(i int) float64 {
	l := &q.s.Lots[i]
	slowest := math.Inf(1)
	for _, row := range handRates(q.s.ProductNamed(string(l.Product))) {
		slowest = min(slowest, row.PacksPerH)
	}
	return float64(l.Quantity) / slowest
}

// byRule sorts the lots whose order is open; those that the rule finds alike keep their order.
func (q *orderer) byRule(order []int, less func(q *orderer, a, b int) int) []int {
	m := slices.Clone(order)
	slices.SortStableFunc(m[q.fixed:], func(a, b int) int { return less(q, a, b) })
	return m
}

// nearest takes as the next lot always the one with the shortest changeovers.
func (q *orderer) nearest(order []int) []int {
	m := slices.Clone(order)
	for k := max(1, q.fixed); k < len(m); k++ {
		best := k
		for i := k + 1; i < len(m); i++ {
			if q.between(m[k-1], m[i]) < q.between(m[k-1], m[best]) {
				best = i
			}
		}
		x := m[best]
		m = slices.Insert(slices.Delete(m, best, best+1), k, x)
	}
	return m
}

// between is the mean time that stations stand for changeovers from one lot to the next, in seconds.
func (q *orderer) between(a, b int) float64 {
	sum := 0.0
	done := map[string]bool{} // at each station the first line that fits counts
	for i := range q.s.Changeovers {
		x := &q.s.Changeovers[i]
		if !done[string(x.Station)] && line.Fits(q.s, x, &q.s.Lots[a], &q.s.Lots[b]) {
			done[string(x.Station)] = true
			sum += meanOf(&x.Takes) - x.Before.Seconds()
		}
	}
	return sum
}

// leastConfirmed is in how many replications what was found is held against the list after an interruption, so that it is not lost.
const leastConfirmed = 2

// confirm holds the order found against the one listed, in replications of numbers that had no part in the search.
func (q *orderer) confirm(ctx context.Context, r *result.Ordering, listed, best []int) error {
	a, err := q.model(listed)
	if err != nil {
		return err
	}
	b, err := q.model(best)
	if err != nil {
		return err
	}
	was, is := newTotal(a, q.o.Seed), newTotal(b, q.o.Seed)
	var pairs Pairs
	pair := func(_ context.Context, n int) ([2]*line.Record, error) {
		var both [2]*line.Record
		for i, m := range []*line.Model{a, b} {
			var err error
			if both[i], err = One(m, line.Options{Seed: q.o.Seed, Replication: q.o.Look + n}); err != nil {
				return both, err
			}
		}
		return both, nil
	}
	take := func(both [2]*line.Record) bool {
		was.add(both[0])
		is.add(both[1])
		pairs.Add(q.value(both[0]), q.value(both[1]))
		if q.o.Progress != nil {
			h, _ := pairs.Differences().Half()
			q.o.Progress(was.n, h)
		}
		return true
	}
	interrupted, err := inOrder(ctx, q.o.Workers, max(leastConfirmed, q.o.Replications), pair, take)
	if interrupted && was.n == 0 {
		_, err = inOrder(context.WithoutCancel(ctx), q.o.Workers, leastConfirmed, pair, take)
	}
	if err != nil {
		return err
	}
	r.Replications = was.n
	r.Incomplete = r.Incomplete || interrupted
	r.StartMin = int(a.Scenario().Run.Starts.At.At.Seconds() / 60)
	r.Listed, r.Suggested = side(was, pairs.Base), side(is, pairs.Other)
	r.Difference = pairs.Differences().Estimate()
	r.Same = slices.Equal(listed, best)
	if was.n < 400 {
		r.Warnings = append(r.Warnings, result.Warning{Code: "few for chances", Text: "A chance near 10 % is known to about 3 points only with 400 replications."})
	}
	return nil
}

// side is what one order brings.
func side(t *total, value Sample) result.OrderSide {
	l := t.lotsResult()
	return result.OrderSide{Value: value.Estimate(), Lots: l.Each, Finish: l.Finish, Changes: l.Changes}
}
