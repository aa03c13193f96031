package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/testscript"
)

// Each script of testdata/script calls the program as a user does and looks at what it prints, writes and returns.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join("testdata", "script"),
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		UpdateScripts:       *update,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"code":     code,
			"json":     jsonFields,
			"samejson": sameJSON,
			"lacks":    lacks,
			"cut":      cut,
			"samebut":  sameBut,
		},
	})
}

// code N ARGS... runs pascaline and wants exactly exit code N.
func code(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 1 {
		ts.Fatalf("usage: code N ARGS...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	err = ts.Exec("pascaline", args[1:]...)
	got := 0
	if e, ok := err.(interface{ ExitCode() int }); ok {
		got = e.ExitCode()
	} else if err != nil {
		ts.Fatalf("did not run: %v", err)
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

// json FILE PATH VALUE... reads a file (or stdout) as JSON and compares fields; "number" and "string" take any of that kind,
// "absent" wants that the field is not there.
func jsonFields(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args)%2 == 0 {
		ts.Fatalf("usage: json FILE PATH VALUE [PATH VALUE]...")
	}
	v := decode(ts, args[0])
	for i := 1; i < len(args); i += 2 {
		path, want := args[i], args[i+1]
		got, err := field(v, path)
		if want == "absent" {
			if err == nil {
				ts.Fatalf("%s is there: %v", path, got)
			}
			continue
		}
		ts.Check(err)
		_, number := got.(float64)
		_, text := got.(string)
		if want == "number" && number || want == "string" && text {
			continue
		}
		if s := fmt.Sprint(got); s != want {
			ts.Fatalf("%s is %q, want %q", path, s, want)
		}
	}
}

func decode(ts *testscript.TestScript, file string) (v any) {
	dec := json.NewDecoder(strings.NewReader(ts.ReadFile(file)))
	ts.Check(dec.Decode(&v))
	if dec.More() {
		ts.Fatalf("%s goes on after its JSON", file)
	}
	return v
}

// samejson A B NAME... wants the top fields of these names to be alike in two files.
func sameJSON(ts *testscript.TestScript, _ bool, args []string) {
	a, ok := decode(ts, args[0]).(map[string]any)
	b, fine := decode(ts, args[1]).(map[string]any)
	if !ok || !fine {
		ts.Fatalf("no objects")
	}
	for _, name := range args[2:] {
		if a[name] == nil {
			ts.Fatalf("%s has no %q", args[0], name)
		}
		if d := cmp.Diff(a[name], b[name]); d != "" {
			ts.Fatalf("%s differs:\n%s", name, d)
		}
	}
}

// field follows a path such as headline.finished_packs_per_h.mean or options.0.name; a list gives its length.
func field(v any, path string) (any, error) {
	for _, key := range strings.Split(path, ".") {
		if list, ok := v.([]any); ok {
			i, err := strconv.Atoi(key)
			if err != nil || i < 0 || i >= len(list) {
				return nil, fmt.Errorf("%s: the list has %d items, no %q", path, len(list), key)
			}
			v = list[i]
			continue
		}
		m, ok := v.(map[string]any)
		if !ok {
			return nil, fmt.Errorf("%s: nothing can be looked up before %q", path, key)
		}
		if v, ok = m[key]; !ok {
			return nil, fmt.Errorf("%s: there is no %q", path, key)
		}
	}
	if list, ok := v.([]any); ok {
		return len(list), nil
	}
	return v, nil
}

// lacks FILE... wants no file and no folder of these names.
func lacks(ts *testscript.TestScript, _ bool, args []string) {
	for _, name := range args {
		if _, err := os.Lstat(ts.MkAbs(name)); err == nil {
			ts.Fatalf("%s is there", name)
		}
	}
}

// cut FROM TO keeps the first half of a file.
func cut(ts *testscript.TestScript, _ bool, args []string) {
	b := ts.ReadFile(args[0])
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(b[:len(b)/2]), 0o644))
}

// samebut A B TEXT wants two files alike but for lines that contain TEXT, which at least one line of A does.
func sameBut(ts *testscript.TestScript, _ bool, args []string) {
	a, b := without(ts.ReadFile(args[0]), args[2]), without(ts.ReadFile(args[1]), args[2])
	if len(a) == len(ts.ReadFile(args[0])) {
		ts.Fatalf("%s has no line with %q", args[0], args[2])
	}
	if !bytes.Equal(a, b) {
		ts.Fatalf("%s and %s differ in more than %q", args[0], args[1], args[2])
	}
}

func without(s, text string) []byte {
	var b bytes.Buffer
	for line := range strings.Lines(s) {
		if !strings.Contains(line, text) {
			b.WriteString(line)
		}
	}
	return b.Bytes()
}
