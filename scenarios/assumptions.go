package scenarios

import (
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"
)

// Assumption is something that the results rest on and that nobody stated, or stated unusually.
type Assumption struct {
	Where  string // the field, such as product.hold
	Value  string // what is used
	Origin string // default, or where it was written
	Says   string // in a sentence
}

// Assumptions are the defaults that were used and the values outside their typical range.
func (s *Scenario) Assumptions() []Assumption {
	a := assumer{s: s}
	a.group("", s.tree(), reflect.TypeFor[Scenario]())
	return append(together(a.found), s.unusual()...)
}

type assumer struct {
	s     *Scenario
	found []Assumption
}

// Fields whose default is no assumption about the plant.
var silent = map[string]bool{"schema": true, "product.name": true}

func (a *assumer) group(path string, n *node, t reflect.Type) {
	for _, f := range fieldsOf(t) {
		sub := join(path, f.name)
		if p := n.get(f.name); p != nil {
			a.written(sub, p.value, f.typ)
		} else if !silent[sub] && !a.s.eachProductStates(sub) {
			a.absent(sub, n, f)
		}
	}
}

// eachProductStates tells whether there are products and each states a field itself: its default in the common line is used for none of them.
func (s *Scenario) eachProductStates(path string) bool {
	return len(s.Products) > 0 && !slices.ContainsFunc(s.Products, func(p ProductLine) bool {
		if p.Line == nil {
			return true
		}
		n := p.Line.tree().find(path)
		return n == nil || n.kind == group // of a group it may be the other fields
	})
}

func (a *assumer) written(path string, n *node, t reflect.Type) {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch {
	case n.kind == group && t.Kind() == reflect.Struct:
		a.group(path, n, t)
	case n.kind == group:
		for _, p := range n.pairs {
			a.written(join(path, p.key), p.value, t.Elem())
		}
	case n.kind == list:
		for i, item := range n.items {
			if item.kind == group {
				a.group(fmt.Sprintf("%s[%d]", path, i+1), item, t.Elem())
			}
		}
	}
}

var inDoc = regexp.MustCompile(` ?\(default: ([^()]*(?:\([^()]*\)[^()]*)*)\)`)

func (a *assumer) absent(path string, n *node, f *field) {
	text, ok := a.s.defaultOf(path, n, f)
	if ok {
		a.add(path, text, f)
		return
	}
	if m := inDoc.FindStringSubmatch(f.doc()); m != nil && f.appliesTo(n) && !f.need() {
		value, _, _ := strings.Cut(m[1], ";")
		a.add(path, value, f)
		return
	}
	if f.typ.Kind() == reflect.Struct && !f.need() {
		a.group(path, &node{kind: group}, f.typ)
	}
}

func (a *assumer) add(path, value string, f *field) {
	doc, _, _ := strings.Cut(inDoc.ReplaceAllString(f.doc(), ""), "; left out:")
	origin, source := "default", f.tag.Get("source")
	if source != "" {
		origin = "default; " + source
	}
	says := fmt.Sprintf("not stated; taken as: %s (%s).", value, doc)
	if source != "" {
		says = fmt.Sprintf("not stated; taken as: %s (%s). Put in the value of your validated process.", value, source)
	}
	a.found = append(a.found, Assumption{path, value, origin, says})
}

var itemNumber = regexp.MustCompile(`\[([0-9]+)\]`)

// together makes one sentence of what is assumed alike for several items of a list.
func together(found []Assumption) []Assumption {
	type alike struct{ field, value string }
	at := map[alike]int{}
	numbers := map[int][]string{}
	var merged []Assumption
	for _, a := range found {
		m := itemNumber.FindStringSubmatch(a.Where)
		if m == nil {
			merged = append(merged, a)
			continue
		}
		key := alike{itemNumber.ReplaceAllString(a.Where, ""), a.Value}
		i, ok := at[key]
		if !ok {
			i = len(merged)
			at[key] = i
			merged = append(merged, a)
		}
		numbers[i] = append(numbers[i], m[1])
	}
	for i := range merged {
		if n := numbers[i]; len(n) > 1 {
			merged[i].Where = itemNumber.ReplaceAllString(merged[i].Where, "["+strings.Join(n, ", ")+"]")
		}
		merged[i].Says = merged[i].Where + " is " + merged[i].Says
	}
	return merged
}
