package scenarios

import (
	"reflect"
	"strings"
)

// field is one named field of a struct, as its tags describe it.
type field struct {
	name  string
	index []int
	typ   reflect.Type
	tag   reflect.StructTag
}

func (f *field) need() bool        { return f.tag.Get("need") == "yes" }
func (f *field) byDefault() string { return f.tag.Get("default") }
func (f *field) doc() string       { return f.tag.Get("doc") }

func (f *field) choices() []string { return words(f.tag.Get("choices")) }
func (f *field) nouns() []string   { return words(f.tag.Get("noun")) }

func words(tag string) []string {
	if tag == "" {
		return nil
	}
	return strings.Split(tag, "|")
}

// fieldsOf are the fields of a struct in order; those of an embedded struct stand among its own.
func fieldsOf(t reflect.Type) []*field {
	var fields []*field
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Anonymous {
			for _, inner := range fieldsOf(f.Type) {
				inner.index = append([]int{i}, inner.index...)
				fields = append(fields, inner)
			}
			continue
		}
		name := f.Tag.Get("yaml")
		if name == "" || name == "-" {
			continue
		}
		fields = append(fields, &field{name: name, index: []int{i}, typ: f.Type, tag: f.Tag})
	}
	return fields
}

func namesOf(fields []*field) []string {
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.name
	}
	return names
}

func find(fields []*field, name string) *field {
	for _, f := range fields {
		if f.name == name {
			return f
		}
	}
	return nil
}
