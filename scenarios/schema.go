package scenarios

import (
	"encoding/json"
	"reflect"
	"strings"

	"pascaline/scenarios/units"
)

// Schema is the JSON Schema (draft-07) of a scenario file, made from the same struct tags that the reader goes by, so that an editor completes
// and explains fields. It knows names, nesting, choices, and what is needed; what only makes sense together, and the units of values, the reader
// alone checks. A file with a base needs nothing of its own, because the base may have it.
func Schema() ([]byte, error) {
	m := &schemaMaker{definitions: map[string]any{}}
	whole := m.ref(reflect.TypeFor[Scenario]())
	m.loose = true
	part := m.ref(reflect.TypeFor[Scenario]())
	for _, name := range []string{"Scenario", "Scenario_part"} {
		p := m.definitions[name].(map[string]any)["properties"].(map[string]any)
		p["base"] = described(map[string]any{"type": "string"}, "a scenario file that this one goes by; only what differs is written here")
		p["variants"] = described(map[string]any{"type": "object", "additionalProperties": map[string]any{"type": "object"}},
			"names of variants, each with what it changes, such as loading.stations: 2 or stops.jam.takes: 5 min; where stops of two stations "+
				"have one name, station and name: stops.tip/jam.takes")
	}
	return json.MarshalIndent(map[string]any{
		"$schema": "http://json-schema.org/draft-07/schema#", "title": "pascaline scenario",
		"if": map[string]any{"required": []string{"base"}}, "then": part, "else": whole, "definitions": m.definitions,
	}, "", "  ")
}

// schemaMaker collects the definition of each type. loose leaves out what is needed.
type schemaMaker struct {
	definitions map[string]any
	loose       bool
}

func described(s map[string]any, doc string) map[string]any {
	if doc != "" {
		s["description"] = doc
	}
	return s
}

// ref points to the definition of a struct, and makes it.
func (m *schemaMaker) ref(t reflect.Type) map[string]any {
	name := m.name(t)
	if _, done := m.definitions[name]; !done {
		m.definitions[name] = nil // so that a type within itself ends
		m.definitions[name] = m.object(t)
	}
	return map[string]any{"$ref": "#/definitions/" + name}
}

func (m *schemaMaker) name(t reflect.Type) string {
	name := strings.Map(func(r rune) rune {
		if r == '_' || r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' {
			return r
		}
		return '_'
	}, t.Name())
	if m.loose {
		name += "_part"
	}
	return name
}

// object is a group of named fields.
func (m *schemaMaker) object(t reflect.Type) map[string]any {
	properties, need := map[string]any{}, []string{}
	for _, f := range fieldsOf(t) {
		properties[f.name] = m.field(f)
		if f.need() && !m.loose {
			need = append(need, f.name)
		}
	}
	s := map[string]any{"type": "object", "properties": properties, "additionalProperties": false}
	if len(need) > 0 {
		s["required"] = need
	}
	return s
}

// field is a field with its text, default and choices. A reference stands alone in draft-07, so it is wrapped.
func (m *schemaMaker) field(f *field) map[string]any {
	s := m.value(f.typ, f)
	if _, is := s["$ref"]; is {
		s = map[string]any{"allOf": []any{s}}
	}
	doc := f.doc()
	for _, bound := range []struct{ name, words string }{{"default", "left out: "}, {"least", "at least "}, {"most", "at most "}} {
		if v := f.tag.Get(bound.name); v != "" {
			doc += "; " + bound.words + v
		}
	}
	return described(s, strings.TrimPrefix(doc, "; "))
}

// value is what a type may be written as.
func (m *schemaMaker) value(t reflect.Type, f *field) map[string]any {
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if c := f.choices(); c != nil && t.Kind() == reflect.String {
		return map[string]any{"enum": c}
	}
	switch x := reflect.New(t).Interface().(type) {
	case named:
		return map[string]any{"type": "object", "additionalProperties": m.named(t.Elem()), "minProperties": 1}
	case units.Quantity:
		return oneWord(x)
	case short:
		if _, ok := x.(*HandTime); ok {
			return m.ref(t)
		}
		return map[string]any{"anyOf": []any{shortWord(x), m.ref(t)}}
	}
	switch t.Kind() {
	case reflect.Slice:
		items := map[string]any{"type": "array", "items": m.value(t.Elem(), f), "minItems": 1}
		if d := f.byDefault(); d != "" {
			return map[string]any{"anyOf": []any{items, map[string]any{"const": d}}}
		}
		if m.loose && t.Elem() == reflect.TypeFor[Stop]() { // over the list of the base, by name
			byName := map[string]any{"type": "object", "additionalProperties": m.ref(t.Elem())}
			return map[string]any{"anyOf": []any{items, byName}}
		}
		if f.tag.Get("table") == "yes" {
			return map[string]any{"anyOf": []any{items, map[string]any{"type": "string"}}}
		}
		return items
	default:
		return m.ref(t)
	}
}

// named is one of a list that is written as a group of names.
func (m *schemaMaker) named(t reflect.Type) map[string]any {
	if t == reflect.TypeFor[ProductLine]() {
		return m.productLine()
	}
	if _, ok := reflect.New(t).Interface().(short); ok {
		return m.value(t, &field{})
	}
	if len(fieldsOf(t)) > 0 {
		return m.ref(t)
	}
	for i := range t.NumField() { // a name and one value, such as a pool and its heads
		inner := t.Field(i).Type
		if inner.Kind() == reflect.String && inner.Name() == "string" {
			continue
		}
		return m.value(inner, &field{})
	}
	return map[string]any{}
}

// productLine is what one of several products may have of its own: fields of product, its group, and values of the line by dotted paths or nested.
func (m *schemaMaker) productLine() map[string]any {
	s := m.object(reflect.TypeFor[Product]())
	delete(s, "required")
	p := s["properties"].(map[string]any)
	p["group"] = described(oneWord(new(units.Text)), "for changeovers, such as an allergen")
	for _, path := range ownValues {
		p[path] = map[string]any{}
		first, _, _ := strings.Cut(path, ".")
		p[first] = map[string]any{"type": "object"}
	}
	return s
}

// oneWord is a quantity: text, and a plain number where it needs no unit.
func oneWord(q units.Quantity) map[string]any {
	types := []string{"string"}
	if q.Parse("5") == nil {
		types = append(types, "number")
	}
	if _, ok := q.(*units.Text); ok {
		types = append(types, "boolean") // a text may be the word "true"
	}
	s := map[string]any{"type": types}
	if _, ok := q.(*units.Text); !ok {
		s["title"] = q.Wants()
	}
	return s
}

// shortWord is the short form of a struct: text, and a plain number where that is one.
func shortWord(s short) map[string]any {
	types := []string{"string"}
	if s.parseShort("5") == nil {
		types = append(types, "number")
	}
	return map[string]any{"type": types, "title": s.shortWants()}
}

// SchemaFile is the name under which the schema lies beside a scenario, and SchemaLine the first line of a file that points an editor to it.
const (
	SchemaFile = "pascaline.schema.json"
	SchemaLine = "# yaml-language-server: $schema=" + SchemaFile + "\n"
)
