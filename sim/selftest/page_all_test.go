//go:build independent

package selftest

import (
	"os"
	"testing"
)

// The page holds all checks as they come out, and there are as many as are promised: 150 values from 15 named sources.
func TestAllTablesPage(t *testing.T) {
	checks, err := Run(t.Context(), false, 2)
	if err != nil {
		t.Fatal(err)
	}
	sources, derived := map[string]bool{}, 0
	for _, c := range checks {
		if c.Status == "derived" {
			derived++
		} else {
			sources[c.Source] = true
		}
	}
	t.Logf("%d values, %d of them derived; %d sources of the others", len(checks), derived, len(sources))
	if len(checks)-derived < 150 || len(sources) < 15 {
		t.Errorf("%d values from %d sources", len(checks)-derived, len(sources))
	}
	want := pageOf(checks)
	if *update {
		if err := os.WriteFile(page, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if got, err := os.ReadFile(page); err != nil || string(got) != want {
		t.Errorf("%s is not what comes out (%v): write it anew with -update", page, err)
	}
}
