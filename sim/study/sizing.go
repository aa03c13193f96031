package study

import (
	"cmp"
	"context"
	"slices"

	"pascaline/scenarios"
	"pascaline/sim/line"
	"pascaline/sim/result"
)

// How much a search simulates.
const (
	MostTrials = 2000 // replications of one setting before it is given up as not told apart from the target
	FreshRuns  = 400  // replications with which what was found is estimated again: a chance near 10 % is known to 3 points then
	StepRuns   = 100  // of them, those with which each step less and more is compared
	// freshFrom is the number before the first of these replications. The search never comes so far, so they are random numbers that it
	// has not seen.
	freshFrom = 1_000_000
)

// Size looks for the cheapest setting of a scenario's size block that meets its target. Settings that the hand check rules out are not simulated; the
// others are judged one after another, cheapest first, all with the same random numbers, until one meets (see judgeOf for how sure that is);
// dearer ones are simulated briefly for the frontier. What was found is estimated again with fresh random numbers. An interrupted search
// gives what was done, marked incomplete. The error is a NoShift or a fault of this program.
func Size(ctx context.Context, s *scenarios.Scenario, o Options) (*result.Sizing, error) {
	z := &sizing{s: s, o: o, m: newYardstick(s, &s.Size.Target), prices: newPricer(s), r: &result.Sizing{
		Head: result.NewHead(result.KindSizing), Scenario: string(s.Name), Note: string(s.Note), Seed: o.Seed, ScenarioHash: s.Hash(), Rostered: s.Roster != nil,
		Settings: []result.Setting{}, Frontier: []int{}, Steps: []result.SizeStep{}, Warnings: []result.Warning{}, Assumptions: []result.Assumption{},
	}}
	if err := z.m.check(); err != nil {
		return nil, err
	}
	z.list()
	z.head()
	err := z.search(ctx)
	if err == nil && !z.r.Incomplete {
		err = z.briefly(ctx)
	}
	if err == nil && z.found() != nil {
		err = z.again(ctx)
	}
	if err != nil {
		return nil, err
	}
	z.finish()
	return z.r, nil
}

// sizing is a search of settings in the making.
type sizing struct {
	s        *scenarios.Scenario
	o        Options
	m        *yardstick
	prices   *pricer
	r        *result.Sizing
	settings []*setting // cheapest first
	chosen   *setting
	done     int
	doubts   []result.Warning // of the setting that was found
	unpaid   []string         // pools whose overtime there has no cost
}

// setting is one choice of everything.
type setting struct {
	choice   []int
	cost     float64
	ceiling  float64
	by       string // the station that sets the ceiling
	model    *line.Model
	overtime overtimePay
	measure  *yardstick
	why      string // no line can be built of it
	fate     string
	candidate
}

// list makes all settings, cheapest first, and tells at once what cannot be built or cannot meet.
func (z *sizing) list() {
	choice := make([]int, len(z.s.Size.Vary))
	for {
		x := &setting{choice: slices.Clone(choice)}
		for i := range z.s.Size.Vary {
			x.cost += z.prices.choice(&z.s.Size.Vary[i], choice[i])
		}
		z.settings = append(z.settings, x)
		if !z.next(choice) {
			break
		}
	}
	slices.SortStableFunc(z.settings, func(a, b *setting) int { return cmp.Compare(a.cost, b.cost) })
	for i, x := range z.settings {
		x.no = i
		z.build(x)
	}
}

// next counts the choices on like the digits of a number, the last first.
func (z *sizing) next(choice []int) bool {
	for i := len(choice) - 1; i >= 0; i-- {
		if choice[i]++; choice[i] < len(z.s.Size.Vary[i].Choices()) {
			return true
		}
		choice[i] = 0
	}
	return false
}

func (z *sizing) build(x *setting) {
	s, faults := z.s.Setting(x.choice)
	if len(faults) > 0 {
		x.fate, x.why = result.FateNotBuilt, faults[0].Path+": found "+faults[0].Found+", want "+faults[0].Want
		return
	}
	m, err := line.New(s)
	if err != nil {
		x.fate, x.why = result.FateNotBuilt, err.Error()
		return
	}
	x.measure = newYardstick(s, &z.s.Size.Target)
	if err := x.measure.check(); err != nil {
		x.fate, x.why = result.FateNotBuilt, err.Error()
		return
	}
	x.model, x.overtime = m, z.prices.overtime(s)
	x.ceiling, x.by = ceiling(s, &z.s.Size.Target)
	if x.ceiling > 0 && x.ceiling < z.m.rule.low() {
		x.fate = result.FateByHand
	}
}

// open are the settings that are left to be simulated.
func (z *sizing) open() (list []*setting) {
	for _, x := range z.settings {
		if x.fate == "" {
			list = append(list, x)
		}
	}
	return list
}

func (z *sizing) search(ctx context.Context) error {
	open := z.open()
	s := &searcher{rule: z.m.rule, k: len(open), most: MostTrials, sample: z.sample, done: z.judged}
	var list []*candidate
	for _, x := range open {
		list = append(list, &x.candidate)
	}
	found, interrupted, err := s.cheapest(ctx, list)
	z.r.Incomplete = interrupted
	if found != nil {
		z.chosen = z.settings[found.no]
		z.chosen.fate = result.FateChosen
	}
	return err
}

// judged notes what became of a setting.
func (z *sizing) judged(c *candidate) {
	x := z.settings[c.no]
	switch c.verdict {
	case fails:
		x.fate = result.FateFails
	case undecided:
		x.fate = result.FateNotApart
	}
	z.step()
}

func (z *sizing) step() {
	z.done++
	if z.o.Progress != nil {
		z.o.Progress(z.done, float64(len(z.settings)))
	}
}

// sample makes trials of a setting: replications first, first+1, … of it.
func (z *sizing) sample(ctx context.Context, no, first, n int) (trials []trial, interrupted bool, err error) {
	interrupted, err = inOrder(ctx, z.o.Workers, n, func(_ context.Context, i int) (trial, error) {
		return z.one(z.settings[no], first+i-1)
	}, func(t trial) bool {
		trials = append(trials, t)
		return true
	})
	return trials, interrupted, err
}

func (z *sizing) one(x *setting, replication int) (trial, error) {
	rec, err := One(x.model, line.Options{Seed: z.o.Seed, Replication: replication})
	if err != nil {
		return trial{}, err
	}
	return z.trialOf(x, rec), nil
}

// trialOf is what a record of a setting says.
func (z *sizing) trialOf(x *setting, r *line.Record) trial {
	t := x.measure.trial(r)
	t.pay = x.overtime.of(r)
	return t
}

// briefly simulates the settings that cost more than the chosen one, for the frontier only.
func (z *sizing) briefly(ctx context.Context) error {
	open := z.open()
	if len(open) == 0 {
		return nil
	}
	i := 0
	interrupted, err := inOrder(ctx, z.o.Workers, len(open), func(ctx context.Context, n int) (trials []trial, err error) {
		for r := 1; r <= batch && ctx.Err() == nil; r++ {
			t, err := z.one(open[n-1], r)
			if err != nil {
				return nil, err
			}
			trials = append(trials, t)
		}
		return trials, nil
	}, func(trials []trial) bool {
		open[i].trials, open[i].fate = trials, result.FateDearer
		i++
		z.step()
		return true
	})
	z.r.Incomplete = interrupted
	return err
}

// found is the chosen setting or, where nothing meets, the one that came nearest.
func (z *sizing) found() *setting {
	if z.chosen != nil {
		return z.chosen
	}
	var best *setting
	for _, x := range z.settings {
		if len(x.trials) > 0 && (best == nil || z.nearer(x, best)) {
			best = x
		}
	}
	return best
}

// nearer tells whether a came nearer to the target than b.
func (z *sizing) nearer(a, b *setting) bool {
	ma, ra := sums(a.trials)
	mb, rb := sums(b.trials)
	if z.m.rule.share > 0 && ra != rb {
		return ra > rb
	}
	return ma.Mean() > mb.Mean()
}

// sums are the means of the trials, and the share that reached the target.
func sums(trials []trial) (made Sample, reached float64) {
	var full Sample
	for _, t := range trials {
		made, full = append(made, t.mean), append(full, t.full)
	}
	return made, full.Mean()
}

// values are the choices of a setting in words, one for each dimension.
func (z *sizing) values(x *setting) (values []string) {
	for i, k := range x.choice {
		values = append(values, z.s.Size.Vary[i].Choices()[k])
	}
	return values
}
