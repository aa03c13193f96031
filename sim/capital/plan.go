package capital

import "pascaline/sim/interest"

// Prices are what things earn and cost in the first year.
type Prices struct {
	PerPack   float64   // contribution or fee of a pack that is sold, before the costs below
	Variable  float64   // what a pack costs besides, where a fee is paid
	PerCycle  Cycle     // for a vessel cycle
	HourCost  []float64 // for an hour of one person, by row of Week.Hours
	Paid      []bool    // by row of Week.Hours: hours that are no longer needed are paid all the same
	Premium   float64   // what an hour of overtime costs above another, as a share
	Rise      float64   // of all prices and wages per year, as a fraction
	Demand    float64   // packs that can be sold in a week of the first year
	Growth    float64   // of the demand per year, as a fraction
	Weeks     float64   // weeks of a year in which the roster is worked
	Rate      float64   // discount rate per year, as a fraction
	Tax       float64   // share of the gain
	WriteOff  int       // years of straight-line depreciation; 0: the life of what is bought
	Endless   bool      // all that is made can be sold; Demand is not looked at
	PackKg    float64   // mass of a pack; 0: not known
	PaysIn    float64   // payback time asked for, in years
	Reference int       // years over which an option that buys nothing is looked at
}

// Cycle is what a vessel cycle costs.
type Cycle struct{ Energy, Water, Wear float64 }

// Week is what a line does in one week of its roster, if all can be sold.
type Week struct {
	Packs    float64   // finished
	Cycles   float64   // of the vessel
	Hours    []float64 // person-hours on the roster, by pool and shift
	Overtime []float64 // person-hours after the shift, in the same rows
	Rostered float64   // hours of the line
}

// Buy is what an option costs to buy and to have, and how long it lives. The zero Buy is a change that costs nothing.
type Buy struct {
	Price, Installation, Training float64 // today
	StandsH                       float64 // rostered hours without output while it is installed
	Upkeep                        float64 // in a year of the first year's prices
	Rest                          float64 // at the end of its life
	Life                          int     // years
}

// Side is a line with the prices that hold for it: the line as it stands, or an option.
type Side struct {
	Prices
	Week
}

// Empty tells whether nothing is bought and no output is lost.
func (b *Buy) Empty() bool {
	return b.Price == 0 && b.Installation == 0 && b.Training == 0 && b.StandsH == 0
}

// Outlay is what is paid to have it, before tax.
func (b *Buy) Outlay() float64 { return b.Price + b.Installation + b.Training }

// grown is (1+rate)^years.
func grown(rate float64, years int) float64 { return interest.Power(1+rate, years) }

// Sold are the packs that a line sells in a week of year 1, 2, 3 …: what it makes, up to the demand.
func (s *Side) Sold(year int) float64 {
	if s.Endless {
		return s.Packs
	}
	return min(s.Packs, float64(s.Demand*grown(s.Growth, year-1)))
}

// used is the share of its rostered time in which a line is needed.
func (s *Side) used(year int) float64 {
	if s.Packs <= 0 {
		return 1
	}
	return s.Sold(year) / s.Packs
}

// Costs are what a line costs in a year, in that year's prices.
type Costs struct{ People, Energy, Water, Wear float64 }

// Sum is all of them.
func (c Costs) Sum() float64 { return c.People + c.Energy + c.Water + c.Wear }

// Running are the costs of a line in a year. Hours that are not needed are paid all the same where that is said, and never
// fewer than those of the line it is compared with (nil: none).
func (s *Side) Running(base *Side, year int) Costs {
	share := s.used(year)
	weeks := float64(s.Weeks * grown(s.Rise, year-1))
	people := 0.0
	for i, h := range s.Hours {
		hours := float64(h * share)
		if s.Paid[i] {
			hours = h
			if base != nil {
				hours = max(h, base.Hours[i])
			}
		}
		extra := float64(s.Overtime[i] * share)
		people += float64(s.HourCost[i] * (hours + float64(extra*(1+s.Premium))))
	}
	cycles := float64(float64(s.Cycles*share) * weeks)
	return Costs{
		People: float64(people * weeks), Energy: float64(cycles * s.PerCycle.Energy), Water: float64(cycles * s.PerCycle.Water),
		Wear: float64(cycles * s.PerCycle.Wear),
	}
}

// margin is what a pack that is sold leaves, before the line's own costs.
func (s *Side) margin() float64 { return s.PerPack - s.Variable }

// Earned is what the packs that are sold in a year leave, before the line's own costs.
func (s *Side) Earned(year int) float64 {
	return float64(float64(s.Sold(year)*s.Weeks) * float64(s.margin()*grown(s.Rise, year-1)))
}

// Years is how long an option is looked at: its life, or the years of reference where nothing is bought.
func (s *Side) Years(b *Buy) int {
	if b.Empty() || b.Life < 1 {
		return max(1, s.Reference)
	}
	return b.Life
}

// Lost are the packs that cannot be sold because the line stands while something is installed: none where it has hours to spare in
// that year.
func (s *Side) Lost(b *Buy) float64 {
	if b.StandsH <= 0 || s.Rostered <= 0 {
		return 0
	}
	left := max(0, s.Weeks-b.StandsH/s.Rostered)
	sold := float64(s.Sold(1) * s.Weeks)
	return sold - min(sold, float64(s.Packs*left))
}

// lostMoney is what the lost packs would have left; cycles that are not run cost nothing, people are paid.
func (s *Side) lostMoney(b *Buy) float64 {
	lost := s.Lost(b)
	if lost == 0 || s.Packs <= 0 {
		return 0
	}
	perCycle := s.PerCycle.Energy + s.PerCycle.Water + s.PerCycle.Wear
	return float64(lost*s.margin()) - float64(lost/s.Packs*float64(s.Cycles*perCycle))
}

// YearLine is one year of an option beside the line as it stands.
type YearLine struct {
	Year          int
	SoldNow, Sold float64 // packs in the year: by the line as it stands, and by the option
	Earned        float64 // more earned by packs
	People        float64 // more paid for people (below 0: saved)
	Running       float64 // more paid for energy, water and wear
	Upkeep        float64
	Buying        float64 // paid today, or got back at the end (below 0)
	Tax           float64 // below 0: saved
	Flow          float64
}

// Lines are the years of an option against the line as it stands, year 0 first. Purchase and installation are written off
// straight over the option's years for tax; training and lost output are costs of today.
func (s *Side) Lines(option *Side, b *Buy) []YearLine {
	years := s.Years(b)
	writeOff := option.WriteOff
	if writeOff == 0 {
		writeOff = max(1, b.Life)
	}
	asset := b.Price + b.Installation
	lines := []YearLine{s.today(b)}
	for t := 1; t <= years; t++ {
		now, then := s.Running(nil, t), option.Running(s, t)
		l := YearLine{
			Year: t, SoldNow: float64(s.Sold(t) * s.Weeks), Sold: float64(option.Sold(t) * option.Weeks),
			Earned: option.Earned(t) - s.Earned(t), People: then.People - now.People,
			Running: then.Energy + then.Water + then.Wear - now.Energy - now.Water - now.Wear,
			Upkeep:  float64(b.Upkeep * grown(s.Rise, t-1)),
		}
		taxed := l.Earned - l.People - l.Running - l.Upkeep
		if t <= writeOff {
			taxed -= asset / float64(writeOff)
		}
		if t == years {
			l.Buying = -b.Rest
			taxed += b.Rest
			if years < writeOff {
				taxed -= float64(asset * float64(writeOff-years) / float64(writeOff))
			}
		}
		l.Tax = float64(s.Tax * taxed)
		l.Flow = l.Earned - l.People - l.Running - l.Upkeep - l.Buying - l.Tax
		lines = append(lines, l)
	}
	return lines
}

func (s *Side) today(b *Buy) YearLine {
	l := YearLine{Buying: b.Outlay(), Earned: -s.lostMoney(b)}
	l.Tax = -float64(s.Tax * (b.Training - l.Earned))
	l.Flow = l.Earned - l.Buying - l.Tax
	return l
}

// Flows are the cash flows of an option against the line as it stands.
func (s *Side) Flows(option *Side, b *Buy) Flows {
	var f Flows
	for _, l := range s.Lines(option, b) {
		f = append(f, l.Flow)
	}
	return f
}

// Split is what a kilogram (or a pack, where its mass is not known) costs in the first year, by what it is paid for.
type Split struct{ Capital, People, Energy, Water, Wear, Upkeep float64 }

// Sum is all of them.
func (s Split) Sum() float64 { return s.Capital + s.People + s.Energy + s.Water + s.Wear + s.Upkeep }

// CostPerUnit splits the first year's cost of what is sold. What is owned is spread evenly over its life with interest (equivalent
// annual cost); upkeep is apart. Nothing sold costs nothing.
func (s *Side) CostPerUnit(base *Side, owned ...Buy) Split {
	sold := float64(s.Sold(1) * s.Weeks)
	if s.PackKg > 0 {
		sold = float64(sold * s.PackKg)
	}
	if sold <= 0 {
		return Split{}
	}
	c := s.Running(base, 1)
	x := Split{People: c.People / sold, Energy: c.Energy / sold, Water: c.Water / sold, Wear: c.Wear / sold}
	for i := range owned {
		x.Capital += owned[i].annualCost(s.Rate) / sold
		x.Upkeep += owned[i].Upkeep / sold
	}
	return x
}

// annualCost is P(A/P) - S(A/F) of what is bought.
func (b *Buy) annualCost(rate float64) float64 {
	if b.Life < 1 {
		return 0
	}
	f := make(Flows, b.Life+1)
	f[0], f[b.Life] = b.Outlay(), -b.Rest
	if b.Outlay() == 0 && b.Rest == 0 {
		return 0
	}
	return f.Annual(rate)
}
