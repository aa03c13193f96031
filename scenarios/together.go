package scenarios

import (
	"slices"
	"strings"
)

// ReadTogether reads a scenario file with several of its variants laid over it, one after the other; where two of them write the same
// field, the later one holds. Faults and error are as for Read.
func ReadTogether(path string, variants []string) (*Scenario, []Fault, error) {
	b, err := readFile(path)
	if err != nil {
		return nil, nil, err
	}
	r := newFileReader()
	s, faults := r.scenario(newSource(path, path, b), variants...)
	return s, faults, nil
}

// Contradict lists the fields that two variants of a file change to different values, so that they are one or the other and cannot both be had.
// Money, which each variant has of its own, is no contradiction.
func Contradict(path, one, other string) ([]string, error) {
	b, err := readFile(path)
	if err != nil {
		return nil, err
	}
	r := newFileReader()
	tree := r.load(newSource(path, path, b), nil)
	p := tree.get("variants")
	if p == nil {
		return nil, nil
	}
	var sides [2]map[string]string
	var order []string
	for i, name := range []string{one, other} {
		sides[i] = map[string]string{}
		v := p.value.get(name)
		if v == nil || v.value.kind != group {
			continue
		}
		r.expand(v.value, name).leaves("", func(path, text string) {
			path = tree.inFull(path)
			sides[i][path] = text
			if i == 0 {
				order = append(order, path)
			}
		})
	}
	return slices.DeleteFunc(order, func(path string) bool {
		text, both := sides[1][path]
		return !both || text == sides[0][path] || strings.HasPrefix(path, "money.")
	}), nil
}

// leaves visits every word under a node with its path.
func (n *node) leaves(path string, visit func(path, text string)) {
	switch n.kind {
	case word:
		visit(path, n.text)
	case group:
		for _, p := range n.pairs {
			p.value.leaves(join(path, p.key), visit)
		}
	case list:
		for _, item := range n.items {
			item.leaves(path, visit)
		}
	}
}
