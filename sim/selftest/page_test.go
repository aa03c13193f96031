package selftest

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the page of all checks anew (with -tags independent)")

// page is where every check stands with its source and what came out, for a reader.
const page = published + "/CHECKS.md"

// rowsOfPage are the checks as lines of a table.
func rowsOfPage(checks []Check) []string {
	var list []string
	cell := strings.NewReplacer("|", "\\|", "\n", " ")
	for _, c := range checks {
		list = append(list, fmt.Sprintf("| %s | %s | %s | %s | %.9g | %.6g | %.2g |", cell.Replace(c.Name), cell.Replace(c.Quantity), cell.Replace(c.Source), c.Status, c.Expected, c.Got, c.Tolerance))
	}
	return list
}

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

// What the quick checks give stands on the page.
func TestQuickChecksStandOnThePage(t *testing.T) {
	text, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	there := map[string]bool{}
	for line := range strings.Lines(string(text)) {
		there[strings.TrimSpace(line)] = true
	}
	checks, err := Run(t.Context(), true, 2)
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range rowsOfPage(checks) {
		if !there[line] {
			t.Errorf("not on %s: run the tests with -tags independent -run AllTablesPage -update\n%s", page, line)
		}
	}
}
