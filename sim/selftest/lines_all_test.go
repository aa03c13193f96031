//go:build independent

package selftest

import "testing"

// All values of lines, those too that take longer: half a minute on one core.
func TestAllTablesOfLines(t *testing.T) {
	for _, c := range lineCases() {
		t.Run(c.Name, func(t *testing.T) { t.Parallel(); lineHolds(t, c) })
	}
}
