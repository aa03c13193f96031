package capital

import (
	"fmt"
	"slices"

	"pascaline/scenarios"
	"pascaline/sim/random"
)

// Case is one set of values for all that is not known: the line as it stands, the options, and what each of them costs.
type Case struct {
	Base    Side
	Line    Buy // what the line as it stands cost, for the cost per kg only
	Options []Side
	Buys    []Buy
}

// clone copies what guesses change.
func (c *Case) clone() *Case {
	d := &Case{Base: c.Base, Line: c.Line, Options: slices.Clone(c.Options), Buys: slices.Clone(c.Buys)}
	d.Base.HourCost = slices.Clone(c.Base.HourCost)
	for i := range d.Options {
		d.Options[i].HourCost = slices.Clone(c.Options[i].HourCost)
	}
	return d
}

// Flows are the cash flows of option i.
func (c *Case) Flows(i int) Flows { return c.Base.Flows(&c.Options[i], &c.Buys[i]) }

// Guess is one figure of the user's, with the law of what it may be.
type Guess struct {
	Path    string // in the scenario file
	Says    string // what it is
	Unit    string
	Law     random.Law
	Central float64
	bounded bool    // the user gave a lowest and a highest value
	shift   float64 // what the law is moved up by, since a law here has no value below 0
	sets    []func(*Case, float64)
}

// Known tells whether it is one value.
func (g *Guess) Known() bool { return g.Law.SD() == 0 }

// Quantile is the value that the share u of what is believed possible does not exceed.
func (g *Guess) Quantile(u float64) float64 { return g.Law.Quantile(u) - g.shift }

// bounds are the lowest and the highest value that the user gave; nil where a mean and a spread were given, or one value.
func (g *Guess) bounds() (low, high *float64) {
	if !g.bounded {
		return nil, nil
	}
	a, b := random.Bounds(g.Law)
	a, b = a-g.shift, b-g.shift
	return &a, &b
}

// set puts a value into a case.
func (g *Guess) set(c *Case, v float64) {
	for _, f := range g.sets {
		f(c, v)
	}
}

// place is where in a case the values of one scenario belong: the line as it stands, or option i.
type place struct {
	side func(*Case) *Side
	buy  func(*Case) *Buy
	name string // "" for the line as it stands
}

func basePlace() place { return place{side: func(c *Case) *Side { return &c.Base }} }

func optionPlace(i int, name string) place {
	return place{side: func(c *Case) *Side { return &c.Options[i] }, buy: func(c *Case) *Buy { return &c.Buys[i] }, name: name}
}

// known is a figure of one scenario.
type known struct {
	path, says, unit string
	law              scenarios.Law
	central          float64
	set              func(*Case, float64)
}

// hasBounds tells whether a lowest and a highest value were given.
func hasBounds(s scenarios.Shape) bool {
	return s == scenarios.Uniform || s == scenarios.Triangular || s == scenarios.PERT
}

// gather joins what variants leave as the line as it stands has it into one guess, so that it is drawn once for all of them. What a variant says
// otherwise, or of a purchase, is a guess of its own, even where two of them say the same.
type gather struct {
	guesses []*Guess
	at      map[string]*Guess
	err     error
}

func (g *gather) add(where place, k known) {
	key := fmt.Sprint(k.path, k.law)
	x := g.at[key]
	if x == nil {
		x = &Guess{Path: k.path, Says: k.says, Unit: k.unit, Central: k.central, bounded: hasBounds(k.law.Shape)}
		if where.name != "" && g.has(k.path) || where.buy != nil && isBuy(k.path) {
			x.Path, x.Says = fmt.Sprintf("%s (%s)", k.path, where.name), fmt.Sprintf("%s (%s)", k.says, where.name)
			key = ""
		}
		law := k.law
		if low := min(law.Low, law.Likely, law.Mean); low < 0 {
			x.shift = 1 // rates of a year lie above -1
			law.Low, law.Likely, law.High, law.Mean = law.Low+1, law.Likely+1, law.High+1, law.Mean+1
		}
		var err error
		if x.Law, err = random.NewLaw(law); err != nil && g.err == nil {
			g.err = fmt.Errorf("%s: %w", k.path, err)
		}
		if key != "" {
			g.at[key] = x
		}
		g.guesses = append(g.guesses, x)
	}
	x.sets = append(x.sets, k.set)
}

func (g *gather) has(path string) bool {
	return slices.ContainsFunc(g.guesses, func(x *Guess) bool { return x.Path == path })
}
