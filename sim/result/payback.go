package result

// Payback is the case for capital: what each option costs, what it brings, and how sure that is. All money is in one currency and,
// but for the flows of later years, in prices of the first year.
type Payback struct {
	Head
	Scenario     string          `json:"scenario"`
	Note         string          `json:"note,omitempty"`
	ScenarioHash string          `json:"scenario_hash"`
	Seed         uint64          `json:"seed"`
	Replications Replications    `json:"replications"`
	Draws        int             `json:"draws"` // of the user's ranges and of the simulation's doubt together
	Currency     string          `json:"currency"`
	Unit         string          `json:"unit"` // what costs are split by: "kg" or "pack"
	Question     string          `json:"question"`
	Answer       string          `json:"answer"`
	Doubt        string          `json:"doubt"`
	Asked        float64         `json:"asked_payback_years"`
	Base         PaybackBase     `json:"base"`
	Options      []PaybackOption `json:"options"`
	Order        Order           `json:"order"`
	Figures      []MoneyFigure   `json:"figures"` // what the user said of money
	Assumptions  []Assumption    `json:"assumptions"`
	Warnings     []Warning       `json:"warnings"`
	Cautions     []string        `json:"cautions"`
}

// PaybackBase is the line as it stands.
type PaybackBase struct {
	PacksPerH Estimate   `json:"finished_packs_per_h"`
	Side      MoneySide  `json:"side"`
	Sold      float64    `json:"sold_packs_year_1"`
	Wanted    float64    `json:"wanted_packs_year_1"` // 0: all that is made
	Cost      *CostSplit `json:"cost"`
}

// PaybackOption is one thing that could be done instead of leaving the line as it stands.
type PaybackOption struct {
	Name         string        `json:"name"`
	Kind         string        `json:"kind"` // "do nothing", "buy", "hire", "change"
	PacksPerH    Estimate      `json:"finished_packs_per_h"`
	Gain         Estimate      `json:"gain_packs_per_week"` // paired difference to the line as it stands, each in a week of its own roster
	Sold         float64       `json:"sold_packs_year_1"`
	Side         MoneySide     `json:"side"`
	Buy          Purchase      `json:"buy"`
	Lines        []PaybackYear `json:"years"` // the central case, year 0 first
	Central      Verdict       `json:"central"`
	NPV          Range         `json:"npv"`
	IRR          Range         `json:"irr"` // null: none
	PaybackYears Range         `json:"payback_years"`
	Discounted   Range         `json:"discounted_payback_years"`
	NeverPays    float64       `json:"never_pays"`   // share of draws in which it is not paid back in its life
	InTime       float64       `json:"pays_in_time"` // share of draws in which it is paid back in the asked time
	Band         []BandYear    `json:"band"`         // of the sums of cash flows
	BreakEven    []BreakEven   `json:"break_even"`
	Tornado      []Swing       `json:"tornado"`
	LowDemand    *Verdict      `json:"at_60_percent_of_demand,omitempty"`
	Cost         *CostSplit    `json:"cost"`
}

// Verdict is what cash flows come to.
type Verdict struct {
	NPV        float64   `json:"npv"`
	Payback    *float64  `json:"payback_years"` // null: never in its life
	Discounted *float64  `json:"discounted_payback_years"`
	Rates      []float64 `json:"internal_rates"` // all of them; with more than one none is the rate of return
	MIRR       *float64  `json:"modified_internal_rate,omitempty"`
	Annual     float64   `json:"equivalent_annual_worth"` // for options of unequal lives
}

// Range is where a figure lies in the draws. Null stands for what has no number: never, or none.
type Range struct {
	P10 *float64 `json:"p10"`
	P50 *float64 `json:"p50"`
	P90 *float64 `json:"p90"`
}

// BandYear is where the sum of the cash flows lies at the end of a year.
type BandYear struct {
	Year    int     `json:"year"`
	Central float64 `json:"central"`
	P10     float64 `json:"p10"`
	P50     float64 `json:"p50"`
	P90     float64 `json:"p90"`
}

// PaybackYear is one year of an option beside the line as it stands.
type PaybackYear struct {
	Year    int     `json:"year"`
	SoldNow float64 `json:"sold_packs_as_it_stands"`
	Sold    float64 `json:"sold_packs"`
	Earned  float64 `json:"more_earned"`
	People  float64 `json:"more_for_people"`
	Running float64 `json:"more_for_energy_water_wear"`
	Upkeep  float64 `json:"maintenance"`
	Buying  float64 `json:"bought"`
	Tax     float64 `json:"tax"`
	Flow    float64 `json:"cash_flow"`
}

// MoneySide is a line with its prices, as the central case has them: what a spreadsheet needs to work it out again.
type MoneySide struct {
	PacksPerWeek  float64    `json:"packs_per_week"` // if all can be sold
	CyclesPerWeek float64    `json:"cycles_per_week"`
	RosteredH     float64    `json:"rostered_h_per_week"`
	People        []HourCost `json:"people"`
	PerPack       float64    `json:"contribution_per_pack"` // or fee
	Variable      float64    `json:"variable_cost_per_pack"`
	Energy        float64    `json:"energy_per_cycle"`
	Water         float64    `json:"water_per_cycle"`
	Wear          float64    `json:"wear_per_cycle"`
	Demand        float64    `json:"demand_packs_per_week"` // 0 with Endless
	Endless       bool       `json:"all_can_be_sold"`
	Growth        float64    `json:"demand_growth"`
	Rise          float64    `json:"price_rise"`
	Weeks         float64    `json:"weeks_per_year"`
	Premium       float64    `json:"overtime_premium"`
	Rate          float64    `json:"discount_rate"`
	Tax           float64    `json:"tax"`
	WriteOff      int        `json:"depreciation_years"` // 0: the life
	PackKg        float64    `json:"pack_kg"`
}

// HourCost is a pool in a shift.
type HourCost struct {
	Pool      string  `json:"pool"`
	Shift     string  `json:"shift,omitempty"`
	HoursWeek float64 `json:"hours_per_week"`
	OvertimeH float64 `json:"overtime_h_per_week"`
	Cost      float64 `json:"cost_per_h"`
	PaidAll   bool    `json:"saved_hours_are_paid"`
}

// Purchase is what an option costs to buy and to have.
type Purchase struct {
	Price        float64 `json:"purchase"`
	Installation float64 `json:"installation"`
	Training     float64 `json:"training"`
	StandsH      float64 `json:"line_stands_h"`
	LostPacks    float64 `json:"lost_packs"`
	LostMoney    float64 `json:"lost_output"`
	Upkeep       float64 `json:"maintenance_per_year"`
	Rest         float64 `json:"rest_value"`
	Life         int     `json:"life_years"` // 0: nothing is bought
	Years        int     `json:"years"`      // looked at
}

// CostSplit is what a kg or pack costs in the first year, by what it is paid for.
type CostSplit struct {
	Capital float64 `json:"capital"`
	People  float64 `json:"people"`
	Energy  float64 `json:"energy"`
	Water   float64 `json:"water"`
	Wear    float64 `json:"wear_parts"`
	Upkeep  float64 `json:"maintenance"`
	Sum     float64 `json:"sum"`
}

// BreakEven is how far one figure may go until the option is just paid back in the asked time, all others as planned.
type BreakEven struct {
	What    string   `json:"what"`
	Unit    string   `json:"unit"`
	Planned float64  `json:"planned"`
	Needed  *float64 `json:"needed"`  // null: none between nearly nothing and ten times the plan
	Always  bool     `json:"always"`  // with no value needed: it pays at any up to ten times the plan; else at none of them
	AtMost  bool     `json:"at_most"` // it pays up to this value, not from it on
}

// Swing is what one figure does to the net present value, all others as planned.
type Swing struct {
	What    string  `json:"what"`
	Unit    string  `json:"unit"`
	Low     float64 `json:"low"` // value of the figure
	High    float64 `json:"high"`
	NPVLow  float64 `json:"npv_at_low"`
	NPVHigh float64 `json:"npv_at_high"`
	Tried   bool    `json:"tried"` // the user gave one value: 20 % less and more were tried
}

// Order is in which order several things are bought: each must pay after those before it.
type Order struct {
	Steps []OrderStep `json:"steps"`
	Says  string      `json:"says"`
}

// OrderStep is one more thing bought, and what it brings beside what was bought before.
type OrderStep struct {
	Name     string   `json:"name"`
	Worth    bool     `json:"worth_buying"`
	Gain     Estimate `json:"gain_packs_per_week"` // beside the line with what was bought before
	NPV      float64  `json:"npv"`
	Payback  *float64 `json:"payback_years"`
	NPVAlone float64  `json:"npv_alone"`
	Together float64  `json:"npv_of_all_so_far"`
	Instead  []string `json:"instead_of,omitempty"` // options that change the same things
}

// MoneyFigure is one figure that the user gave.
type MoneyFigure struct {
	Path    string   `json:"path"`
	Says    string   `json:"says"`
	Unit    string   `json:"unit"`
	Central float64  `json:"central"`
	P10     float64  `json:"p10"`
	P90     float64  `json:"p90"`
	Range   bool     `json:"range"`         // a range or distribution was given
	Low     *float64 `json:"low,omitempty"` // bounds, where the range has them
	High    *float64 `json:"high,omitempty"`
}
