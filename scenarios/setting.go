package scenarios

import "fmt"

// Setting is the scenario with one choice of each dimension of its size block, by number from 0, without the block itself. The faults say
// why no line can be built of it: a crew larger than the people that are there, say.
func (s *Scenario) Setting(choice []int) (*Scenario, []Fault) {
	r, tree := s.changed(func(dimension int) int { return choice[dimension] })
	out := &Scenario{Trail: r.trail}
	r.fillScenario(tree, out)
	r.check(out)
	r.products(tree, out)
	if len(r.faults) > 0 {
		return nil, inOrder(s.fileName(), r.faults)
	}
	return out, nil
}

// changed lays the choices over the scenario; -1 leaves a dimension as it was written.
func (s *Scenario) changed(choice func(dimension int) int) (*reader, *node) {
	from := s.Trail.reader
	r := &reader{open: from.open, join: from.join, dir: from.dir, sources: from.sources[:1:1]}
	r.trail = &Trail{places: map[string]place{}, defaults: map[string]string{}, sources: s.Trail.sources, reader: r, variants: s.Trail.variants}
	tree := s.Trail.tree.without("size")
	for i := range s.Size.Vary {
		if k := choice(i); k >= 0 {
			if over := s.overlay(r, i, k); over != nil {
				tree = r.merge("", tree, over)
			}
		}
	}
	r.trail.tree = tree
	return r, tree
}

// overlay is what choice k of a dimension changes, written where the choice stands; nil where it changes nothing.
func (s *Scenario) overlay(r *reader, dimension, k int) *node {
	d := &s.Size.Vary[dimension]
	path := "size.vary." + d.Name
	if len(d.Variants) > 0 {
		p := s.Trail.variants.get(string(d.Variants[k]))
		if p == nil || p.value.kind != group {
			return nil
		}
		return r.expand(p.value, p.key)
	}
	n := s.Trail.tree.find(path + ".range")
	if list := s.Trail.tree.find(path + ".values"); list != nil && k < len(list.items) {
		n = list.items[k]
	}
	if n == nil {
		return nil
	}
	value := &node{kind: word, text: d.Choices()[k], at: n.at}
	over := &node{kind: group, at: n.at}
	for i, f := range d.Fields {
		at := n.at
		if field := s.Trail.tree.find(fmt.Sprintf("%s.fields[%d]", path, i+1)); field != nil {
			at = field.at
		}
		r.insert(over, string(f), at, value, "")
	}
	return over
}

func (s *Scenario) fileName() string {
	if len(s.Trail.sources) == 0 {
		return ""
	}
	return s.Trail.sources[0].name
}
