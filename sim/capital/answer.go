package capital

import (
	"context"
	"fmt"

	"pascaline/scenarios"
	"pascaline/sim/line"
	"pascaline/sim/result"
	"pascaline/sim/study"
)

// Question is what is asked: a line, and what could be done to it.
type Question struct {
	Base    *scenarios.Scenario
	Options []Option
	// Together reads the file with several variants laid over it, and Instead tells in which fields two variants contradict each other.
	Together func(names []string) (*scenarios.Scenario, error)
	Instead  func(a, b string) []string
	Draws    int // of all that is not known
}

// Draws is how often what is not known is drawn unless told: a chance of 10 % is then known to 0.8 points.
const Draws = 5000

// Check says what the question lacks.
func (q *Question) Check() error {
	m := q.Base.Money
	outside := Buy{}
	if m != nil {
		outside = planned(m.Buy)
	}
	switch {
	case m == nil:
		return fmt.Errorf("there is no money block; payback needs what a pack earns and what an option costs")
	case m.Contribution == nil && m.TollFee == nil:
		return fmt.Errorf("money says neither contribution nor toll_fee; payback needs what a pack that is sold leaves")
	case m.Buy != nil && m.Buy.Price != nil:
		return fmt.Errorf("money.buy.purchase stands outside the variants; the line as it stands is not bought again: write it in a variant, and under money.line what the line cost")
	case !outside.Empty():
		return fmt.Errorf("money.buy stands outside the variants with installation, training or line_stands; the line as it stands buys nothing: write them in a variant")
	case len(q.Options) == 0:
		return fmt.Errorf("there are no variants; write each thing that could be bought as one, with money.buy.purchase")
	case q.Base.Run.OneReplication.UntilFinished:
		return fmt.Errorf("run.one_replication is until finished; payback needs what the line makes by its roster: day or week")
	}
	return nil
}

// Study answers it. An interrupted study gives what was done, marked incomplete.
func Study(ctx context.Context, q *Question, o study.Options) (*result.Payback, error) {
	p, err := newPlant(q.Base, q.Options)
	if err != nil {
		return nil, err
	}
	models, err := modelsOf(q.Base, q.Options)
	if err != nil {
		return nil, err
	}
	s, err := run(ctx, models, o)
	if err != nil {
		return nil, err
	}
	if s.Replication == 0 {
		return nil, context.Cause(ctx)
	}
	p.fill(p.central, s, nil)
	r := p.frame(s, o, q.Draws)
	outcomes := p.draws(s, o.Seed, q.Draws)
	r.Options = append(r.Options, p.nothing(s))
	for i := range p.options {
		r.Options = append(r.Options, p.option(i, s, &outcomes[i]))
	}
	interrupted := false
	if !s.Incomplete {
		if r.Order, interrupted, err = order(ctx, q, p, s, o); err != nil {
			return nil, err
		}
	}
	r.Warnings = p.warnings(s, r, outcomes)
	if interrupted {
		r.Replications.Incomplete = true
		r.Warnings = append(r.Warnings, result.Warning{Code: "interrupted",
			Text: "The search for the order of buying was interrupted: what else would pay beside what is listed there was not looked at."})
	}
	return r, nil
}

func modelsOf(base *scenarios.Scenario, options []Option) ([]*line.Model, error) {
	m, err := line.New(base)
	if err != nil {
		return nil, err
	}
	models := []*line.Model{m}
	for _, x := range options {
		if m, err = line.New(x.Scenario); err != nil {
			return nil, fmt.Errorf("%s: %w", x.Name, err)
		}
		models = append(models, m)
	}
	return models, nil
}

// frame is all but the options.
func (p *plant) frame(s *Sample, o study.Options, draws int) *result.Payback {
	b := &p.central.Base
	r := &result.Payback{
		Head: result.NewHead(result.KindPayback), Scenario: string(p.base.Name), Note: string(p.base.Note), ScenarioHash: p.base.Hash(), Seed: o.Seed,
		Draws: draws, Currency: p.base.Money.Currency(), Unit: unitOf(b), Asked: b.PaysIn,
		Order: result.Order{Steps: []result.OrderStep{}}, Figures: []result.MoneyFigure{}, Assumptions: []result.Assumption{},
		Warnings: []result.Warning{}, Cautions: []string{},
	}
	asked := "auto"
	if o.Replications > 0 {
		asked = fmt.Sprint(o.Replications)
	}
	r.Replications = result.Replications{N: s.Replication, Asked: asked, StoppedBy: s.StoppedBy, Precision: o.Precision,
		LengthH: s.LengthH, RosteredHoursH: s.RosteredH, Incomplete: s.Incomplete}
	r.Base = result.PaybackBase{PacksPerH: s.packs(0).Estimate(), Side: p.side(b), Sold: float64(b.Sold(1) * b.Weeks), Cost: costOf(b, nil, p.central.Line)}
	if !b.Endless {
		r.Base.Wanted = float64(b.Demand * b.Weeks)
	}
	for _, g := range p.guesses {
		if g.Known() && g.Central == 0 {
			continue
		}
		f := result.MoneyFigure{Path: g.Path, Says: g.Says, Unit: g.Unit, Central: g.Central, P10: g.Quantile(0.1), P90: g.Quantile(0.9), Range: !g.Known()}
		f.Low, f.High = g.bounds()
		r.Figures = append(r.Figures, f)
	}
	r.Assumptions = append(r.Assumptions, study.Assumed(p.base)...)
	return r
}

// option is what the central case and the draws say of option i.
func (p *plant) option(i int, s *Sample, o *Outcome) result.PaybackOption {
	c := p.central
	side, buy := &c.Options[i], &c.Buys[i]
	x := result.PaybackOption{
		Name: p.options[i].Name, Kind: p.options[i].Kind, PacksPerH: s.packs(i + 1).Estimate(), Gain: s.gain(i + 1).Estimate(),
		Sold: float64(side.Sold(1) * side.Weeks), Side: p.side(side), Buy: p.purchase(i), Central: verdict(c.Flows(i), c.Base.Rate),
		NPV: spread(o.NPV), IRR: spread(o.IRR), PaybackYears: spread(o.Payback), Discounted: spread(o.Discounted),
		NeverPays: o.NeverPays(), InTime: o.InTime(c.Base.PaysIn), LowDemand: p.at60(i), Cost: costOf(side, &c.Base, c.Line, *buy),
	}
	for _, l := range c.Base.Lines(side, buy) {
		x.Lines = append(x.Lines, result.PaybackYear(l))
	}
	central := c.Flows(i).Sums()
	for t, sums := range o.Sums {
		v := inOrder(sums)
		x.Band = append(x.Band, result.BandYear{Year: t, Central: central[t], P10: *ranked(v, 0.1), P50: *ranked(v, 0.5), P90: *ranked(v, 0.9)})
	}
	x.BreakEven = p.breakEven(i, p.base.Money.Currency())
	x.Tornado = p.tornado(i, s.gain(i+1))
	return x
}

// nothing is the option that is always there.
func (p *plant) nothing(s *Sample) result.PaybackOption {
	zero := 0.0
	all := result.Range{P10: &zero, P50: &zero, P90: &zero}
	b := &p.central.Base
	return result.PaybackOption{
		Name: Nothing, Kind: Nothing, PacksPerH: s.packs(0).Estimate(), Gain: s.gain(0).Estimate(), Sold: float64(b.Sold(1) * b.Weeks),
		Side: p.side(b), Central: result.Verdict{Rates: []float64{}}, NPV: all, Cost: costOf(b, nil, p.central.Line),
		Lines: []result.PaybackYear{}, Band: []result.BandYear{}, BreakEven: []result.BreakEven{}, Tornado: []result.Swing{},
	}
}

func (p *plant) purchase(i int) result.Purchase {
	b, base := &p.central.Buys[i], &p.central.Base
	return result.Purchase{Price: b.Price, Installation: b.Installation, Training: b.Training, StandsH: b.StandsH, LostPacks: base.Lost(b),
		LostMoney: base.lostMoney(b), Upkeep: b.Upkeep, Rest: b.Rest, Life: b.Life, Years: base.Years(b)}
}

func (p *plant) side(s *Side) result.MoneySide {
	x := result.MoneySide{
		PacksPerWeek: s.Packs, CyclesPerWeek: s.Cycles, RosteredH: s.Rostered, People: []result.HourCost{}, PerPack: s.PerPack, Variable: s.Variable,
		Energy: s.PerCycle.Energy, Water: s.PerCycle.Water, Wear: s.PerCycle.Wear, Demand: s.Demand, Endless: s.Endless, Growth: s.Growth, Rise: s.Rise,
		Weeks: s.Weeks, Premium: s.Premium, Rate: s.Rate, Tax: s.Tax, WriteOff: s.WriteOff, PackKg: s.PackKg,
	}
	for i, r := range p.rows {
		x.People = append(x.People, result.HourCost{Pool: r.Pool, Shift: r.Shift, HoursWeek: s.Hours[i], OvertimeH: s.Overtime[i],
			Cost: s.HourCost[i], PaidAll: s.Paid[i]})
	}
	return x
}

func costOf(s, base *Side, owned ...Buy) *result.CostSplit {
	c := s.CostPerUnit(base, owned...)
	return &result.CostSplit{Capital: c.Capital, People: c.People, Energy: c.Energy, Water: c.Water, Wear: c.Wear, Upkeep: c.Upkeep, Sum: c.Sum()}
}
