package capital

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pascaline/scenarios"
	"pascaline/scenarios/units"
	"pascaline/sim/result"
)

const (
	mostSeveral = 0.001 // share of draws with several internal rates above which it is told
	mostNever   = 0.9   // and of an option that never pays nobody asks for its rate
)

// warnings are the doubts that travel with the answer.
func (p *plant) warnings(s *Sample, r *result.Payback, outcomes []Outcome) []result.Warning {
	list := []result.Warning{}
	add := func(code, text string) { list = append(list, result.Warning{Code: code, Text: text}) }
	b := &p.central.Base
	if p.base.Roster == nil {
		add("no roster", "There is no roster: a week is taken as 168 hours, all of them worked and paid.")
	}
	if b.Endless {
		add("no demand", "money.demand is not stated: all that is made is taken as sold. Extra output that nobody buys earns nothing.")
	} else if b.Sold(1) < b.Packs {
		add("demand met", fmt.Sprintf("The line as it stands already makes what can be sold in the first year (%.0f packs a week of %.0f): extra output earns nothing until the demand has grown.",
			b.Demand, b.Packs))
	}
	if s.Replication < 2 {
		add("no doubt of the simulation", "One replication says nothing about chance: the ranges show only what you said of money.")
	}
	if s.StoppedBy == "cap" {
		add("cap reached", fmt.Sprintf("The replications ended at the cap of %d before each gain was known to a tenth.", Most))
	}
	for i := range p.options {
		if ownRate(p.base, p.options[i].Scenario) {
			add("one rate for all", fmt.Sprintf("%s: discount_rate, tax, depreciation and pays_within hold for all options alike; those of the variant are not used.", p.options[i].Name))
		}
		g := s.gain(i + 1)
		if h, ok := g.Half(); ok && math.Abs(g.Mean()) <= h {
			add("no difference shown", fmt.Sprintf("%s: no difference in output is shown: 0 lies within the interval of the gain.", p.options[i].Name))
		}
		if share := outcomes[i].Several(); share > mostSeveral && outcomes[i].NeverPays() < mostNever {
			add("rate not unique", fmt.Sprintf("%s: in %.1f %% of the draws there is more than one internal rate; they are left out of its range.", p.options[i].Name, 100*share))
		}
	}
	told := p.unpaid(p.base, &p.central.Base, nil)
	if len(told) > 0 {
		add("hours without a cost", fmt.Sprintf("money.people says nothing of %s: their hours cost nothing here.", strings.Join(told, ", ")))
	}
	for i := range p.options {
		if free := p.unpaid(p.options[i].Scenario, &p.central.Options[i], told); len(free) > 0 {
			add("hours without a cost", fmt.Sprintf("%s: money.people says nothing of %s: their hours cost nothing here.", p.options[i].Name, strings.Join(free, ", ")))
		}
	}
	said := map[string]bool{}
	for i, sc := range append([]*scenarios.Scenario{p.base}, scenariosOf(p.options)...) {
		for _, w := range sc.Warnings() {
			if w.Code == "hours without a cost" || said[w.Text] { // told above, or of the line as it stands already
				continue
			}
			said[w.Text] = true
			if i > 0 {
				w.Text = p.options[i-1].Name + ": " + w.Text
			}
			add(w.Code, w.Text)
		}
	}
	return list
}

// ownRate tells whether an option states what holds for all of them alike otherwise than the line as it stands.
func ownRate(base, option *scenarios.Scenario) bool {
	a, b := base.Money, option.Money
	years := func(y *units.Years) units.Years {
		if y == nil {
			return 0
		}
		return *y
	}
	return a.DiscountRate != b.DiscountRate || a.Tax != b.Tax || a.PaysWithin != b.PaysWithin || years(a.Depreciation) != years(b.Depreciation)
}

func scenariosOf(options []Option) (all []*scenarios.Scenario) {
	for _, o := range options {
		all = append(all, o.Scenario)
	}
	return all
}

// unpaid are the pools of a side whose hours have no cost, but for those that were told of.
func (p *plant) unpaid(s *scenarios.Scenario, side *Side, told []string) (pools []string) {
	for _, x := range s.People {
		cost := 0.0
		for i, r := range p.rows {
			if r.Pool == x.Name {
				cost += side.HourCost[i]
			}
		}
		if cost == 0 && !slices.Contains(told, x.Name) {
			pools = append(pools, x.Name)
		}
	}
	return pools
}
