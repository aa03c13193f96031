package scenarios

import (
	"pascaline/scenarios/units"
)

// Guess is a figure that is known, or a range or distribution of what it may be: "0.28 EUR/pack" or {low: 0.24 EUR/pack,
// likely: 0.28 EUR/pack, high: 0.30 EUR/pack}.
type Guess[Q figure] struct {
	Value  *Q         `yaml:"-"` // written as one word
	Low    *Q         `yaml:"low" doc:"the lowest that is believed possible"`
	Likely *Q         `yaml:"likely" doc:"the most likely"`
	High   *Q         `yaml:"high" doc:"the highest that is believed possible"`
	Mean   *Q         `yaml:"mean" doc:"mean"`
	SD     *Q         `yaml:"sd" doc:"standard deviation"`
	As     units.Word `yaml:"as" choices:"uniform|triangular|pert|normal|lognormal|gamma" doc:"shape; left out: low and high uniform, with likely triangular, mean and sd lognormal"`
	law    Law
}

// figure is a quantity that has a plain number.
type figure interface{ Number() float64 }

// Kinds of guesses.
type (
	// Amount is an amount of money, for each of something or alone.
	Amount = Guess[units.Money]
	// RateGuess is a rate for a year.
	RateGuess = Guess[units.Percent]
	// SoldGuess is packs in a week.
	SoldGuess = Guess[units.Weekly]
)

// Law is the distribution in the unit of the quantity. It is valid once the scenario was read without a fault; the zero Guess is 0.
func (g *Guess[Q]) Law() Law {
	if g == nil || g.law.Shape == "" {
		return Law{Shape: Constant}
	}
	return g.law
}

// Central is the value that a plan is made with: the one that was written, the most likely, else the mean.
func (g *Guess[Q]) Central() float64 {
	l := g.Law()
	if l.Shape == Triangular || l.Shape == PERT {
		return l.Likely
	}
	return l.MeanUsed()
}

// Known tells whether it is one value only.
func (g *Guess[Q]) Known() bool { return g.Law().Shape == Constant }

// Unit is what an amount is counted for, such as pack or kg; "" for money alone.
func Unit(a *Amount) string {
	if a == nil || len(a.parts()) == 0 {
		return ""
	}
	return a.parts()[0].value.Per
}

func (g *Guess[Q]) parseShort(text string) error {
	var v Q
	if err := any(&v).(units.Quantity).Parse(text); err != nil {
		return err
	}
	g.Value = &v
	g.law = Law{Shape: Constant, Mean: v.Number()}
	return nil
}

func (g *Guess[Q]) shortWants() string {
	var v Q
	switch any(v).(type) {
	case units.Percent:
		return `a rate for a year, such as "8 %" or {low: -2 %, likely: 3 %, high: 6 %}`
	case units.Weekly:
		return `packs in a week, such as "250000 packs/week" or {low: 200000 packs/week, likely: 250000 packs/week, high: 280000 packs/week}`
	}
	return `an amount, such as "180000 EUR", "0.42 EUR/pack" or {low: 26 EUR/h, likely: 29 EUR/h, high: 34 EUR/h}`
}

const guessWants = "one value as one word, or low and high, or low, likely and high, or mean and sd"

func (g *Guess[Q]) resolve(r *reader, path string, n *node) {
	at := func(q *Q) float64 {
		if q == nil {
			return 0
		}
		return (*q).Number()
	}
	l := Law{Low: at(g.Low), Likely: at(g.Likely), High: at(g.High), Mean: at(g.Mean), SD: at(g.SD)}
	if !r.shape(path, n, &l, Shape(g.As), guessWants) {
		return
	}
	var zero Q
	_, rate := any(zero).(units.Percent)
	switch {
	case l.Shape == Exponential:
		r.add(n.get("mean").at, path, "a mean alone", guessWants, "a mean alone does not say how sure it is")
		return
	case rate && (l.Mean != 0 || l.SD != 0):
		r.add(n.at, path, "mean and sd", "one rate as one word, or low and high, or low, likely and high", "a rate may be below zero")
		return
	}
	r.shapeTaken(path, &g.As, l.Shape)
	if r.lawFault(path, n, &l) {
		g.law = l
	}
}

// part is one of the values of a guess, with the field it was written in.
type part[Q figure] struct {
	field string
	value Q
}

func (g *Guess[Q]) parts() (found []part[Q]) {
	if g == nil {
		return nil
	}
	for _, p := range []struct {
		field string
		value *Q
	}{{"", g.Value}, {"low", g.Low}, {"likely", g.Likely}, {"high", g.High}, {"mean", g.Mean}, {"sd", g.SD}} {
		if p.value != nil {
			found = append(found, part[Q]{p.field, *p.value})
		}
	}
	return found
}

func (c *PoolCost) parseShort(text string) error { return c.Cost.parseShort(text) }

func (c *PoolCost) shortWants() string {
	return `what an hour costs, such as "24 EUR/h" or {cost: 24 EUR/h, saved_hours: not paid}`
}

// nothingOf is what was found where a group holds no value at all.
func nothingOf(wants string) string {
	if wants == guessWants {
		return "no value"
	}
	return "no time"
}
