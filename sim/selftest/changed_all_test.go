//go:build independent

package selftest

import (
	"cmp"
	"math"
	"slices"
	"testing"
)

// Every value of a case that is quick is changed in its table; the case is run again and fails.
func TestAllTablesFailWhenChanged(t *testing.T) {
	for _, x := range tables() {
		fails(t, &x, func(c Case) bool { return c.Quick })
	}
}

// tolerateLittle: every check of all, the costly ones too, is met by its value and not by a changed one. The widest tolerances are listed: a
// model that is materially wrong must not pass.
func tolerateLittle(t *testing.T, checks []Check) {
	width := func(c Check) float64 { return c.Tolerance / math.Abs(c.Expected) }
	for _, c := range checks {
		other := c
		other.Expected = changed(c)
		if !c.Within() || other.Within() {
			t.Errorf("%s: got %.9g, want %.9g within %.3g; %.9g is met: %v", c.Name, c.Got, c.Expected, c.Tolerance, other.Expected, other.Within())
		}
	}
	widest := slices.SortedFunc(slices.Values(checks), func(a, b Check) int { return cmp.Compare(width(b), width(a)) })
	for _, c := range widest[:20] {
		t.Logf("%-40s %.6g within %.2g, %.1f %%: %s", c.Name, c.Expected, c.Tolerance, 100*width(c), c.Quantity)
	}
}
