package study

import (
	"fmt"
	"slices"

	"pascaline/scenarios"
	"pascaline/scenarios/units"
	"pascaline/sim/line"
)

// Quicker is by how much a station is made faster to see what the line would gain.
const Quicker = 0.10

// better is one thing that may hold the line, and the line with a little more of it.
type better struct {
	name, kind, change string
	model              *line.Model
}

// candidates are the stations, a tenth faster each; carriers, people of each pool and places, one more each; and the roster. The hold is never
// among them. A change that no line can be built of is left out.
func candidates(m *line.Model, stations []string) ([]better, error) {
	c := &changes{s: m.Scenario()}
	for _, name := range stations {
		faster, err := m.Faster(name, Quicker)
		if err != nil {
			return nil, err
		}
		c.list = append(c.list, better{name, "station", "10 % faster", faster})
	}
	more, err := m.MoreOften(Quicker)
	if err != nil {
		return nil, err
	}
	if more != nil {
		c.list = append(c.list, better{"supply", "supply", "10 % more coming in", more})
	}
	c.carriers()
	for i := range c.s.People {
		c.person(i)
	}
	c.places()
	c.roster()
	return c.list, nil
}

// changes gathers scenarios that differ in one thing.
type changes struct {
	s    *scenarios.Scenario
	list []better
}

func (c *changes) add(name, kind, change string, s *scenarios.Scenario) {
	if m, err := line.New(s); err == nil {
		c.list = append(c.list, better{name, kind, change, m})
	}
}

func (c *changes) carriers() {
	if c.s.Carriers == nil || c.s.Carriers.Owned == 0 || c.s.Loading == nil {
		return
	}
	s, x := *c.s, *c.s.Carriers
	x.Owned++
	s.Carriers = &x
	c.add("carriers", "carriers", "one more carrier", &s)
}

// person adds one head to a pool wherever it has any, and a bench where all benches that its people pack at were staffed already.
func (c *changes) person(i int) {
	s := *c.s
	pool := c.s.People[i].Name
	s.People = slices.Clone(s.People)
	most := s.People[i].Heads
	if most > 0 {
		s.People[i].Heads++
	}
	if s.Roster != nil {
		r := *s.Roster
		r.Shifts = slices.Clone(r.Shifts)
		for k := range r.Shifts {
			r.Shifts[k].People = slices.Clone(r.Shifts[k].People)
			for h := range r.Shifts[k].People {
				if x := &r.Shifts[k].People[h]; x.Pool == pool && x.Count > 0 {
					most = max(most, x.Count)
					x.Count++
				}
			}
		}
		s.Roster = &r
	}
	change := "one more of them"
	if s.Roster != nil {
		change += " on every shift"
	}
	if p := c.s.Packing; p != nil && p.Crew.Pool == pool && int(most) >= int(p.Benches)*max(1, p.Crew.Least) {
		x := *p
		x.Benches++
		s.Packing = &x
		change += ", and a bench to pack at"
	}
	c.add(pool, "people", change, &s)
}

// places adds room for a carrier before and after the vessel, and for a case on the table.
func (c *changes) places() {
	if x := c.s.Infeed; x != nil && (x.Places > 0 || x.None) {
		s := *c.s
		s.Infeed = onePlaceMore(x)
		c.add("infeed", "places", "one more place for a carrier", &s)
	}
	if x := c.s.Drain; x != nil && (x.Places > 0 || x.None) {
		s := *c.s
		s.Drain = onePlaceMore(x)
		c.add("drain", "places", "one more place for a carrier", &s)
	}
	if x := c.s.Table; x != nil && x.Places != nil {
		s, t := *c.s, *x
		n := *x.Places + c.s.Product.PacksPerCase
		t.Places = &n
		s.Table = &t
		c.add("table", "places", fmt.Sprintf("%d more places for packs", c.s.Product.PacksPerCase), &s)
	}
}

func onePlaceMore(p *scenarios.Places) *scenarios.Places {
	x := *p
	x.Places++
	x.None = false
	return &x
}

// roster makes what the roster takes from the line a tenth shorter: start-up, wash-down, the time without new carriers, breaks.
func (c *changes) roster() {
	if c.s.Roster == nil {
		return
	}
	s, r := *c.s, *c.s.Roster
	r.Shifts, r.Breaks = slices.Clone(r.Shifts), slices.Clone(r.Breaks)
	any := len(r.Breaks) > 0
	for i := range r.Shifts {
		x := &r.Shifts[i]
		any = any || x.StartUp+x.WashDown+x.LastCarrier > 0
		x.StartUp, x.WashDown, x.LastCarrier = shorter(x.StartUp), shorter(x.WashDown), shorter(x.LastCarrier)
	}
	for i := range r.Breaks {
		r.Breaks[i].Length = shorter(r.Breaks[i].Length)
	}
	s.Roster = &r
	if any {
		c.add("roster", "roster", "start-up, wash-down, time without new carriers and breaks 10 % shorter", &s)
	}
}

// shorter is nine tenths of a length, to the second.
func shorter(d units.Duration) units.Duration {
	return (d * 9 / 10) / units.Second * units.Second
}
