package scenarios

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
)

// Differing is a field that is not written alike in several scenarios.
type Differing struct {
	Where  string   // path of the field, such as loading.swap.by
	Values []string // in the order of the scenarios; "none" where it is not part of the line
}

// Differ lists the fields in which scenarios differ, defaults filled in, in the order of the scenario file. Names and notes are left out, and how
// long a study goes on (seed, precision, replications), which one study settles for all.
func Differ(all []*Scenario) []Differing {
	var order []string
	values := make([]map[string]string, len(all))
	for i, s := range all {
		d := differ{s: s, values: map[string]string{}}
		d.group("", s.tree(), reflect.TypeFor[Scenario]())
		values[i] = d.values
		at := 0 // fields that only a later scenario has come after what stands before them in it
		for _, path := range d.order {
			if k := slices.Index(order, path); k >= 0 {
				at = k + 1
				continue
			}
			order = slices.Insert(order, at, path)
			at++
		}
	}
	var list []Differing
	for _, path := range order {
		x := Differing{Where: path}
		alike := true
		for i := range all {
			text, ok := values[i][path]
			if !ok {
				text = "none"
			}
			x.Values = append(x.Values, text)
			alike = alike && text == x.Values[0]
		}
		if !alike {
			list = append(list, x)
		}
	}
	return list
}

// What belongs to the study or to its reader, not to the plant.
var notCompared = []string{"scenario", "schema", "note", "run.seed", "run.precision", "run.replications"}

// differ puts the fields of one scenario in a row.
type differ struct {
	s      *Scenario
	order  []string
	values map[string]string
}

func (d *differ) put(path, text string) {
	if _, ok := d.values[path]; !ok && !slices.Contains(notCompared, path) {
		d.order = append(d.order, path)
		d.values[path] = text
	}
}

func (d *differ) group(path string, n *node, t reflect.Type) {
	for _, f := range fieldsOf(t) {
		if (f.name == "as" || slices.Contains(lawFields, f.name)) && n.get(f.name) == nil {
			continue // the shape follows from what is stated
		}
		sub := join(path, f.name)
		if p := n.get(f.name); p != nil {
			d.written(sub, p.value, f.typ)
			continue
		}
		if text, ok := d.s.defaultOf(sub, n, f); ok {
			d.put(sub, text)
		} else if f.typ.Kind() == reflect.Struct && !f.need() {
			d.group(sub, &node{kind: group}, f.typ)
		}
	}
}

func (d *differ) written(path string, n *node, t reflect.Type) {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch {
	case n.kind == word:
		d.put(path, n.text)
		if t.Kind() == reflect.Struct {
			d.group(path, &node{kind: group}, t) // what else belongs to a value written as one word, such as hand_time.per
		}
	case n.kind == group && len(n.lawKeys()) > 0:
		var parts []string
		for _, key := range n.lawKeys() {
			parts = append(parts, key+" "+n.get(key).value.text)
		}
		d.put(path, strings.Join(parts, ", ")) // a distribution is one value
		d.group(path, n.without(n.lawKeys()...), t)
	case n.kind == group && t.Kind() == reflect.Struct:
		d.group(path, n, t)
	case n.kind == group:
		for _, p := range n.pairs {
			d.written(join(path, p.key), p.value, t.Elem())
		}
	case len(n.items) > 0 && n.items[0].kind == word:
		d.put(path, flowList(n))
	default:
		taken := map[string]bool{}
		for i, item := range n.items {
			sub := join(path, fullName(item))
			if sub == path+"." || taken[sub] {
				sub = fmt.Sprintf("%s[%d]", path, i+1)
			}
			taken[sub] = true
			d.written(sub, item, t.Elem())
		}
	}
}
