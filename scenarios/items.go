package scenarios

import (
	"fmt"
	"slices"
	"strings"
)

// Items of a list are reached by name. Stops of two stations may have one name, so a stop is told apart by its station and its name, tip/jam;
// the name alone, jam, will do where it is the only one.

func nameOf(n *node) string { return wordOf(n, "name") }

func wordOf(n *node, field string) string {
	if p := n.get(field); p != nil && p.value.kind == word {
		return strings.TrimSpace(p.value.text)
	}
	return ""
}

// fullName is the name of an item with its station before it; "" of an item without a name.
func fullName(n *node) string {
	name, station := nameOf(n), wordOf(n, "station")
	if name == "" || station == "" {
		return name
	}
	return StopKey(station, name)
}

// StopKey is what a stop is called in the path of a field: its station and its name, such as tip/jam.
func StopKey(station, name string) string { return station + "/" + name }

// itemsNamed are the items that a name means, by number from 0: one by station and name, or all that have the name.
func (n *node) itemsNamed(key string) (found []int) {
	if key == "" {
		return nil
	}
	if i := slices.IndexFunc(n.items, func(x *node) bool { return fullName(x) == key }); i >= 0 {
		return []int{i}
	}
	for i, x := range n.items {
		if nameOf(x) == key {
			found = append(found, i)
		}
	}
	return found
}

// beginsName tells whether a name goes on after what was written and a dot: a path is taken apart at the dots of a name as well.
func (n *node) beginsName(key string) bool {
	return slices.ContainsFunc(n.items, func(x *node) bool {
		return strings.HasPrefix(fullName(x), key+".") || strings.HasPrefix(nameOf(x), key+".")
	})
}

// itemNames are the shortest names by which the items can be reached.
func (n *node) itemNames() (names []string) {
	for i, x := range n.items {
		name := nameOf(x)
		if !slices.Equal(n.itemsNamed(name), []int{i}) {
			name = fullName(x)
		}
		if name != "" {
			names = append(names, name)
		}
	}
	return names
}

// itemMerger lays values over the items of a list.
type itemMerger struct {
	*reader
	path string
	list *node // a copy, which is changed
	done map[int]string
}

func (r *reader) mergeItems(path string, base, over *node) *node {
	m := itemMerger{reader: r, path: path, list: &node{}, done: map[int]string{}}
	*m.list = *base
	m.list.items = slices.Clone(base.items)
	for _, p := range over.pairs {
		m.lay(p.key, p)
	}
	return m.list
}

// lay lays what stands under one name over the item of that name. Of several names that fit, the longest is meant.
func (m *itemMerger) lay(key string, p *pair) {
	var own []*pair // fields of the item itself
	if p.value.kind == group && m.list.beginsName(key) {
		for _, q := range p.value.pairs {
			longer := key + "." + q.key
			if len(m.list.itemsNamed(longer)) > 0 || m.list.beginsName(longer) || len(m.list.itemsNamed(key)) == 0 {
				m.lay(longer, q)
				continue
			}
			own = append(own, q)
		}
		if len(own) == 0 {
			return
		}
		value := *p.value
		value.pairs = own
		p = &pair{key: p.key, at: p.at, value: &value}
	}
	path := join(m.path, key)
	i, ok := m.oneNamed(path, key, p)
	if !ok {
		return
	}
	if before, twice := m.done[i]; twice {
		m.add(p.at, path, quote(key)+", which is "+quote(before)+" again", "all of one stop under one name", "")
		return
	}
	m.done[i] = key
	m.list.items[i] = m.merge(path, m.list.items[i], p.value)
}

// oneNamed is the item that a name means; a name that means none or several is a fault.
func (m *itemMerger) oneNamed(path, key string, p *pair) (int, bool) {
	found := m.list.itemsNamed(key)
	names := m.list.itemNames()
	switch {
	case len(found) == 1:
		return found[0], true
	case len(names) == 0:
		m.add(p.at, path, quote(key), "the whole list: what is in it has no names", "")
	case len(found) == 0:
		m.add(p.at, path, quote(key), "the name of one in the list: "+orList(quoted(names)), didYouMean(key, names))
	default:
		var full, lines []string
		for _, i := range found {
			x := m.list.items[i]
			full, lines = append(full, quote(fullName(x))), append(lines, m.lineOf(x.at, p.at))
		}
		m.add(p.at, path, fmt.Sprintf("%s, the name of %d in the list (%s)", quote(key), len(found), strings.Join(lines, ", ")),
			"station and name: "+orList(full), "")
	}
	return 0, false
}

// lineOf says where something stands, with its file where that is another than the one in which it is told.
func (m *itemMerger) lineOf(at, told place) string {
	if at.src != nil && at.src != told.src {
		return fmt.Sprintf("line %d of %s", at.line, at.src.name)
	}
	return fmt.Sprintf("line %d", at.line)
}

// inFull is the path of a field with each item of a list by its station and name, so that one field has one path. What the tree does not have
// stays as it is written.
func (n *node) inFull(path string) string {
	names := strings.Split(path, ".")
	for i := range names {
		if n == nil {
			break
		}
		if n.kind != list {
			p := n.get(names[i])
			if p == nil {
				break
			}
			n = p.value
			continue
		}
		for k := len(names); k > i; k-- { // the longest name that fits
			if found := n.itemsNamed(strings.Join(names[i:k], ".")); len(found) == 1 {
				full := append(slices.Clone(names[:i]), fullName(n.items[found[0]]))
				return strings.Join(append(full, names[k:]...), ".")
			}
		}
		break
	}
	return path
}
