package capital

import (
	"fmt"
	"strings"

	"pascaline/scenarios"
)

func isBuy(path string) bool { return strings.HasPrefix(path, "money.buy.") }

// figure is one guess of the user's with what to do with its value.
func figure[Q interface{ Number() float64 }](path, says, unit string, g *scenarios.Guess[Q], set func(*Case, float64)) known {
	return known{path, says, unit, g.Law(), g.Central(), set}
}

// knownOf lists the figures of one scenario that belong to a side.
func knownOf(s *scenarios.Scenario, rows []Row, at place) []known {
	m, cur := s.Money, s.Money.Currency()
	side := func(set func(*Side, float64)) func(*Case, float64) {
		return func(c *Case, v float64) { set(at.side(c), v) }
	}
	list := earns(s, cur, side)
	if m.Demand != nil {
		list = append(list,
			figure("money.demand.now", "demand in the first year", "packs/week", &m.Demand.Now, side(func(x *Side, v float64) { x.Demand = v })),
			figure("money.demand.growth", "growth of the demand", "per year", &m.Demand.Growth, side(func(x *Side, v float64) { x.Growth = v })))
	}
	list = append(list,
		figure("money.energy", "energy", cur+"/cycle", m.Energy, side(func(x *Side, v float64) { x.PerCycle.Energy = v })),
		figure("money.water", "water", cur+"/cycle", m.Water, side(func(x *Side, v float64) { x.PerCycle.Water = v })),
		figure("money.wear_parts", "wear parts", cur+"/cycle", m.WearParts, side(func(x *Side, v float64) { x.PerCycle.Wear = v })),
		figure("money.price_rise", "rise of prices and wages", "per year", &m.PriceRise, side(func(x *Side, v float64) { x.Rise = v })))
	return append(list, hourCosts(m, rows, cur, side)...)
}

func earns(s *scenarios.Scenario, cur string, side func(func(*Side, float64)) func(*Case, float64)) []known {
	m, kg := s.Money, float64(s.Product.Pack.Mass)
	if m.TollFee == nil {
		return []known{figure("money.contribution", "contribution", cur+"/pack", m.Contribution, side(func(x *Side, v float64) { x.PerPack = v }))}
	}
	packs := 1.0
	if scenarios.Unit(m.VariableCost) == "kg" {
		packs = kg
	}
	return []known{
		figure("money.toll_fee", "toll fee", cur+"/kg", m.TollFee, side(func(x *Side, v float64) { x.PerPack = float64(v * kg) })),
		figure("money.variable_cost", "variable cost", cur+"/"+or(scenarios.Unit(m.VariableCost), "pack"), m.VariableCost,
			side(func(x *Side, v float64) { x.Variable = float64(v * packs) })),
	}
}

func or(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// hourCosts are the costs of people: one figure for a pool, and one for each shift in which it is another.
func hourCosts(m *scenarios.Money, rows []Row, cur string, side func(func(*Side, float64)) func(*Case, float64)) (list []known) {
	for i := range m.People {
		p := &m.People[i]
		special := map[string]bool{}
		for k := range p.Shifts {
			sh := &p.Shifts[k]
			special[sh.Shift] = true
			list = append(list, figure("money.people."+p.Pool+".shifts."+sh.Shift, fmt.Sprintf("%s in the shift %s", p.Pool, sh.Shift), cur+"/h", &sh.Amount,
				side(setHours(rows, func(r Row) bool { return r.Pool == p.Pool && r.Shift == sh.Shift }))))
		}
		list = append(list, figure("money.people."+p.Pool, p.Pool, cur+"/h", &p.Cost,
			side(setHours(rows, func(r Row) bool { return r.Pool == p.Pool && !special[r.Shift] }))))
	}
	return list
}

func setHours(rows []Row, fits func(Row) bool) func(*Side, float64) {
	return func(x *Side, v float64) {
		for i, r := range rows {
			if fits(r) {
				x.HourCost[i] = v
			}
		}
	}
}

func buys(path, says string, p *scenarios.Purchase, cur string, at func(*Case) *Buy) []known {
	if p == nil {
		return nil
	}
	buy := func(set func(*Buy, float64)) func(*Case, float64) {
		return func(c *Case, v float64) { set(at(c), v) }
	}
	return []known{
		figure(path+"purchase", says+"purchase", cur, p.Price, buy(func(b *Buy, v float64) { b.Price = v })),
		figure(path+"installation", says+"installation", cur, p.Installation, buy(func(b *Buy, v float64) { b.Installation = v })),
		figure(path+"training", says+"training", cur, p.Training, buy(func(b *Buy, v float64) { b.Training = v })),
		figure(path+"maintenance", says+"maintenance", cur+"/year", p.Maintenance, buy(func(b *Buy, v float64) { b.Upkeep = v })),
		figure(path+"rest_value", says+"rest value", cur, p.RestValue, buy(func(b *Buy, v float64) { b.Rest = v })),
	}
}
