package scenarios

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

func compiled(t *testing.T) *jsonschema.Schema {
	t.Helper()
	b, err := Schema()
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(string(b)))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft7)
	if err := c.AddResource("scenario.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("scenario.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// seen is a file as an editor sees it, with plain words that are numbers as numbers; ok is false where it is no plain YAML. It goes by the reader's tree,
// which keeps 08:30 between square brackets as one word, as YAML 1.2 wants.
func seen(t *testing.T, file string, src []byte) (v any, ok bool) {
	t.Helper()
	var faults faultList
	tree := parse(newSource(file, file, src), &faults)
	if tree == nil || len(faults.faults) > 0 {
		return nil, false
	}
	b, err := json.Marshal(plainValue(tree))
	if err != nil {
		t.Fatal(err)
	}
	if v, err = jsonschema.UnmarshalJSON(strings.NewReader(string(b))); err != nil {
		t.Fatal(err)
	}
	return v, true
}

func plainValue(n *node) any {
	switch n.kind {
	case group:
		m := map[string]any{}
		for _, p := range n.pairs {
			m[p.key] = plainValue(p.value)
		}
		return m
	case list:
		items := []any{}
		for _, i := range n.items {
			items = append(items, plainValue(i))
		}
		return items
	case nothing:
		return nil
	}
	if f, err := strconv.ParseFloat(n.text, 64); err == nil && !n.quoted && !math.IsInf(f, 0) && !math.IsNaN(f) {
		return f
	}
	if !n.quoted && (n.text == "true" || n.text == "false") {
		return n.text == "true"
	}
	return n.text
}

// Every file that the reader takes is valid by the schema.
func TestSchemaTakesWhatTheReaderTakes(t *testing.T) {
	s := compiled(t)
	n := 0
	for _, pattern := range []string{"examples/*.yaml", "../testdata/good/*.yaml", "../testdata/hand/*.yaml", "../testdata/lines/*.yaml", "../testdata/fit/*.yaml", "../testdata/published/queues-*.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: %d files, %v", pattern, len(files), err)
		}
		for _, file := range files {
			src, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			v, ok := seen(t, file, src)
			if !ok {
				t.Errorf("%s: no YAML", file)
				continue
			}
			n++
			if err := s.Validate(v); err != nil {
				t.Errorf("%s: %v", file, err)
			}
		}
	}
	if n < 50 {
		t.Errorf("only %d files", n)
	}
}

// Every file with a wrong name, a wrong nesting or something missing is invalid by the schema too.
func TestSchemaRefusesWhatIsBuiltWrong(t *testing.T) {
	s := compiled(t)
	files, err := filepath.Glob("../testdata/bad/*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		faults := builtWrong(file, src)
		v, ok := seen(t, file, src)
		if !ok || len(faults) == 0 {
			continue
		}
		n++
		if s.Validate(v) == nil {
			t.Errorf("%s is valid by the schema: %v", file, faults)
		}
	}
	if n < 8 {
		t.Errorf("only %d files are built wrong", n)
	}
}

// builtWrong are the faults of names and nesting that the reader tells before it looks at what fits together.
func builtWrong(file string, src []byte) []Fault {
	r := &reader{open: readFile, join: filepath.Join, dir: filepath.Dir, trail: &Trail{places: map[string]place{}, defaults: map[string]string{}}}
	tree := parse(newSource(file, file, src), &r.faultList)
	if tree == nil || tree.get("base") != nil {
		return nil
	}
	r.faults = nil
	if l := tree.get("lots"); l != nil && l.value.kind == word {
		tree = tree.without("lots") // a table beside it
	}
	r.fillScenario(tree.without("variants"), &Scenario{})
	return slices.DeleteFunc(r.faults, func(f Fault) bool {
		built := strings.HasPrefix(f.Found, "an unknown field") || slices.Contains([]string{"a list", "an empty list", "a group of fields", "an empty group"}, f.Found) ||
			strings.HasPrefix(f.Found, "no ") && strings.HasPrefix(f.Want, strings.TrimPrefix(f.Found, "no ")+": ")
		return !built
	})
}

// The schema explains every field: an editor shows its text.
func TestSchemaExplainsFields(t *testing.T) {
	b, err := Schema()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"people fill carriers by hand", "left out: 180 s", "\"push_through\"", "validated hold at pressure; always the same", "\"size\"", "\"money\"", "\"lots\""} {
		if !strings.Contains(string(b), want) {
			t.Errorf("the schema lacks %s", want)
		}
	}
	again, err := Schema()
	if err != nil || string(again) != string(b) {
		t.Error("a second time it differs")
	}
}
