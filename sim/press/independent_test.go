//go:build independent

package press

import (
	"fmt"
	"math"
	"os/exec"
	"strings"
	"testing"
)

// TestIndependentWater holds density, water to push in and warming against IAPWS-95 as another library computes it, also between the rows and
// columns of the table. Run with: go test -tags independent ./sim/press (needs Debian's python3-iapws).
func TestIndependentWater(t *testing.T) {
	const python = "/usr/bin/python3" // the library is Debian's; another Python on the path would not have it
	var in strings.Builder
	var cases [][2]float64
	for _, c := range []float64{5, 10, 20, 2.5, 7.5, 12.5, 22.5, 37.5, 40} {
		for _, mpa := range []float64{25, 125, 275, 425, 600, 975} {
			cases = append(cases, [2]float64{c, mpa})
			fmt.Fprintf(&in, "%g %g\n", c, mpa)
		}
	}
	cmd := exec.Command(python, "../../testdata/independent/water.py")
	cmd.Stdin = strings.NewReader(in.String())
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v: is python3-iapws there?", err)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != len(cases) {
		t.Fatalf("%d lines for %d cases", len(lines), len(cases))
	}
	for i, x := range cases {
		var density, pushIn, warming float64
		if _, err := fmt.Sscan(lines[i], &density, &pushIn, &warming); err != nil {
			t.Fatal(err)
		}
		w, err := NewWater(x[0])
		if err != nil {
			t.Fatal(err)
		}
		mpa := x[1] - atmosphere // the library's pressure is absolute
		for _, v := range []struct {
			name              string
			got, want, within float64
		}{{"density", w.Density(mpa), density, 0.05}, {"push-in", w.PushIn(mpa), pushIn, 0.00005}, {"warming", w.Warming(mpa), warming, 0.02}} {
			if !(math.Abs(v.got-v.want) <= v.within) {
				t.Errorf("%g C, %g MPa: %s %.6f, IAPWS-95 says %.6f", x[0], x[1], v.name, v.got, v.want)
			}
		}
	}
}
