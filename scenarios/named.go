package scenarios

import (
	"fmt"
	"reflect"
	"strings"

	"pascaline/scenarios/units"
)

// named is a list that is written as a group of names, whose order counts.
type named interface {
	fillOne(r *reader, path string, p *pair)
	wants() string
}

func (r *reader) named(path string, n *node, to named) {
	if n.kind != group {
		r.add(n.at, path, n.show(), to.wants(), "")
		return
	}
	if len(n.pairs) == 0 {
		r.add(n.at, path, "an empty group", to.wants(), "")
	}
	for _, p := range n.pairs {
		if hint := notAName(p.key); hint != "" {
			r.add(p.at, path, quote(p.key), "a name", hint)
			continue
		}
		sub := join(path, p.key)
		if p.value.kind == nothing {
			r.add(p.at, sub, "nothing", to.wants(), "")
			continue
		}
		r.trail.places[sub] = p.value.at
		if p.value.kind != refused {
			to.fillOne(r, sub, p)
		}
	}
}

// notAName refuses names that could be taken for something else.
func notAName(name string) string {
	switch {
	case name == "machine" || name == "stops" || name == "all":
		return fmt.Sprintf("%q means something of its own", name)
	case strings.ContainsAny(name, ".,:;[]{}#&*!|>'\"%@`/") || !Pasted(name):
		return "letters, digits, spaces and hyphens"
	case strings.Trim(name, "0123456789") == "":
		return "a number is no name"
	case strings.ContainsAny(name[:1], "0123456789"):
		return "it begins with a letter"
	}
	return ""
}

func (p *Pools) wants() string {
	return "names of pools, such as loaders: {heads: 3, serve: [loading, vessel]}"
}

func (p *Pools) fillOne(r *reader, path string, x *pair) {
	one := Pool{Name: x.key}
	r.fill(path, x.at, x.value, reflect.ValueOf(&one).Elem(), &field{})
	*p = append(*p, one)
}

func (s *Shifts) wants() string {
	return "names of shifts, such as early: {hours: 06:00 to 14:00, people: {loaders: 3}}"
}

func (s *Shifts) fillOne(r *reader, path string, x *pair) {
	one := Shift{Name: x.key}
	r.fill(path, x.at, x.value, reflect.ValueOf(&one).Elem(), &field{})
	*s = append(*s, one)
}

func (h *Heads) wants() string { return "names of pools with their number, such as loaders: 3" }

func (h *Heads) fillOne(r *reader, path string, x *pair) {
	one := Head{Pool: x.key}
	var c units.Count
	r.fill(path, x.at, x.value, reflect.ValueOf(&c).Elem(), &field{name: x.key, tag: `most:"1000" noun:"people"`})
	one.Count = c
	*h = append(*h, one)
}

func (c *PoolCosts) wants() string {
	return "names of pools with what an hour of one person costs, such as loaders: 24 EUR/h"
}

func (c *PoolCosts) fillOne(r *reader, path string, x *pair) {
	one := PoolCost{Pool: x.key}
	r.fill(path, x.at, x.value, reflect.ValueOf(&one).Elem(), &field{})
	*c = append(*c, one)
}

func (c *ShiftCosts) wants() string {
	return "names of shifts with what an hour of one person costs in them, such as late: 28 EUR/h"
}

func (c *ShiftCosts) fillOne(r *reader, path string, x *pair) {
	one := ShiftCost{Shift: x.key}
	r.fill(path, x.at, x.value, reflect.ValueOf(&one).Elem(), &field{})
	*c = append(*c, one)
}

func (d *Dimensions) wants() string {
	return "names of what may be chosen, such as packers: {fields: [roster.shifts.early.people.packers], range: 3 to 7, cost_each: 24 EUR/h}"
}

func (d *Dimensions) fillOne(r *reader, path string, x *pair) {
	one := Dimension{Name: x.key}
	r.fill(path, x.at, x.value, reflect.ValueOf(&one).Elem(), &field{})
	*d = append(*d, one)
}
