package scenarios

import (
	"reflect"
	"slices"
)

// TimeFields are the paths of all fields of a scenario that take a time which may vary, such as tip.swap, in the order of the line. Fields inside
// lists are left out: they have no path before the list is written.
func TimeFields() []string { return timeFields("", reflect.TypeFor[Scenario](), 0) }

func timeFields(path string, t reflect.Type, depth int) []string {
	var all []string
	for _, f := range fieldsOf(t) {
		inner := f.typ
		if inner.Kind() == reflect.Pointer {
			inner = inner.Elem()
		}
		if inner.Kind() != reflect.Struct || depth > mostLevels {
			continue
		}
		p := join(path, f.name)
		if inner == reflect.TypeFor[Time]() || isTime(inner) {
			if f.tag.Get("constant") != "yes" {
				all = append(all, p)
			}
			continue
		}
		all = append(all, timeFields(p, inner, depth+1)...)
	}
	return slices.Compact(all)
}

// isTime tells a struct that is a time with something beside it.
func isTime(t reflect.Type) bool {
	f, ok := t.FieldByName("Time")
	return ok && f.Anonymous && f.Type == reflect.TypeFor[Time]()
}

// EachTime visits every time that may vary and is there, with the path under which it is written.
func (s *Scenario) EachTime(visit func(path string, t *Time)) {
	walk("", reflect.ValueOf(s).Elem(), func(path string, v reflect.Value, _ *field) {
		if v.Kind() == reflect.Struct && isTime(v.Type()) {
			v = v.FieldByName("Time")
		}
		if t, ok := v.Addr().Interface().(*Time); ok {
			visit(path, t)
		}
	})
}
