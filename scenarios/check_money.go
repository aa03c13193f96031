package scenarios

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"pascaline/scenarios/units"
)

var moneyRules = []func(*checker){
	(*checker).amountsFor, (*checker).oneCurrency, (*checker).earnings, (*checker).massKnown, (*checker).costPools,
	(*checker).purchases, (*checker).hoursCost,
}

// amounts visits every amount of money with its path and field.
func (m *Money) amounts(visit func(path string, a *Amount, f *field)) {
	walk("money", reflect.ValueOf(m).Elem(), func(path string, v reflect.Value, f *field) {
		switch x := v.Addr().Interface().(type) {
		case *Amount:
			visit(path, x, f)
		case *ShiftCost:
			visit(path, &x.Amount, &field{tag: `per:"h"`})
		}
	})
}

func (c *checker) amounts(visit func(path string, a *Amount, f *field)) {
	if c.s.Money != nil {
		c.s.Money.amounts(visit)
	}
}

// amountsFor sees to it that each amount is for each of what its field counts.
func (c *checker) amountsFor() {
	c.amounts(func(path string, a *Amount, f *field) {
		per := words(f.tag.Get("per"))
		for _, p := range a.parts() {
			if slices.Contains(per, p.value.Per) || p.value.Per == "" && slices.Contains(per, "-") {
				continue
			}
			c.fault(within(path, p.field), quote(p.value.String()), perWanted(per), "")
		}
		if parts := a.parts(); len(parts) > 1 && slices.ContainsFunc(parts, func(p part[units.Money]) bool { return p.value.Per != parts[0].value.Per }) {
			c.fault(path, "amounts for different things", "one thing for all of them", "")
		}
	})
}

// oneCurrency: a currency is a label, so two of them cannot be added up.
func (c *checker) oneCurrency() {
	label, first := "", ""
	c.amounts(func(path string, a *Amount, _ *field) {
		for _, p := range a.parts() {
			at := within(path, p.field)
			if label == "" {
				label, first = p.value.Currency, at
			}
			if p.value.Currency != label {
				c.fault(at, quote(p.value.String()), fmt.Sprintf("%s, as at %s", label, first), "no rates of exchange are known here; write all amounts in one currency")
			}
		}
	})
}

// perWanted says what an amount must be for.
func perWanted(per []string) string {
	if slices.Contains(per, "-") {
		return `an amount for all of it, such as "180000 EUR"`
	}
	ends := make([]string, len(per))
	for i, p := range per {
		ends[i] = fmt.Sprintf("%q", "24 EUR/"+p)
	}
	return "an amount for each " + orList(per) + ", such as " + orList(ends)
}

func within(path, field string) string {
	if field == "" {
		return path
	}
	return join(path, field)
}

func (c *checker) earnings() {
	m := c.s.Money
	switch {
	case m == nil:
	case m.Contribution != nil && m.TollFee != nil:
		c.fault("money.toll_fee", "a contribution and a toll fee", "one of the two", "the contribution of a pack is what it leaves already")
	case m.VariableCost != nil && m.TollFee == nil:
		c.fault("money.variable_cost", c.said("money.variable_cost"), "a toll_fee beside it", "a contribution is what is left when it is paid already", "money.toll_fee")
	}
}

// massKnown: money for a kilogram needs the mass of a pack.
func (c *checker) massKnown() {
	c.amounts(func(path string, a *Amount, f *field) {
		if Unit(a) == "kg" && slices.Contains(words(f.tag.Get("per")), "kg") && c.s.Product.Pack.Mass == 0 {
			c.fault(path, quote(a.parts()[0].value.String()), "product.pack.mass beside it", "packs are counted, kilograms come from their mass", "product.pack.mass")
		}
	})
}

func (c *checker) costPools() {
	if c.s.Money == nil {
		return
	}
	pools := c.poolNames()
	var shifts []string
	if c.s.Roster != nil {
		for _, sh := range c.s.Roster.Shifts {
			shifts = append(shifts, sh.Name)
		}
	}
	for _, p := range c.s.Money.People {
		path := "money.people." + p.Pool
		if !slices.Contains(pools, p.Pool) {
			c.fault(path, quote(p.Pool), c.poolWanted(), c.poolHint(p.Pool), "people")
		}
		for _, sh := range p.Shifts {
			if !slices.Contains(shifts, sh.Shift) {
				c.fault(path+".shifts."+sh.Shift, quote(sh.Shift), c.shiftWanted(shifts), didYouMean(sh.Shift, shifts), "roster")
			}
		}
	}
}

func (c *checker) shiftWanted(shifts []string) string {
	if len(shifts) == 0 {
		return "a shift of the roster, where there is none"
	}
	return "a shift of the roster: " + orList(shifts)
}

func (c *checker) purchases() {
	m := c.s.Money
	if m == nil {
		return
	}
	for _, x := range []struct {
		name string
		p    *Purchase
	}{{"money.line", m.Line}, {"money.buy", m.Buy}} {
		name, p := x.name, x.p
		if p == nil || p.RestValue == nil || p.RestValue.Law().MeanUsed() <= p.Price.Law().MeanUsed() {
			continue
		}
		c.fault(name+".rest_value", c.said(name+".rest_value"), "at most what it costs to buy", "", name+".purchase")
	}
}

// hoursCost warns of people whose hours cost nothing.
func (c *checker) hoursCost() {
	if c.s.Money == nil || len(c.s.Money.People) == 0 {
		return
	}
	var free []string
	for _, p := range c.poolNames() {
		if !slices.ContainsFunc(c.s.Money.People, func(x PoolCost) bool { return x.Pool == p }) {
			free = append(free, p)
		}
	}
	if len(free) > 0 {
		c.warn("hours without a cost", fmt.Sprintf("money.people: nothing is said of %s; their hours cost nothing here", strings.Join(free, ", ")))
	}
}
