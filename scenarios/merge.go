package scenarios

import (
	"fmt"
	"slices"
	"strings"
)

const mostBases = 4

// load parses a file and lays it over its base, if it has one.
func (r *reader) load(src *source, above []*source) *node {
	r.sources = append(r.sources, src)
	src.base = len(above) > 0
	tree := parse(src, &r.faultList)
	if tree == nil {
		return nil
	}
	p := tree.get("base")
	if p == nil {
		return tree
	}
	tree = tree.without("base")
	n := p.value
	if n.kind != word || n.text == "" {
		if n.kind != refused {
			r.add(n.at, "base", n.show(), "the name of a scenario file", "")
		}
		return nil
	}
	chain := append(slices.Clone(above), src)
	if len(chain) > mostBases {
		r.add(n.at, "base", n.show(), fmt.Sprintf("at most %d files, each the base of the next", mostBases), "")
		return nil
	}
	under := r.beside(p.at, "base", n)
	if under == nil {
		return nil
	}
	if r.sourceSeen(chain, under) {
		r.add(n.at, "base", n.show(), "a file that is not based on this one", "a circle")
		return nil
	}
	base := r.load(under, chain)
	if base == nil {
		return nil
	}
	return r.merge("", base.without("variants"), tree)
}

// vary takes the variants out of the tree and lays those chosen over it, one after the other; "" is none.
func (r *reader) vary(tree *node, chosen []string) *node {
	p := tree.get("variants")
	plain := tree.without("variants")
	chosen = slices.DeleteFunc(slices.Clone(chosen), func(name string) bool { return name == "" })
	if p == nil {
		if len(chosen) > 0 {
			r.add(tree.at, "variants", "no variants", fmt.Sprintf("a variant %q", chosen[0]), "")
			return nil
		}
		return plain
	}
	if p.value.kind != group {
		if p.value.kind != refused {
			r.add(p.value.at, "variants", p.value.show(), "names of variants, each with what it changes", "")
		}
		return plain
	}
	names := r.variantNames(p.value)
	for _, v := range p.value.pairs {
		if v.value.kind != group && v.value.kind != refused {
			r.add(v.value.at, "variants."+v.key, v.value.show(), "what it changes, such as loading.stations: 2", "")
		}
	}
	for _, name := range chosen {
		v := p.value.get(name)
		if v == nil {
			r.add(p.at, "variants", fmt.Sprintf("no variant %q", name), "one of "+orList(quoted(names)), didYouMean(name, names))
			return nil
		}
		if v.value.kind == group {
			plain = r.merge("", plain, r.expand(v.value, name))
		}
	}
	return plain
}

// variantNames are the names of the variants. Each is called by its name and has a folder of its own for its results, so no two are alike.
func (r *reader) variantNames(list *node) (names []string) {
	first := map[string]string{}
	for _, v := range list.pairs {
		names = append(names, v.key)
		folder := oneFile(v.key)
		switch other, twice := first[folder]; {
		case folder == "":
			r.add(v.at, "variants", quote(v.key), "a name for the variant", "")
		case !Pasted(v.key):
			r.add(v.at, "variants", quote(v.key), "a name of letters, digits, blanks and signs such as - + , . / ( ) =", "it stands in commands to be copied, where a shell acts on ` $ ! and quote marks, on %NAME%, and on \\ at the end")
		case twice:
			r.add(v.at, "variants."+v.key, "the same name as "+quote(other)+" but for capital letters or marks", "a name that differs by a letter or digit", "on some systems, Windows among them, both would have one folder of results")
		default:
			first[folder] = v.key
		}
	}
	return names
}

// expand makes nested groups of dotted paths: loading.swap.by: machine is loading: {swap: {by: machine}}.
func (r *reader) expand(n *node, variant string) *node {
	n2 := *n
	n2.at.variant = variant
	n2.pairs, n2.items = nil, nil
	for _, item := range n.items {
		n2.items = append(n2.items, r.mark(item, variant))
	}
	for _, p := range n.pairs {
		if strings.Count(p.key, ".") > mostLevels {
			r.add(p.at, "", quote(p.key), fmt.Sprintf("a path of at most %d names", mostLevels), "")
			continue
		}
		r.insert(&n2, p.key, p.at, p.value, variant)
	}
	return &n2
}

// mark notes on a value that a variant wrote it; a dot in a name inside a list is no path.
func (r *reader) mark(n *node, variant string) *node {
	if n.kind == group {
		return r.expand(n, variant)
	}
	c := *n
	c.at.variant = variant
	return &c
}

func (r *reader) insert(into *node, key string, at place, value *node, variant string) {
	at.variant = variant
	first, rest, dotted := strings.Cut(key, ".")
	p := into.get(first)
	if !dotted {
		if p != nil {
			r.add(at, key, fmt.Sprintf("%q a second time", key), "each field once", fmt.Sprintf("first on line %d", p.at.line))
			return
		}
		v := r.mark(value, variant)
		if value.kind == group || value.kind == list {
			v = r.expand(value, variant)
		}
		into.pairs = append(into.pairs, &pair{key: first, at: at, value: v})
		return
	}
	if p == nil {
		p = &pair{key: first, at: at, value: &node{kind: group, at: at}}
		into.pairs = append(into.pairs, p)
	}
	if p.value.kind != group {
		r.add(at, key, fmt.Sprintf("%q a second time", first), "each field once", fmt.Sprintf("first on line %d", p.at.line))
		return
	}
	at.column += len([]rune(first)) + 1
	r.insert(p.value, rest, at, value, variant)
}

// merge lays one tree over another: a group goes into a group by name, anything else replaces what is there. Items of a
// list that have a name, such as stops, can be reached by it: stops.jam, or stops.tip/jam where two stations have a jam.
func (r *reader) merge(path string, base, over *node) *node {
	switch {
	case over.kind != group:
		return over
	case base.kind == list:
		return r.mergeItems(path, base, over)
	case base.kind != group:
		return over
	}
	base = withoutOldLaw(base, over)
	m := *base
	m.pairs = slices.Clone(base.pairs)
	for _, p := range over.pairs {
		i := slices.IndexFunc(m.pairs, func(q *pair) bool { return q.key == p.key })
		if i < 0 {
			m.pairs = append(m.pairs, p)
			continue
		}
		m.pairs[i] = &pair{key: p.key, at: p.at, value: r.merge(join(path, p.key), m.pairs[i].value, p.value)}
	}
	return &m
}

// withoutOldLaw takes the description of a time out of the base where the new one stands alone and does not go together
// with it: {mean, sd} replaces {low, likely, high}, while {high} alone changes only that.
func withoutOldLaw(base, over *node) *node {
	mine, old := over.lawKeys(), base.lawKeys()
	if len(mine) == 0 || len(old) == 0 {
		return base
	}
	both := slices.Concat(mine, old)
	slices.Sort(both)
	if lawShapes(slices.Compact(both)) != nil || lawShapes(mine) == nil {
		return base
	}
	return base.without(append(old, "as")...)
}

func quoted(words []string) []string {
	q := make([]string, len(words))
	for i, w := range words {
		q[i] = `"` + w + `"`
	}
	return q
}

// orList joins words as one says them: a, b or c.
func orList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}
