package scenarios

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"pascaline/scenarios/units"
)

// quantity reads one word.
func (r *reader) quantity(path string, n *node, q units.Quantity, v reflect.Value, f *field) {
	if n.kind != word {
		r.add(n.at, path, n.show(), r.wants(v, f), "")
		return
	}
	text := n.text
	if strings.TrimSpace(text) == "" {
		r.add(n.at, path, "a blank text", r.wants(v, f), "")
		return
	}
	if withoutEnd(text, v, f) {
		return
	}
	for _, words := range words(f.tag.Get("behind")) {
		text = strings.TrimSuffix(text, " "+words)
	}
	if err := q.Parse(text); err != nil {
		r.add(n.at, path, quote(n.text), r.wants(v, f), err.Error())
		return
	}
	if hint := r.wrongNoun(q, text, f); hint != "" {
		r.add(n.at, path, quote(n.text), r.wants(v, f), hint)
		return
	}
	r.limits(path, n, v, f)
}

// withoutEnd takes a word that stands for a value of its own: "without end" where a number is wanted.
func withoutEnd(text string, v reflect.Value, f *field) bool {
	word, ok := f.tag.Lookup("endless")
	if !ok || text != word {
		return false
	}
	v.SetInt(endless)
	return true
}

// endless marks a count that was written as "without end", until its struct takes note of it.
const endless = -1

func (r *reader) wrongNoun(q any, text string, f *field) string {
	n, ok := q.(interface{ Noun(string) string })
	if !ok {
		return ""
	}
	noun := n.Noun(text)
	switch allowed := f.nouns(); {
	case noun == "" || slices.Contains(allowed, noun):
		return ""
	case len(allowed) == 0:
		return fmt.Sprintf("%s are not counted here; write the number alone", noun)
	default:
		return fmt.Sprintf("%s are counted here, not %s", orList(allowed), noun)
	}
}

// limits holds a value against the choices and bounds of its field.
func (r *reader) limits(path string, n *node, v reflect.Value, f *field) {
	if c := f.choices(); c != nil && v.Kind() == reflect.String && !slices.Contains(c, v.String()) {
		r.add(n.at, path, quote(n.text), r.wants(v, f), didYouMean(n.text, c))
		return
	}
	if least := f.tag.Get("least"); least != "" && asNumber(v) < asNumber(parsed(v.Type(), least)) {
		r.add(n.at, path, quote(n.text), fmt.Sprintf("at least %q", least), "")
	}
	if most := f.tag.Get("most"); most != "" && asNumber(v) > asNumber(parsed(v.Type(), most)) {
		r.add(n.at, path, quote(n.text), fmt.Sprintf("at most %q", most), "")
	}
}

// parsed reads a bound or default of a struct tag.
func parsed(t reflect.Type, text string) reflect.Value {
	v := reflect.New(t)
	var err error
	switch x := v.Interface().(type) {
	case units.Quantity:
		err = x.Parse(text)
	case short:
		err = x.parseShort(text)
	}
	if err != nil {
		panic(fmt.Sprintf("scenarios: the tag %q is no %s: %v", text, t, err)) // a fault of ours: the test of all fields finds it
	}
	return v.Elem()
}

func asNumber(v reflect.Value) float64 {
	switch v.Kind() {
	case reflect.Int64:
		return float64(v.Int())
	case reflect.Float64:
		return v.Float()
	}
	return 0
}
