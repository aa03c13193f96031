//go:build independent

package selftest

import (
	"math"
	"os/exec"
	"strconv"
	"strings"
	"testing"
)

// Octave's queueing package gives the values of the table of queues to the digits that stand there: go test -tags independent
// ./sim/selftest -run AllTablesOctave (needs Debian's octave and octave-queueing).
func TestAllTablesOctave(t *testing.T) {
	out, err := exec.Command("octave-cli", "--quiet", "--no-init-file", "../../testdata/independent/queues.m").Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	rows, err := valueRows("queues.csv")
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]float64{}
	for _, x := range rows {
		if want[x["id"]], err = x.number("value"); err != nil {
			t.Fatal(err)
		}
	}
	compared := map[string]bool{}
	for line := range strings.Lines(string(out)) {
		id, number, _ := strings.Cut(strings.TrimSpace(line), " ")
		got, err := strconv.ParseFloat(number, 64)
		if err != nil {
			t.Errorf("%q: %v", line, err)
		}
		v, used := want[id]
		if !used { // a figure that the table has no use for
			continue
		}
		compared[id] = true
		if !(math.Abs(got-v) <= 1e-9*math.Abs(v)) {
			t.Errorf("%s: Octave %.12g, the table %.12g", id, got, v)
		}
	}
	t.Logf("%d of %d values compared", len(compared), len(rows))
	if len(compared) < 110 {
		t.Errorf("only %d values compared", len(compared))
	}
}
