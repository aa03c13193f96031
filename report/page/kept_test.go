package page_test

import (
	"bytes"
	"strings"
	"testing"

	"pascaline/report/internal/fixture"
	"pascaline/report/page"
)

// Pages of every kind of results that is kept as a file are whole.
func TestPagesOfKeptResults(t *testing.T) {
	for _, name := range fixture.Kept() {
		t.Run(name, func(t *testing.T) {
			r, err := fixture.Keep(name)
			if err != nil {
				t.Fatal(err)
			}
			var b bytes.Buffer
			if err := page.Write(&b, r, page.Options{}); err != nil {
				t.Fatal(err)
			}
			if !strings.Contains(b.String(), "no process authority") {
				t.Error("the page carries no cautions")
			}
			if fault := unbalanced(b.String()); fault != "" {
				t.Error(fault)
			}
		})
	}
}
