package store_test

import (
	"encoding/json"
	"errors"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pascaline/report/internal/fixture"
	"pascaline/report/store"
	"pascaline/sim/result"
)

// onlyFile makes sure that a folder holds one file with the content, and nothing else.
func onlyFile(t *testing.T, path, want string) {
	t.Helper()
	files, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		t.Fatal(err)
	}
	if len(files) != 1 {
		t.Errorf("%d files in the folder: %v", len(files), files)
	}
	if got, err := os.ReadFile(path); err != nil || string(got) != want {
		t.Errorf("the file holds %.40q, %v", got, err)
	}
}

func TestWriteMakesAndReplaces(t *testing.T) {
	path := filepath.Join(t.TempDir(), "results.json")
	for _, content := range []string{"first", "second and longer", ""} {
		if err := store.Write(path, []byte(content)); err != nil {
			t.Fatal(err)
		}
		onlyFile(t, path, content)
	}
}

func TestWriteGoesThroughALink(t *testing.T) {
	dir := t.TempDir()
	real, link := filepath.Join(dir, "real"), filepath.Join(dir, "link")
	if err := os.WriteFile(real, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(real, link); err != nil {
		t.Skip("no links here:", err)
	}
	if err := store.Write(link, []byte("new")); err != nil {
		t.Fatal(err)
	}
	if got, _ := os.ReadFile(real); string(got) != "new" {
		t.Errorf("what the link points to holds %q", got)
	}
}

// A file that is replaced keeps its permissions; one that is read-only is not replaced, though its folder would allow it.
func TestWriteKeepsPermissions(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("permissions are others there")
	}
	for _, c := range []struct {
		name string
		mode os.FileMode
		want string
	}{{"a private file", 0o600, "new"}, {"one of a group", 0o664, "new"}, {"a read-only file", 0o400, "old"}, {"read-only for all", 0o444, "old"}} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "line.yaml")
			if err := errors.Join(os.WriteFile(path, []byte("old"), 0o644), os.Chmod(path, c.mode)); err != nil {
				t.Fatal(err)
			}
			err, trial := store.Write(path, []byte("new")), store.Rehearse(nil, []string{path})
			if refused := c.want == "old"; refused != (err != nil) || refused != (trial != nil) {
				t.Errorf("written: %v, tried: %v", err, trial)
			}
			if err != nil && !strings.Contains(err.Error(), "line.yaml: it is read-only; make it writable or choose another name") {
				t.Error(err)
			}
			onlyFile(t, path, c.want)
			if info, err := os.Stat(path); err != nil || info.Mode().Perm() != c.mode {
				t.Errorf("%v, %v", info.Mode(), err)
			}
		})
	}
}

func TestWriteFailsWithARemedy(t *testing.T) {
	dir := t.TempDir()
	kept := filepath.Join(dir, "kept")
	if err := os.WriteFile(kept, []byte("kept"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ name, path, want string }{
		{"folder missing", filepath.Join(dir, "none", "x.json"), "does not exist; make it first"},
		{"a folder is there", dir, "it is a folder; name a file"},
		{"a file where a folder is wanted", filepath.Join(kept, "x.json"), "is not a folder; choose another place"},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := store.Write(c.path, []byte("x"))
			if err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "cannot write "+c.path) {
				t.Errorf("got %v, want %q", err, c.want)
			}
			onlyFile(t, kept, "kept")
		})
	}
}

func TestSaveAndLoadGiveTheSame(t *testing.T) {
	for name, r := range map[string]*result.Run{"full": fixture.Run(), "bare": fixture.Bare(), "crowded": fixture.Crowded(), "hostile": fixture.Hostile()} {
		path := filepath.Join(t.TempDir(), "results.json")
		if err := store.Save(path, r); err != nil {
			t.Fatal(name, err)
		}
		first, _ := os.ReadFile(path)
		if !strings.HasSuffix(string(first), "}\n") {
			t.Errorf("%s: no newline at the end", name)
		}
		back, err := store.Load(path)
		if err != nil {
			t.Fatal(name, err)
		}
		second, err := store.Encode(back)
		if err != nil {
			t.Fatal(name, err)
		}
		if d := cmp.Diff(string(first), string(second)); d != "" {
			t.Errorf("%s: other bytes after reading:\n%.600s", name, d)
		}
	}
}

func TestSaveNamesTheFieldThatIsNoNumber(t *testing.T) {
	for _, c := range []struct {
		name, want string
		spoil      func(*result.Run)
	}{
		{"not a number in a list", "stations[1].shares[0].share is NaN", func(r *result.Run) { r.Stations[1].Shares[0].Share = math.NaN() }},
		{"infinity behind a pointer", "headline.finished_packs_per_h.half_width is +Inf", func(r *result.Run) { *r.Headline.PacksPerH.HalfWidth = math.Inf(1) }},
		{"in a list of numbers", "profile.p10[3] is -Inf", func(r *result.Run) { r.Profile.P10[3] = math.Inf(-1) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, dir := fixture.Run(), t.TempDir()
			c.spoil(r)
			err := store.Save(filepath.Join(dir, "results.json"), r)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %q", err, c.want)
			}
			if left, _ := os.ReadDir(dir); len(left) != 0 {
				t.Errorf("it left %v behind", left)
			}
		})
	}
}

// edited is the full results file with one field changed.
func edited(t *testing.T, change func(map[string]any)) string {
	t.Helper()
	data, err := store.Encode(fixture.Run())
	if err != nil {
		t.Fatal(err)
	}
	var m map[string]any
	if err := json.Unmarshal(data, &m); err != nil {
		t.Fatal(err)
	}
	change(m)
	data, err = json.Marshal(m)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// firstTrack is the first track of the first replay.
func firstTrack(m map[string]any) map[string]any {
	return m["replays"].([]any)[0].(map[string]any)["tracks"].([]any)[0].(map[string]any)
}

func TestLoadRefusesWithAClearWord(t *testing.T) {
	whole := edited(t, func(map[string]any) {})
	for _, c := range []struct{ name, content, want string }{
		{"nothing in it", "", "is empty: run the scenario again"},
		{"blanks only", " \n", "is empty"},
		{"cut off", whole[:len(whole)/2], "is cut off: it ends in the middle"},
		{"cut off at the last bracket", strings.TrimSuffix(whole, "}"), "is cut off"},
		{"no JSON", "seed: 1\n", "is not a results file"},
		{"two documents", whole + whole, "goes on after its end"},
		{"JSON of somebody else", `{"version": 3}`, "is JSON, but no results of pascaline"},
		{"a list", `[1, 2]`, "is JSON, but no results of pascaline"},
		{"another program", edited(t, func(m map[string]any) { m["program"] = "other" }), "no results of pascaline"},
		{"newer", edited(t, func(m map[string]any) { m["schema_version"] = 2 }), "written by a newer pascaline (schema version 2, this one reads 1)"},
		{"a version that never was", edited(t, func(m map[string]any) { m["schema_version"] = 0 }), "which never was"},
		{"half a version", edited(t, func(m map[string]any) { m["schema_version"] = 1.5 }), "which never was"},
		{"another kind", edited(t, func(m map[string]any) { m["kind"] = "recipe" }), `of the kind "recipe", which this pascaline does not know`},
		{"unknown field", edited(t, func(m map[string]any) { m["extra"] = 1 }), `a field "extra" that this pascaline does not know`},
		{"words for a number", edited(t, func(m map[string]any) { m["balance"] = map[string]any{"packs_in": "many"} }), "has a string in the field balance.packs_in"},
		{"a replication missing", edited(t, func(m map[string]any) { m["per_replication"] = []any{} }), "says 24 replications and lists 0"},
		{"a replay too short", edited(t, func(m map[string]any) { firstTrack(m)["runs"] = "1*9" }), "of the replay has 9 values for 1921 frames"},
		{"a replay too long", edited(t, func(m map[string]any) { firstTrack(m)["runs"] = "1*2000000000" }), "of the replay does not fit at"},
		{"a replay in an unknown state", edited(t, func(m map[string]any) { firstTrack(m)["runs"] = "99*1921" }), "has a value that means nothing"},
		{"a short profile", edited(t, func(m map[string]any) { m["profile"].(map[string]any)["p10"] = []any{1} }), "the profile's lists differ in length"},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "results.json")
			if err := os.WriteFile(path, []byte(c.content), 0o644); err != nil {
				t.Fatal(err)
			}
			r, err := store.Load(path)
			if r != nil || err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), path) {
				t.Errorf("got %v, want %q", err, c.want)
			}
		})
	}
	if _, err := store.Load(filepath.Join(t.TempDir(), "none.json")); err == nil || !strings.Contains(err.Error(), "does not exist; check the name") {
		t.Errorf("no file: %v", err)
	}
	if _, err := store.Load(t.TempDir()); err == nil || !strings.Contains(err.Error(), "is a folder") {
		t.Errorf("a folder: %v", err)
	}
	if _, err := store.Decode([]byte("\ufeff" + whole)); err != nil {
		t.Errorf("a byte order mark in front: %v", err)
	}
}
