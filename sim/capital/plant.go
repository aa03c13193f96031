package capital

import (
	"pascaline/scenarios"
)

// Option is one thing that could be done, as a scenario of its own.
type Option struct {
	Name     string
	Kind     string // result's words: "buy", "hire", "change"
	Scenario *scenarios.Scenario
	Buy      *scenarios.Purchase // nil: what the scenario's money says
}

func (o *Option) buy() *scenarios.Purchase {
	if o.Buy != nil {
		return o.Buy
	}
	return o.Scenario.Money.Buy
}

// plant is the line as it stands with its options, and all that is known of money.
type plant struct {
	base    *scenarios.Scenario
	options []Option
	rows    []Row
	weeks   []Week  // what the rosters say; [0] the line as it stands
	last    [][]int // rows of the pools' overtime, by scenario
	guesses []*Guess
	central *Case
}

// newPlant gathers the figures. The error names a figure that cannot be drawn from.
func newPlant(base *scenarios.Scenario, options []Option) (*plant, error) {
	p := &plant{base: base, options: options}
	all := []*scenarios.Scenario{base}
	for _, o := range options {
		all = append(all, o.Scenario)
	}
	p.rows = rowsOf(all)
	p.central = &Case{Options: make([]Side, len(options)), Buys: make([]Buy, len(options))}
	g := gather{at: map[string]*Guess{}}
	longest := longestLife(options)
	for i, s := range all {
		p.weeks = append(p.weeks, week(s, p.rows))
		p.last = append(p.last, lastRows(s, p.rows))
		at := basePlace()
		if i > 0 {
			at = optionPlace(i-1, options[i-1].Name)
			p.central.Buys[i-1] = buyOf(options[i-1].buy())
		}
		side := at.side(p.central)
		side.Prices = fixedPrices(s, p.rows)
		side.Reference = longest
		side.Rate, side.Tax, side.WriteOff, side.PaysIn = p.central.Base.Rate, p.central.Base.Tax, p.central.Base.WriteOff, p.central.Base.PaysIn // one for all options
		side.Week = p.weeks[i]
		for _, k := range knownOf(s, p.rows, at) {
			g.add(at, k)
		}
		for _, k := range p.buysOf(i, at) {
			g.add(at, k)
		}
	}
	p.central.Line = buyOf(base.Money.Line)
	p.guesses = g.guesses
	for _, x := range p.guesses {
		x.set(p.central, x.Central)
	}
	return p, g.err
}

// buysOf are the figures of what is bought: by option i-1, or what the line as it stands cost.
func (p *plant) buysOf(i int, at place) []known {
	cur := p.base.Money.Currency()
	if i == 0 {
		return buys("money.line.", "the line as it stands: ", p.base.Money.Line, cur, func(c *Case) *Buy { return &c.Line })
	}
	return buys("money.buy.", "", p.options[i-1].buy(), cur, at.buy)
}

// longestLife is the longest life of anything that is bought: so long is looked at what buys nothing.
func longestLife(options []Option) int {
	longest := 0
	for i := range options {
		if b := options[i].buy(); b != nil && b.Price.Central() > 0 {
			longest = max(longest, int(b.Life))
		}
	}
	if longest == 0 {
		return 10
	}
	return longest
}

// buyOf is what is certain of a purchase: its life, and the hours that the line stands.
func buyOf(p *scenarios.Purchase) Buy {
	if p == nil {
		return Buy{}
	}
	return Buy{StandsH: p.LineStands.Seconds() / 3600, Life: int(p.Life)}
}

// planned is a purchase with all that its outlay is made of, as planned.
func planned(p *scenarios.Purchase) Buy {
	b := buyOf(p)
	if p != nil {
		b.Price, b.Installation, b.Training = p.Price.Central(), p.Installation.Central(), p.Training.Central()
	}
	return b
}

// fixedPrices are the figures that are never a range.
func fixedPrices(s *scenarios.Scenario, rows []Row) Prices {
	m := s.Money
	p := Prices{
		HourCost: make([]float64, len(rows)), Paid: make([]bool, len(rows)), Premium: float64(m.Overtime), Weeks: float64(m.Weeks),
		Rate: float64(m.DiscountRate), Tax: float64(m.Tax), Endless: m.Demand == nil, PackKg: float64(s.Product.Pack.Mass), PaysIn: float64(m.PaysWithin),
	}
	if m.Depreciation != nil {
		p.WriteOff = int(*m.Depreciation)
	}
	for i, r := range rows {
		p.Paid[i] = true
		for _, x := range m.People {
			if x.Pool == r.Pool {
				p.Paid[i] = x.SavedHours != "not paid"
			}
		}
	}
	return p
}

// fill puts the mean output of a sample into a case; which are the replications taken, nil for all.
func (p *plant) fill(c *Case, s *Sample, which []int) {
	for i := range p.weeks {
		side := &c.Base
		if i > 0 {
			side = &c.Options[i-1]
		}
		side.Week.fill(s.mean(i, which), p.last[i], len(p.rows))
	}
}
