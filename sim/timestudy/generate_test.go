package timestudy

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"pascaline/sim/random"
)

var update = flag.Bool("update", false, "write the example data anew")

// truth of the example sheet: an invented plant, whose shifts differ by truthPace.
var truth = []struct {
	task, field   string
	d             distribution
	n             int
	packs, people int
}{
	{"fill carrier", "loading.hand_time", distuv.Gamma{Alpha: 61.7, Beta: 61.7 / 110}, 48, 148, 2},
	{"tip swap", "tip.swap", lognormalOf(20, 3), 30, 0, 1},
	{"come up", "vessel.phases.come_up", distuv.Normal{Mu: 120, Sigma: 2}, 24, 0, 0},
	{"fill case", "packing.time", lognormalOf(26, 5), 60, 12, 1},
	{"wipe wet pack", "dryer.wet.takes", distuv.NewTriangle(2, 8, 3.5, nil), 40, 1, 1},
	{"close", "vessel.phases.close", nil, 40, 0, 0}, // two kinds: 25 s, and 38 s where the plug sticks
	{"start cycle", "", distuv.Exponential{Rate: 1.0 / 15}, 12, 0, 1},
}

const truthPace = 0.06

// lognormalOf is a lognormal by its mean and standard deviation.
func lognormalOf(mean, sd float64) distuv.LogNormal {
	v := math.Log1p(sd * sd / (mean * mean))
	return distuv.LogNormal{Mu: math.Log(mean) - v/2, Sigma: math.Sqrt(v)}
}

// timesExample writes the sheet as a spreadsheet in some countries does: a mark of byte order, semicolons, decimal commas.
func timesExample() string {
	var b strings.Builder
	b.WriteString("\ufeffdate;shift;task;time (s);packs;people;field\r\n")
	pace := random.Named(1, 0, "pace of shifts")
	for i, x := range truth {
		s := random.Named(1, 0, "readings of "+x.task)
		for n := range x.n {
			shift := (n + i) % 8
			v := 0.0
			switch u := s.At(uint64(2 * n)); {
			case x.d != nil:
				v = x.d.Quantile(u)
			case s.At(uint64(2*n+1)) < 0.3:
				v = distuv.Normal{Mu: 38, Sigma: 1.2}.Quantile(u)
			default:
				v = distuv.Normal{Mu: 25, Sigma: 1.0}.Quantile(u)
			}
			if x.people > 0 {
				v *= math.Exp(truthPace * distuv.UnitNormal.Quantile(pace.At(uint64(shift))))
			}
			packs, people := "", ""
			if x.packs > 0 {
				packs = fmt.Sprint(x.packs)
			}
			if x.people > 0 {
				people = fmt.Sprint(x.people)
			}
			fmt.Fprintf(&b, "2026-03-%02d;%s;%s;%s;%s;%s;%s\r\n", 2+shift/2, []string{"early", "late"}[shift%2], x.task,
				strings.Replace(fmt.Sprintf("%.1f", v), ".", ",", 1), packs, people, x.field)
		}
	}
	return b.String()
}

// golden compares an example file with what its generator gives, or writes it anew.
func golden(t *testing.T, name string, want []byte) string {
	t.Helper()
	path := filepath.Join("..", "..", "testdata", "fit", name)
	if *update {
		if err := os.WriteFile(path, want, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("testdata/fit/%s is not what its generator gives; write it anew with -update", name)
	}
	return path
}

func TestExampleTimesAreGenerated(t *testing.T) { golden(t, "times.csv", []byte(timesExample())) }
