package export

import (
	"encoding/json"
	"fmt"
	"reflect"
	"strings"

	"pascaline/report/grid"
	"pascaline/report/number"
	"pascaline/sim/result"
)

// valuesOf lists every value of results under its name in results.json, in the order of that file: the unit stands in the name. What is only
// there to be drawn (json name "replay") is left out.
func valuesOf(r result.Results) table {
	t := table{title: valuesName, caption: "Every value of results.json, in full, but for the replay; units stand in the names", Grid: grid.Grid{Head: []string{"name", "value"}}}
	t.list("", reflect.ValueOf(r))
	return t
}

// list adds v and what it holds.
func (t *table) list(name string, v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			t.list(name, v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			t.field(name, v.Type().Field(i), v.Field(i))
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			t.list(fmt.Sprintf("%s[%d]", name, i), v.Index(i))
		}
	default:
		if c, ok := scalar(v); ok {
			t.Rows = append(t.Rows, []grid.Cell{{Text: name}, c})
		}
	}
}

func (t *table) field(name string, f reflect.StructField, v reflect.Value) {
	own, _, _ := strings.Cut(f.Tag.Get("json"), ",")
	switch {
	case f.Anonymous && own == "":
		t.list(name, v)
	case !f.IsExported(), own == "-", own == "replay":
	case name == "":
		t.list(own, v)
	default:
		t.list(name+"."+own, v)
	}
}

// scalar makes a cell of a single value; a whole number that a spreadsheet cannot hold is kept as text.
func scalar(v reflect.Value) (grid.Cell, bool) {
	const exact = 1 << 53
	switch v.Kind() {
	case reflect.String:
		return grid.Cell{Text: number.Plain(v.String())}, true
	case reflect.Bool:
		return grid.Cell{Text: fmt.Sprint(v.Bool())}, true
	case reflect.Float32, reflect.Float64:
		return grid.Cell{Value: v.Float(), Number: true, Decimals: grid.Full}, true
	}
	switch {
	case v.CanInt() && v.Int() < exact && v.Int() > -exact:
		return grid.Cell{Value: float64(v.Int()), Number: true}, true
	case v.CanUint() && v.Uint() < exact:
		return grid.Cell{Value: float64(v.Uint()), Number: true}, true
	case v.CanInt(), v.CanUint():
		return grid.Cell{Text: fmt.Sprint(v.Interface())}, true
	}
	data, err := json.Marshal(v.Interface())
	return grid.Cell{Text: string(data)}, err == nil && v.Kind() != reflect.Map
}
