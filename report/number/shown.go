package number

import (
	"encoding/json"
	"reflect"
)

// Shown is a copy of r whose words are Plain, for a report: nothing that a user wrote can move a cursor or turn the text around it. A
// number that is not finite is an error that names its field.
func Shown[T any](r *T) (*T, error) {
	if err := Finite(r); err != nil {
		return nil, err
	}
	data, err := json.Marshal(r)
	if err != nil {
		return nil, err
	}
	out := new(T)
	if err := json.Unmarshal(data, out); err != nil {
		return nil, err
	}
	plainAll(reflect.ValueOf(out).Elem())
	return out, nil
}

// plainAll makes every string of v plain, in place.
func plainAll(v reflect.Value) {
	switch v.Kind() {
	case reflect.String:
		v.SetString(Plain(v.String()))
	case reflect.Pointer:
		if !v.IsNil() {
			plainAll(v.Elem())
		}
	case reflect.Slice:
		for i := range v.Len() {
			plainAll(v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			plainAll(v.Field(i))
		}
	}
}
