package selftest

import (
	"fmt"
	"os"
	"strings"
	"testing"
)

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
