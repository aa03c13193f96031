package number

import (
	"fmt"
	"math"
	"reflect"
	"strings"
)

// Finite reports the first field of v, by its JSON path, that is not a finite number: JSON cannot carry it and no chart can
// draw it. Nil when all are finite.
func Finite(v any) error {
	path, bad := firstBad(reflect.ValueOf(v), "")
	if path == "" && bad == 0 {
		return nil
	}
	return fmt.Errorf("%s is %v, not a number that can be written: this is a fault of the program, please report it with the scenario and the seed",
		strings.TrimPrefix(path, "."), bad)
}

// firstBad walks v in the order of its fields and gives the path and value of the first NaN or infinity; 0 where none is.
func firstBad(v reflect.Value, path string) (string, float64) {
	switch v.Kind() {
	case reflect.Float64, reflect.Float32:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			if path == "" {
				path = "the value"
			}
			return path, f
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			return firstBad(v.Elem(), path)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if p, f := firstBad(v.Index(i), fmt.Sprintf("%s[%d]", path, i)); p != "" {
				return p, f
			}
		}
	case reflect.Map:
		for _, k := range v.MapKeys() {
			if p, f := firstBad(v.MapIndex(k), fmt.Sprintf("%s.%v", path, k)); p != "" {
				return p, f
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			field := v.Type().Field(i)
			if p, f := firstBad(v.Field(i), path+"."+jsonName(field)); p != "" {
				return p, f
			}
		}
	}
	return "", 0
}

// jsonName is the name of a field in the results file.
func jsonName(f reflect.StructField) string {
	name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
	if name == "" || name == "-" {
		return f.Name
	}
	return name
}
