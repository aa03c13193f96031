package scenarios

import (
	"reflect"
	"slices"
	"strings"
)

// checker holds a scenario that was read against the rules that take more than one field to see.
type checker struct {
	r     *reader
	s     *Scenario
	early []Fault // what the reading itself found
}

// rules of the whole scenario. Each tells all its faults; what follows from a fault that was told already is not told again.
var rules = slices.Concat(lineRules, vesselRules, pumpRules, stopRules, peopleRules, rosterRules, moneyRules, lotRules, runRules, sizeRules, doubts)

func (r *reader) check(s *Scenario) {
	c := &checker{r: r, s: s, early: slices.Clone(r.faults)}
	for _, rule := range rules {
		rule(c)
	}
}

// fault is told at the place of a field, unless the field, or one that the rule depends on, had a fault in the reading.
func (c *checker) fault(path, found, want, hint string, dependsOn ...string) {
	if c.unsure(append(dependsOn, path)...) {
		return
	}
	c.r.add(c.r.trail.nearest(path), path, found, want, hint)
}

// unsure tells whether any of these fields, what they belong to or what belongs to them, had a fault in the reading.
func (c *checker) unsure(paths ...string) bool {
	for _, p := range paths {
		for _, f := range c.early {
			if f.Path == p || strings.HasPrefix(f.Path, p+".") || strings.HasPrefix(f.Path, p+"[") || strings.HasPrefix(p, f.Path+".") {
				return true
			}
		}
	}
	return false
}

func (c *checker) written(path string) bool { return c.r.trail.written(path) }

// said is what was written at a path, for a message.
func (c *checker) said(path string) string {
	if n := c.r.trail.tree.find(path); n != nil {
		return n.show()
	}
	if d, ok := c.r.trail.defaults[path]; ok {
		return quote(d) + " by default"
	}
	return "nothing"
}

func (c *checker) each(visit func(path string, v reflect.Value, f *field)) {
	walk("", reflect.ValueOf(c.s).Elem(), visit)
}

func (c *checker) warn(code, text string) { c.r.trail.warn(code, text) }
