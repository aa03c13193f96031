//go:build independent

package selftest

import "testing"

// All values of the tables, those too that take longer: go test -tags independent ./sim/selftest -run AllTables (about a minute).
func TestAllTables(t *testing.T) {
	for _, c := range tableCases() {
		t.Run(c.Group+"/"+c.Name, func(t *testing.T) { t.Parallel(); passes(t, c) })
	}
}
