//go:build independent

package selftest

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the page of all checks anew")

// pageOf is the page: what the status of a source means, and a table for each group.
func pageOf(checks []Check) string {
	var b strings.Builder
	sources := map[string]bool{}
	for _, c := range checks {
		sources[c.Source] = true
	}
	fmt.Fprintf(&b, `# Values that others have published, and what the simulator gives

%d values from %d sources, written by the tests of sim/selftest; do not edit. Status says what is known of a source. checked: the
citation was read. memory: it was not read; the value was worked out anew. derived: worked out for these tests, no publication is claimed.
Random numbers are fixed, so what came out is the same in every run. A value is met if it is no further away than the tolerance.
`, len(checks), len(sources))
	group := ""
	for i, line := range rowsOfPage(checks) {
		if checks[i].Group != group {
			group = checks[i].Group
			fmt.Fprintf(&b, "\n## %s\n\n| name | what | source | status | expected | got | tolerance |\n|---|---|---|---|---|---|---|\n", strings.ToUpper(group[:1])+group[1:])
		}
		b.WriteString(line + "\n")
	}
	return b.String()
}

// The page holds all checks as they come out, and there are as many as are promised: 150 values from 15 named sources.
func TestAllTablesPage(t *testing.T) {
	checks, err := Run(t.Context(), false, 2)
	if err != nil {
		t.Fatal(err)
	}
	tolerateLittle(t, checks)
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
