package study

import (
	"math"

	"pascaline/scenarios"
	"pascaline/scenarios/units"
	"pascaline/sim/interest"
)

// What a year costs where no money block says otherwise: its defaults.
const (
	usualRate  = 0.10
	usualWeeks = 50
)

// pricer works out what the choices of a size block cost in a year.
type pricer struct {
	s     *scenarios.Scenario
	rate  float64
	weeks float64
}

func newPricer(s *scenarios.Scenario) *pricer {
	p := &pricer{s, usualRate, usualWeeks}
	if s.Money != nil {
		p.rate, p.weeks = float64(s.Money.DiscountRate), float64(s.Money.Weeks)
	}
	return p
}

// choice is what choice k of a dimension costs in a year: what is bought once is spread over its life at the rate (capital recovery).
func (p *pricer) choice(d *scenarios.Dimension, k int) float64 {
	switch {
	case len(d.Costs) > 0:
		return p.yearly(d, &d.Costs[k], 1)
	case d.CostEach != nil:
		n, _ := d.Numbers()
		return p.yearly(d, d.CostEach, math.Max(0, n[k]-float64(d.Owned)))
	}
	n, _ := d.Numbers()
	sum := 0.0
	for _, f := range d.Fields {
		pool, shift, _ := p.s.HeadsAt(string(f))
		for i := range p.s.Money.People {
			if c := &p.s.Money.People[i]; c.Pool == pool {
				hour := c.In(shift)
				sum += float64(n[k]*hour.Central()) * float64(p.s.WeekHours(shift)*p.weeks)
			}
		}
	}
	return sum
}

func (p *pricer) yearly(d *scenarios.Dimension, m *units.Money, n float64) float64 {
	v := float64(n * m.Value)
	switch m.Per {
	case "year":
		return v
	case "h":
		return float64(v*p.hours(d)) * p.weeks
	}
	return float64(v * interest.AP(p.rate, int(d.Life)))
}

// hours in a week that an hourly cost is paid for: of the shifts whose people the dimension sets, else all rostered hours.
func (p *pricer) hours(d *scenarios.Dimension) float64 {
	sum := 0.0
	for _, f := range d.Fields {
		if _, shift, ok := p.s.HeadsAt(string(f)); ok {
			sum += p.s.WeekHours(shift)
		}
	}
	if sum == 0 {
		sum = p.s.WeekHours("")
	}
	return sum
}
