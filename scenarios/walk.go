package scenarios

import (
	"fmt"
	"reflect"
)

// walk visits every field that is there, with the path under which it is written.
func walk(path string, v reflect.Value, visit func(path string, v reflect.Value, f *field)) {
	walkField(path, v, &field{}, visit)
}

func walkField(path string, v reflect.Value, f *field, visit func(string, reflect.Value, *field)) {
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return
		}
		v = v.Elem()
	}
	visit(path, v, f)
	switch v.Kind() {
	case reflect.Slice:
		for i := range v.Len() {
			item := v.Index(i)
			walkField(itemPath(path, i, item), item, f, visit)
		}
	case reflect.Struct:
		for _, inner := range fieldsOf(v.Type()) {
			walkField(join(path, inner.name), v.FieldByIndex(inner.index), inner, visit)
		}
	}
}

// itemPath is the path of an item, by its name where the list is written as a group of names.
func itemPath(path string, i int, item reflect.Value) string {
	switch x := item.Interface().(type) {
	case Pool:
		return join(path, x.Name)
	case Shift:
		return join(path, x.Name)
	case Head:
		return join(path, x.Pool)
	case PoolCost:
		return join(path, x.Pool)
	case Dimension:
		return join(path, x.Name)
	case ShiftCost:
		return join(path, x.Shift)
	case ProductLine:
		return join(path, x.Name)
	}
	return fmt.Sprintf("%s[%d]", path, i+1)
}
