package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"pascaline/scenarios/units"
)

// sizeCosts: each dimension has its cost in one way, in one currency; people may have it from the money block.
func (c *checker) sizeCosts() {
	label, first := "", ""
	if c.s.Money != nil {
		label, first = c.s.Money.Currency(), "money"
	}
	c.dimensions(func(path string, d *Dimension) {
		c.costWays(path, d)
		for i, m := range append(d.Costs[:len(d.Costs):len(d.Costs)], single(d.CostEach)...) {
			at := path + ".cost_each"
			if i < len(d.Costs) {
				at = fmt.Sprintf("%s.costs[%d]", path, i+1)
			}
			if !slices.Contains([]string{"", "year", "h"}, m.Per) {
				c.fault(at, quote(m.String()), `an amount once, for a year or for an hour, such as "180000 EUR", "52000 EUR/year" or "24 EUR/h"`, "")
			}
			if label == "" {
				label, first = m.Currency, at
			}
			if m.Currency != label {
				c.fault(at, quote(m.String()), fmt.Sprintf("%s, as at %s", label, first), "no rates of exchange are known here; write all amounts in one currency")
			}
		}
	})
}

func single(m *units.Money) []units.Money {
	if m == nil {
		return nil
	}
	return []units.Money{*m}
}

func (c *checker) costWays(path string, d *Dimension) {
	one, each := d.CostEach != nil, len(d.Costs) > 0
	_, numbers := d.Numbers()
	switch {
	case one && each:
		c.fault(path, "cost_each and costs", "one of them", "")
	case each && len(d.Costs) != len(d.Choices()):
		c.fault(path+".costs", fmt.Sprintf("%d amounts", len(d.Costs)), fmt.Sprintf("%d, one for each value", len(d.Choices())), "",
			path+".values", path+".range", path+".variants")
	case one && !numbers:
		c.fault(path+".cost_each", c.said(path+".cost_each"), "costs: one amount for each", "these values are no numbers")
	case !one && !each && !c.s.paidByMoney(d):
		c.fault(path, "no cost", "cost_each or costs", "where it costs nothing: costs with amounts of 0; people may have it from money.people",
			path+".cost_each", path+".costs", "money")
	}
}

// paidByMoney tells whether all fields are people whose hour has its cost in the money block.
func (s *Scenario) paidByMoney(d *Dimension) bool {
	for _, f := range d.Fields {
		pool, _, ok := s.HeadsAt(string(f))
		if !ok || s.Money == nil || !slices.ContainsFunc(s.Money.People, func(p PoolCost) bool { return p.Pool == pool }) {
			return false
		}
	}
	return len(d.Fields) > 0
}

// HeadsAt tells whether a path is the number of people of a pool, in which shift ("" for all the time), and which pool.
func (s *Scenario) HeadsAt(path string) (pool, shift string, ok bool) {
	p := strings.Split(path, ".")
	switch {
	case len(p) == 5 && p[0] == "roster" && p[1] == "shifts" && p[3] == "people":
		return p[4], p[2], true
	case len(p) == 3 && p[0] == "people" && p[2] == "heads":
		return p[1], "", true
	}
	return "", "", false
}
