package scenarios

import (
	"reflect"

	"pascaline/scenarios/units"
)

// ProductLine is one of several products: what is its own, and the whole line as it is while this product goes through.
type ProductLine struct {
	Name  string     `yaml:"-"`
	Group units.Text `yaml:"-"` // for changeovers, such as an allergen
	Line  *Scenario  `yaml:"-"` // the scenario with this product's values in place of the common ones
	node  *node
}

// Products in the order in which they are written.
type Products []ProductLine

// Lot is a quantity of one product that is treated together.
type Lot struct {
	Lot      units.Text  `yaml:"lot" need:"yes" doc:"what the lot is called"`
	Product  units.Text  `yaml:"product" doc:"which of the products (default: the only one)"`
	Quantity units.Count `yaml:"quantity" need:"yes" least:"1" most:"10000000" noun:"packs" doc:"how many packs"`
	Ready    units.When  `yaml:"ready" doc:"when it can be begun (default: from the start)"`
	Due      *units.When `yaml:"due" doc:"when it shall be finished (default: at any time)"`
	Customer units.Text  `yaml:"customer" doc:"whose it is"`
	Group    units.Text  `yaml:"group" doc:"for changeovers, such as an allergen (default: the product's)"`
}

// Changeover is the work between two lots at one station.
type Changeover struct {
	Station units.Text     `yaml:"station" need:"yes" doc:"which station, or line: the whole line is empty first"`
	From    units.Text     `yaml:"from" default:"any" doc:"a product, a group, or any"`
	To      units.Text     `yaml:"to" default:"other product" doc:"a product, a group, any, same product, other product or other group"`
	Takes   Time           `yaml:"takes" need:"yes" doc:"how long it takes in all"`
	Before  units.Duration `yaml:"before_the_stop" default:"0 s" doc:"part of it that is done while the lot before still runs"`
	By      units.Crew     `yaml:"by" default:"machine" doc:"who does it"`
}

// Start says when a replication starts and where the line stands then. As one word: a moment of the plant week.
type Start struct {
	At     units.Moment `yaml:"at" doc:"when in the plant week (default: the first shift of the first day)"`
	Lot    units.Text   `yaml:"lot" doc:"the lot in work; those listed before it are done"`
	Left   *units.Count `yaml:"left" noun:"packs" doc:"packs of it that are not in carriers yet (default: all)"`
	Infeed units.Count  `yaml:"infeed" noun:"carriers" doc:"full carriers of it at the infeed"`
	Drain  units.Count  `yaml:"drain" noun:"carriers" doc:"full carriers of it at the drain"`
	Table  units.Count  `yaml:"table" noun:"packs" doc:"packs of it on the packing table"`
}

func (s *Start) parseShort(text string) error { return s.At.Parse(text) }

func (s *Start) shortWants() string {
	return `a time of the week, such as "Mon 06:00", or {at: Tue 10:40, lot: 4469, left: 3100 packs}`
}

func (p *Products) wants() string {
	return "names of products with what is their own, such as juice: {packs_per_carrier: 148, hold: 180 s}"
}

func (p *Products) fillOne(r *reader, path string, x *pair) {
	one := ProductLine{Name: x.key, node: x.value}
	if x.value.kind != group {
		r.add(x.value.at, path, x.value.show(), p.wants(), "")
		return
	}
	if g := x.value.get("group"); g != nil {
		r.fill(join(path, "group"), g.at, g.value, reflect.ValueOf(&one.Group).Elem(), &field{name: "group"})
	}
	*p = append(*p, one)
}

// Several tells whether the scenario has a list of lots.
func (s *Scenario) Several() bool { return len(s.Lots) > 0 }

// ProductNamed is the line of a product; the scenario itself where there is only one product.
func (s *Scenario) ProductNamed(name string) *Scenario {
	if p := s.productLine(name); p != nil {
		return p.Line
	}
	return s
}

func (s *Scenario) productLine(name string) *ProductLine {
	for i := range s.Products {
		if s.Products[i].Name == name {
			return &s.Products[i]
		}
	}
	return nil
}

// GroupOf is the group of a lot: its own, or that of its product.
func (s *Scenario) GroupOf(l *Lot) string {
	if l.Group != "" {
		return string(l.Group)
	}
	if p := s.productLine(string(l.Product)); p != nil {
		return string(p.Group)
	}
	return ""
}
