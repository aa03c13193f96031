package scenarios

import (
	"fmt"
	"reflect"
	"strings"

	"pascaline/scenarios/units"
)

func (r *reader) fillScenario(tree *node, s *Scenario) {
	r.trail.places[""] = tree.at
	r.structure("", tree, reflect.ValueOf(s).Elem())
}

// fill reads a node into a value and remembers where it stood.
func (r *reader) fill(path string, key place, n *node, v reflect.Value, f *field) {
	r.trail.places[path] = n.at
	switch n.kind {
	case refused:
		return
	case nothing:
		found, hint := "nothing", "take the field out to have the default"
		if n.text != "" {
			found = quote(n.text)
		}
		if f.need() {
			hint = ""
		}
		r.add(key, path, found, r.wants(v, f), hint)
		return
	}
	if v.Kind() == reflect.Pointer {
		v.Set(reflect.New(v.Type().Elem()))
		v = v.Elem()
	}
	switch x := v.Addr().Interface().(type) {
	case named:
		r.named(path, n, x)
	case units.Quantity:
		r.quantity(path, n, x, v, f)
	case short:
		r.short(path, n, x, v, f)
	default:
		r.compound(path, n, v, f)
	}
}

func (r *reader) compound(path string, n *node, v reflect.Value, f *field) {
	switch v.Kind() {
	case reflect.Struct:
		if n.kind != group {
			r.add(n.at, path, n.show(), r.wants(v, f), "")
			return
		}
		r.structure(path, n, v)
	case reflect.Slice:
		r.slice(path, n, v, f)
	default:
		panic("scenarios: no way to read a " + v.Type().String()) // a fault of ours: the test of all fields finds it
	}
}

func (r *reader) slice(path string, n *node, v reflect.Value, f *field) {
	if d := f.byDefault(); d != "" && n.kind == word && n.text == d {
		return
	}
	if n.kind != list {
		r.add(n.at, path, n.show(), r.wants(v, f), "write it between square brackets")
		return
	}
	if len(n.items) == 0 {
		r.add(n.at, path, "an empty list", r.wants(v, f), "take the field out to have none")
		return
	}
	v.Set(reflect.MakeSlice(v.Type(), len(n.items), len(n.items)))
	for i, item := range n.items {
		r.fill(fmt.Sprintf("%s[%d]", path, i+1), item.at, item, v.Index(i), f)
	}
}

// short reads a struct that can also be written as one word.
func (r *reader) short(path string, n *node, s short, v reflect.Value, f *field) {
	if n.kind == group {
		r.structure(path, n, v)
		if l, ok := s.(lawful); ok {
			l.resolve(r, path, n)
		}
		r.mustBeConstant(path, n, s, f)
		return
	}
	if n.kind != word {
		r.add(n.at, path, n.show(), s.shortWants(), "")
		return
	}
	if err := s.parseShort(n.text); err != nil {
		r.add(n.at, path, quote(n.text), s.shortWants(), err.Error())
		return
	}
	if err := r.wrongNoun(s, n.text, f); err != "" {
		r.add(n.at, path, quote(n.text), s.shortWants(), err)
	}
	r.defaultsIn(path, v, "")
}

func (r *reader) mustBeConstant(path string, n *node, s short, f *field) {
	t, ok := s.(*Time)
	if ok && f.tag.Get("constant") == "yes" && t.Law().Shape != Constant {
		r.add(n.at, path, "a time that varies", `one time, such as "25 s"`, "a belt runs at one speed")
	}
}

func (r *reader) structure(path string, n *node, v reflect.Value) {
	fields := fieldsOf(v.Type())
	names := namesOf(fields)
	for _, p := range n.pairs {
		f := find(fields, p.key)
		if f == nil {
			r.add(p.at, join(path, p.key), fmt.Sprintf("an unknown field %s", quote(p.key)), "one of "+strings.Join(names, ", "), r.unknownHint(n, p, names))
			continue
		}
		r.fill(join(path, f.name), p.at, p.value, v.FieldByIndex(f.index), f)
	}
	for _, f := range fields {
		if n.get(f.name) == nil {
			r.absent(path, n, v.FieldByIndex(f.index), f)
		}
	}
	if a, ok := v.Addr().Interface().(interface{ settle(*node) }); ok {
		a.settle(n)
	}
}

func (r *reader) unknownHint(n *node, p *pair, names []string) string {
	if n.flow && p.value.kind == nothing && p.value.text == "" && strings.Contains(p.key, " ") {
		return "between braces a comma ends the entry; put a word that has one in quotes"
	}
	if strings.Contains(p.key, ".") {
		return "paths with dots belong under variants"
	}
	if len(r.faults) > mostHints {
		return ""
	}
	return didYouMean(p.key, names)
}

// absent gives a field that was not written its default, or says that it is needed.
func (r *reader) absent(path string, n *node, v reflect.Value, f *field) {
	sub := join(path, f.name)
	switch {
	case f.need():
		r.add(n.at, path, "no "+f.name, fmt.Sprintf("%s: %s", f.name, r.wants(v, f)), f.doc())
	case f.byDefault() != "" && v.Kind() != reflect.Slice:
		v.Set(parsed(v.Type(), f.byDefault()))
		r.trail.defaults[sub] = f.byDefault()
		r.defaultsIn(sub, v, "")
	case v.Kind() == reflect.Struct:
		r.defaultsIn(sub, v, sub)
	}
}

// defaultsIn gives the fields inside a struct that was not written, or only as one word, their defaults. They are noted
// under their paths where the whole struct is absent.
func (r *reader) defaultsIn(path string, v reflect.Value, note string) {
	if v.Kind() != reflect.Struct {
		return
	}
	for _, f := range fieldsOf(v.Type()) {
		inner := v.FieldByIndex(f.index)
		sub := join(path, f.name)
		switch {
		case f.need() || !inner.IsZero():
		case f.byDefault() != "" && inner.Kind() != reflect.Slice:
			inner.Set(parsed(inner.Type(), f.byDefault()))
			if note != "" {
				r.trail.defaults[sub] = f.byDefault()
			}
		case inner.Kind() == reflect.Struct:
			r.defaultsIn(sub, inner, note)
		}
	}
}

// wants says what a field wants to find.
func (r *reader) wants(v reflect.Value, f *field) string {
	if v.Kind() == reflect.Pointer {
		v = reflect.New(v.Type().Elem()).Elem()
	}
	if c := f.choices(); c != nil && v.Kind() == reflect.String {
		return orList(quoted(c))
	}
	if w, ok := f.tag.Lookup("endless"); ok {
		return fmt.Sprintf(`a whole number, such as "5", or %q`, w)
	}
	switch x := reflect.New(v.Type()).Interface().(type) {
	case units.Quantity:
		return x.Wants()
	case short:
		return x.shortWants()
	case named:
		return x.wants()
	}
	if v.Kind() == reflect.Slice {
		return "a list: " + r.wants(reflect.New(v.Type().Elem()).Elem(), f)
	}
	return "fields: " + strings.Join(namesOf(fieldsOf(v.Type())), ", ")
}
