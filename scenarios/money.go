package scenarios

import "pascaline/scenarios/units"

// Money is what the line earns and costs. All amounts are in one currency, which is a label and nothing more. Prices are
// those of the first year. What a variant adds to the line stands in the variant, under money.buy.
type Money struct {
	Contribution *Amount     `yaml:"contribution" per:"pack" doc:"what a pack that is sold leaves when all is paid but the costs of this line that stand below"`
	TollFee      *Amount     `yaml:"toll_fee" per:"kg" doc:"or: what customers pay for the treatment of a kilogram"`
	VariableCost *Amount     `yaml:"variable_cost" per:"kg|pack" with:"toll_fee" doc:"what a treated kilogram or pack costs besides the costs of this line that stand below (default: nothing)"`
	Demand       *Demand     `yaml:"demand" doc:"what can be sold; output above it earns nothing"`
	Weeks        units.Count `yaml:"weeks_per_year" default:"50" least:"1" most:"53" noun:"weeks" doc:"weeks of a year in which the roster is worked"`
	People       PoolCosts   `yaml:"people" doc:"what an hour of one person costs, by pool"`
	Overtime     units.Share `yaml:"overtime" default:"0 %" doc:"what an hour of overtime costs above another hour"`
	Energy       *Amount     `yaml:"energy" per:"cycle" doc:"energy for a vessel cycle (default: nothing)"`
	Water        *Amount     `yaml:"water" per:"cycle" doc:"water for a vessel cycle (default: nothing)"`
	WearParts    *Amount     `yaml:"wear_parts" per:"cycle" doc:"seals, valves and other wear for a vessel cycle (default: nothing)"`
	Line         *Purchase   `yaml:"line" doc:"the line as it stands: for the cost per kg only, never part of what an option pays back"`
	Buy          *Purchase   `yaml:"buy" doc:"what a variant adds to the line"`

	DiscountRate units.Percent `yaml:"discount_rate" default:"10 %" least:"0 %" most:"100 %" doc:"what money costs in a year"`
	Tax          units.Share   `yaml:"tax" default:"0 %" most:"90 %" doc:"tax on the gain; a loss saves it elsewhere"`
	Depreciation *units.Years  `yaml:"depreciation" doc:"years of straight-line depreciation for tax (default: the life)"`
	PriceRise    RateGuess     `yaml:"price_rise" default:"0 %" doc:"how much all prices and wages rise in a year"`
	PaysWithin   units.Years   `yaml:"pays_within" default:"3 years" doc:"the payback time that is asked for"`
}

// Demand is what can be sold in a week of the first year, and how it grows.
type Demand struct {
	Now    SoldGuess `yaml:"now" need:"yes" doc:"packs that can be sold in a week of the first year"`
	Growth RateGuess `yaml:"growth" default:"0 %" doc:"how much more in each year than in the year before"`
}

// Purchase is something that is bought, what it costs to have it and how long it lives.
type Purchase struct {
	Price        *Amount        `yaml:"purchase" per:"-" doc:"what it costs (default: nothing is bought)"`
	Installation *Amount        `yaml:"installation" per:"-" doc:"freight, foundations, connections, approval (default: nothing)"`
	Training     *Amount        `yaml:"training" per:"-" doc:"training of people (default: nothing)"`
	LineStands   units.Duration `yaml:"line_stands" default:"0 s" doc:"hours of the roster in which nothing is made while it is installed"`
	Maintenance  *Amount        `yaml:"maintenance" per:"year" doc:"upkeep in a year (default: nothing)"`
	Life         units.Years    `yaml:"life" default:"10 years" doc:"how long it is used"`
	RestValue    *Amount        `yaml:"rest_value" per:"-" doc:"what it is worth at the end of its life (default: nothing)"`
}

// PoolCosts are the costs of people, in the order in which they are written.
type PoolCosts []PoolCost

// PoolCost is what an hour of one person of a pool costs. As one word: "24 EUR/h".
type PoolCost struct {
	Pool       string     `yaml:"-"`
	Cost       Amount     `yaml:"cost" need:"yes" per:"h" doc:"for one person and rostered hour, all in"`
	Shifts     ShiftCosts `yaml:"shifts" doc:"shifts in which it is another (default: the same in all)"`
	SavedHours units.Word `yaml:"saved_hours" choices:"paid all the same|not paid" default:"paid all the same" doc:"hours that are no longer needed: only those that are really not paid earn anything"`
}

// ShiftCosts are costs by shift, in the order in which they are written.
type ShiftCosts []ShiftCost

// ShiftCost is what an hour of one person costs in one shift.
type ShiftCost struct {
	Shift string `yaml:"-"`
	Amount
}

// In is what an hour costs in a shift of that name.
func (c *PoolCost) In(shift string) Amount {
	for _, s := range c.Shifts {
		if s.Shift == shift {
			return s.Amount
		}
	}
	return c.Cost
}

// Currency is the label of all amounts, or "" where there are none.
func (m *Money) Currency() string {
	label := ""
	m.amounts(func(_ string, a *Amount, _ *field) {
		for _, x := range a.parts() {
			if label == "" {
				label = x.value.Currency
			}
		}
	})
	return label
}
