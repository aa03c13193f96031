package capital

import (
	"context"
	"slices"

	"pascaline/sim/result"
	"pascaline/sim/study"
)

// mostAgain is how many replications are run of each set of things bought together.
const mostAgain = 60

// order finds in which order things are bought: first what brings most for a year of its life (equivalent annual worth, as lives differ), then
// what brings most beside it, and so on while anything does. What is left is shown with what it would still bring. Where it is interrupted the
// steps that were found stand.
func order(ctx context.Context, q *Question, p *plant, s *Sample, o study.Options) (r result.Order, interrupted bool, err error) {
	r.Steps = []result.OrderStep{}
	left := indexes(p)
	if len(left) == 0 {
		return r, false, nil
	}
	st := state{q: q, plant: p, sample: s, o: o}
	st.o.Replications, st.o.Progress = min(s.Replication, mostAgain), nil
	for len(left) > 0 {
		best, others := st.best(left)
		step := st.step(p, best)
		r.Steps = append(r.Steps, step)
		if !step.Worth {
			for _, i := range others {
				r.Steps = append(r.Steps, st.step(p, i))
			}
			return r, false, nil
		}
		st.together += step.NPV
		r.Steps[len(r.Steps)-1].Together = st.together
		var instead []string
		left, instead = st.without(left, best)
		r.Steps[len(r.Steps)-1].Instead = instead
		if len(left) == 0 {
			break
		}
		if interrupted, err = st.add(ctx, best, left); interrupted || err != nil {
			return r, interrupted, err
		}
	}
	return r, false, nil
}

func indexes(p *plant) (buys []int) {
	for i := range p.options {
		if p.options[i].Kind == Buys {
			buys = append(buys, i)
		}
	}
	return buys
}

// state is the line with what was bought so far, and what each thing left would bring beside it.
type state struct {
	q        *Question
	o        study.Options
	bought   []string
	of       []int // option of the first plant, by option of this one; nil: the same
	plant    *plant
	sample   *Sample
	together float64
}

// at is the place of option i among those of the present plant.
func (st *state) at(i int) int {
	if st.of == nil {
		return i
	}
	return slices.Index(st.of, i)
}

// best is the option left with the greatest equivalent annual worth, and the others.
func (st *state) best(left []int) (best int, others []int) {
	best = left[0]
	worth := func(i int) float64 {
		c := st.plant.central
		return c.Flows(st.at(i)).Annual(c.Base.Rate)
	}
	for _, i := range left[1:] {
		if worth(i) > worth(best) {
			best = i
		}
	}
	return best, slices.DeleteFunc(slices.Clone(left), func(i int) bool { return i == best })
}

// step says what option i brings beside what was bought so far.
func (st *state) step(first *plant, i int) result.OrderStep {
	c, k := st.plant.central, st.at(i)
	v := verdict(c.Flows(k), c.Base.Rate)
	return result.OrderStep{
		Name: first.options[i].Name, Worth: v.NPV > 0, NPV: v.NPV, Payback: v.Payback, Together: st.together + v.NPV,
		NPVAlone: first.central.Flows(i).NPV(c.Base.Rate), Gain: st.sample.gain(k + 1).Estimate(),
	}
}

// without leaves out what was bought, and what would change the same fields to something else.
func (st *state) without(left []int, bought int) (rest []int, instead []string) {
	name := st.q.Options[bought].Name
	for _, i := range left {
		switch {
		case i == bought:
		case len(st.q.Instead(name, st.q.Options[i].Name)) > 0:
			instead = append(instead, st.q.Options[i].Name)
		default:
			rest = append(rest, i)
		}
	}
	return rest, instead
}

// add buys an option and simulates each of those left beside it.
func (st *state) add(ctx context.Context, bought int, left []int) (interrupted bool, err error) {
	st.bought = append(st.bought, st.q.Options[bought].Name)
	base, err := st.q.Together(st.bought)
	if err != nil {
		return false, err
	}
	var options []Option
	for _, i := range left {
		x := st.q.Options[i]
		with, err := st.q.Together(append(slices.Clone(st.bought), x.Name))
		if err != nil {
			return false, err
		}
		options = append(options, Option{Name: x.Name, Kind: x.Kind, Scenario: with, Buy: x.buy()})
	}
	models, err := modelsOf(base, options)
	if err != nil {
		return false, err
	}
	if st.plant, err = newPlant(base, options); err != nil {
		return false, err
	}
	if st.sample, err = run(ctx, models, st.o); err != nil {
		return false, err
	}
	if st.sample.Incomplete {
		return true, nil
	}
	st.of = left
	st.plant.fill(st.plant.central, st.sample, nil)
	return false, nil
}
