package store_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pascaline/report/store"
)

func TestRehearse(t *testing.T) {
	for _, c := range []struct {
		name           string
		folders, files []string
		want           string // of the error; "" for none
	}{
		{"a folder that is there", []string{"there"}, []string{"there/results.json"}, ""},
		{"folders to be made, a file beside", []string{"a/b/c", "d"}, []string{"a/b/c/x.json", "d/x.csv", "x.xlsx"}, ""},
		{"a file that will be replaced", nil, []string{"there/old.json"}, ""},
		{"a file in a folder that is made", []string{"new"}, []string{"new/tables.xlsx"}, ""},
		{"a file in the folder's place", []string{"a", "there/old.json"}, nil, "a file of this name is there"},
		{"below a file", []string{"there/old.json/x"}, nil, "is not a folder; choose another place"},
		{"a folder in the file's place", nil, []string{"there"}, "it is a folder; name a file"},
		{"no folder for the file", []string{"a"}, []string{"none/x.xlsx"}, "the folder none does not exist; make it first"},
		{"a name that is too long", []string{"a"}, []string{"a/" + strings.Repeat("x", 300)}, "the name is too long; choose a shorter one"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Chdir(t.TempDir())
			if err := os.Mkdir("there", 0o777); err != nil {
				t.Fatal(err)
			}
			old := filepath.Join("there", "old.json")
			if err := os.WriteFile(old, []byte("old"), 0o644); err != nil {
				t.Fatal(err)
			}
			err := store.Rehearse(c.folders, c.files)
			if (err == nil) != (c.want == "") || err != nil && !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %q", err, c.want)
			}
			onlyFile(t, old, "old")
			if left, _ := os.ReadDir("."); len(left) != 1 {
				t.Errorf("it left %v", left)
			}
		})
	}
}
