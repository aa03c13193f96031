package selftest

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const published = "../../testdata/published"

// Every scenario of testdata/published belongs to a row of a table there or to the code of a case, and every table has rows: nothing lies about that no case runs.
func TestEveryPublishedFileIsRun(t *testing.T) {
	tables, err := filepath.Glob(published + "/*.csv")
	if err != nil || len(tables) == 0 {
		t.Fatal(err, tables)
	}
	var rows strings.Builder
	for _, f := range tables {
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Count(string(b), "\n") < 2 {
			t.Errorf("%s has no rows", f)
		}
		rows.Write(b)
	}
	code, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range code { // a line that is no table of its own is named there
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		rows.Write(b)
	}
	scenarios, err := filepath.Glob(published + "/*.yaml")
	if err != nil || len(scenarios) == 0 {
		t.Fatal(err, scenarios)
	}
	for _, f := range scenarios {
		name := strings.TrimSuffix(filepath.Base(f), ".yaml")
		_, short, _ := strings.Cut(name, "-") // some tables leave their own name out
		if !strings.Contains(rows.String(), name) && !strings.Contains(rows.String(), short) {
			t.Errorf("%s: no row of a table names it", f)
		}
	}
}
