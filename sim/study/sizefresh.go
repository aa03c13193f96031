package study

import (
	"context"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"pascaline/sim/line"
	"pascaline/sim/result"
)

// freshTrial is a replication that the search has not seen, of the setting that was found and of its neighbours.
type freshTrial struct {
	record *line.Record
	here   trial
	next   []*trial // by step; nil where it was not simulated
}

// again estimates what was found with fresh random numbers, and its neighbours with the same ones.
func (z *sizing) again(ctx context.Context) error {
	x := z.found()
	steps := z.steps(x)
	t := newTotal(x.model, z.o.Seed)
	var here []trial
	next := make([][]trial, len(steps))
	var late Sample
	interrupted, err := inOrder(ctx, z.o.Workers, FreshRuns, func(ctx context.Context, n int) (freshTrial, error) {
		return z.fresh(ctx, x, steps, n)
	}, func(f freshTrial) bool {
		t.add(f.record)
		here = append(here, f.here)
		late = append(late, overtime(f.record))
		for i, y := range f.next {
			if y != nil {
				next[i] = append(next[i], *y)
			}
		}
		if z.o.Progress != nil {
			z.o.Progress(z.done, float64(len(z.settings)))
		}
		return true
	})
	z.r.Incomplete = z.r.Incomplete || interrupted
	if err != nil || len(here) == 0 {
		return err
	}
	made, _ := sums(here)
	f := &result.SizeFound{Number: x.no + 1, Cost: x.cost, Chance: chanceOf(here), Output: made.Estimate(), Packs: t.rate.Estimate(), OvertimeH: late.Mean(), Overtime: x.overtime.mean(here)}
	for i, v := range z.values(x) {
		f.Setting = append(f.Setting, result.SizeValue{Name: z.s.Size.Vary[i].Name, Value: v})
	}
	if z.chosen != nil {
		z.r.Chosen = f
	} else {
		z.r.Nearest = f
	}
	z.r.Staffing = t.staffing()
	z.r.Procedure.Fresh = len(here)
	z.unpaid = x.overtime.unpaid(t)
	z.noteDoubts(t)
	for i := range steps {
		z.compare(&steps[i], here, next[i])
	}
	for _, s := range steps {
		z.r.Steps = append(z.r.Steps, s.SizeStep)
	}
	z.r.Assumptions = Assumed(x.model.Scenario())
	return nil
}

// noteDoubts keeps what is doubtful about the setting that was found: warnings of its runs and of its file.
func (z *sizing) noteDoubts(t *total) {
	for i, d := range t.doubts {
		z.doubts = append(z.doubts, result.Warning{Code: d.Code, Text: fmt.Sprintf("Of the setting that was found, in %d of %d replications (in the first of them: %s).", t.doubted[i], t.n, d.Text)})
	}
	for _, w := range t.m.Scenario().Warnings() {
		z.doubts = append(z.doubts, result.Warning{Code: w.Code, Text: w.Text})
	}
}

func (z *sizing) fresh(ctx context.Context, x *setting, steps []step, n int) (f freshTrial, err error) {
	f.next = make([]*trial, len(steps))
	if f.record, err = One(x.model, line.Options{Seed: z.o.Seed, Replication: freshFrom + n}); err != nil {
		return f, err
	}
	f.here = z.trialOf(x, f.record)
	for i, s := range steps {
		if s.to == nil || s.to.model == nil || n > StepRuns || ctx.Err() != nil {
			continue
		}
		t, err := z.one(s.to, freshFrom+n)
		if err != nil {
			return f, err
		}
		f.next[i] = &t
	}
	return f, ctx.Err()
}

// step is one step of one dimension.
type step struct {
	result.SizeStep
	to *setting
}

// steps are one less and one more of each dimension.
func (z *sizing) steps(x *setting) (list []step) {
	for i := range z.s.Size.Vary {
		d := &z.s.Size.Vary[i]
		choices := d.Choices()
		for _, by := range []int{-1, 1} {
			word := "less"
			if by > 0 {
				word = "more"
			}
			k := x.choice[i] + by
			s := step{SizeStep: result.SizeStep{Name: d.Name, Step: word, From: choices[x.choice[i]]}}
			if k < 0 || k >= len(choices) {
				s.Why = "not asked about"
				list = append(list, s)
				continue
			}
			choice := slices.Clone(x.choice)
			choice[i] = k
			s.to = z.settings[slices.IndexFunc(z.settings, func(y *setting) bool { return slices.Equal(y.choice, choice) })]
			s.To, s.Number, s.Cost, s.Why = choices[k], s.to.no+1, s.to.cost, s.to.why
			list = append(list, s)
		}
	}
	return list
}

// compare sets a neighbour against what was found, pair by pair.
func (z *sizing) compare(s *step, here, there []trial) {
	if len(there) == 0 {
		return
	}
	var p Pairs
	for i, t := range there {
		p.Add(here[i].mean, t.mean)
	}
	c := chanceOf(there)
	s.Chance, s.Differs, s.Overtime = &c, p.Differences().Estimate(), s.to.overtime.mean(there)
}

// chanceOf is the share of shifts that reach the target, with the interval of Clopper and Pearson (1934) taken with the number of replications,
// which is on the safe side where several shifts of one replication hang together.
func chanceOf(trials []trial) result.Chance {
	_, share := sums(trials)
	n := float64(len(trials))
	low, high := ClopperPearson(float64(share*n), n, Level)
	return result.Chance{Share: share, Low: low, High: high, N: len(trials)}
}

// ClopperPearson is the exact interval of a chance after x successes in n.
func ClopperPearson(x, n, level float64) (low, high float64) {
	a := (1 - level) / 2
	high = 1
	if x > 0 {
		low = distuv.Beta{Alpha: x, Beta: n - x + 1}.Quantile(a)
	}
	if x < n {
		high = distuv.Beta{Alpha: x + 1, Beta: n - x}.Quantile(1 - a)
	}
	digits := func(v float64) float64 { return math.Round(v*1e10) / 1e10 } // the library's last bits depend on the processor
	return digits(low), digits(high)
}
