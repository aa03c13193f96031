package study

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"pascaline/scenarios"
	"pascaline/sim/clock"
	"pascaline/sim/line"
	"pascaline/sim/result"
)

// The goals of an order of lots.
const (
	LeastLateness   = "lateness"
	LeastChangeover = "changeover"
)

// OrderOptions say what a better order is and how long to look for it.
type OrderOptions struct {
	Options
	Goal string // LeastLateness or LeastChangeover
	Look int    // replications of each order that is tried, with the same random numbers
	Try  int    // orders tried at most
}

// Order looks for a better order of a scenario's lots: known rules first, then moves of single lots, each tried by paired replications with
// common random numbers. What was found best is held against the order as listed in replications of other numbers, which had no part in
// the choice. The error is a fault of this program, or that there is nothing to order.
func Order(ctx context.Context, s *scenarios.Scenario, o OrderOptions) (*result.Ordering, error) {
	q := &orderer{s: s, o: o, fixed: fixedLots(s), seen: map[string]Sample{}}
	if len(s.Lots)-q.fixed < 2 {
		return nil, fmt.Errorf("there are fewer than two lots whose order is open")
	}
	listed := make([]int, len(s.Lots))
	for i := range listed {
		listed[i] = i
	}
	best, rule, interrupted, err := q.search(ctx, listed)
	if err != nil {
		return nil, err
	}
	r := &result.Ordering{Head: result.NewHead(result.KindOrdering), Scenario: string(s.Name), ScenarioHash: s.Hash(), Goal: o.Goal, Seed: o.Seed,
		Tried: len(q.seen), Look: o.Look, Rule: rule, Incomplete: interrupted, Warnings: []result.Warning{}}
	return r, q.confirm(ctx, r, listed, best)
}

// fixedLots is how many lots at the head of the list are done or in work.
func fixedLots(s *scenarios.Scenario) int {
	for i := range s.Lots {
		if s.Run.Starts.Lot != "" && s.Lots[i].Lot == s.Run.Starts.Lot {
			return i + 1
		}
	}
	return 0
}

// byMoves begins the name of how an order was found by moves of single lots; the rule that they began with follows.
const byMoves = "moves of single lots, from: "

type orderer struct {
	s     *scenarios.Scenario
	o     OrderOptions
	fixed int
	seen  map[string]Sample // by order
}

// model is the line with its lots in another order.
func (q *orderer) model(order []int) (*line.Model, error) {
	s := *q.s
	s.Lots = make([]scenarios.Lot, len(order))
	for i, k := range order {
		s.Lots[i] = q.s.Lots[k]
	}
	return line.New(&s)
}

// value is what is to be small in one replication: the greatest lateness of a lot, or the time that stations stood for changeovers, in hours. A
// lot without a due time is never late; one that was not finished counts as done a year after the end. The time at which all are done decides between
// orders that are alike otherwise.
func (q *orderer) value(r *line.Record) float64 {
	worst, end := math.Inf(-1), 0.0
	due := map[string]float64{}
	for i := range q.s.Lots {
		if d := q.s.Lots[i].Due; d != nil {
			due[string(q.s.Lots[i].Lot)] = hours(clock.Tick(d.After(q.s.Run.Starts.At.At)))
		}
	}
	for i := range r.Lots {
		x := &r.Lots[i]
		done := hours(r.Length)
		if x.Done >= 0 {
			done = hours(x.Done)
		} else {
			done += 24 * 365
		}
		end = max(end, done)
		if d, ok := due[x.Name]; ok {
			worst = max(worst, done-d)
		}
	}
	const tie = 1e-6
	if q.o.Goal == LeastChangeover || math.IsInf(worst, -1) {
		stood := 0.0
		for _, c := range r.Changes {
			stood += hours(c.Stood)
		}
		return stood + float64(tie*end)
	}
	return worst + float64(tie*end)
}

// look is the value of an order in the replications of the search.
func (q *orderer) look(ctx context.Context, order []int) (Sample, error) {
	key := fmt.Sprint(order)
	if s, ok := q.seen[key]; ok {
		return s, nil
	}
	m, err := q.model(order)
	if err != nil {
		return nil, err
	}
	var values Sample
	interrupted, err := replicate(ctx, m, q.o.Options, q.o.Look, func(r *line.Record) bool {
		values = append(values, q.value(r))
		return true
	})
	if err == nil && interrupted {
		err = ctx.Err()
	}
	if err != nil {
		return nil, err
	}
	q.seen[key] = values
	return values, nil
}

// search tries the order as listed, known rules, and then moves of single lots, each improvement at once, until no move helps or enough were
// tried.
func (q *orderer) search(ctx context.Context, listed []int) (best []int, rule string, interrupted bool, err error) {
	best, rule = listed, "as listed"
	value, err := q.look(ctx, listed)
	if err != nil {
		return nil, "", false, err
	}
	better := func(order []int, by string) bool {
		v, e := q.look(ctx, order)
		if e != nil {
			err = e
			return false
		}
		if v.Mean() < value.Mean()-1e-9 {
			best, value, rule = order, v, by
			return true
		}
		return false
	}
	for _, r := range orderRules {
		if r.goal == q.o.Goal {
			better(q.byRule(listed, r.less), r.name)
		}
	}
	if q.o.Goal == LeastChangeover {
		better(q.nearest(listed), "the shortest changeover next")
	}
	for moved := true; moved && err == nil && len(q.seen) < q.o.Try; {
		moved = false
		for _, m := range q.moves(best) {
			if err != nil || len(q.seen) >= q.o.Try {
				break
			}
			if better(m, byMoves+strings.TrimPrefix(rule, byMoves)) {
				moved = true
				break
			}
		}
	}
	if ctx.Err() != nil {
		return best, rule, true, nil
	}
	return best, rule, false, err
}

// moves are all orders in which one lot stands elsewhere: neighbours change places first.
func (q *orderer) moves(order []int) (list [][]int) {
	n := len(order)
	for far := 1; far < n-q.fixed; far++ {
		for from := q.fixed; from < n; from++ {
			for _, to := range []int{from + far, from - far} {
				if to < q.fixed || to >= n || far == 1 && to < from {
					continue
				}
				m := slices.Clone(order)
				x := m[from]
				m = slices.Insert(slices.Delete(m, from, from+1), to, x)
				list = append(list, m)
			}
		}
	}
	return list
}
