package study

import (
	"context"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"pascaline/sim/random"
)

// The full experiment, whose output stands in testdata/selection.txt:
//
//	go test ./sim/study -run CorrectSelection -selections 2000 -update
var (
	selections = flag.Int("selections", 150, "searches of each case of the experiment on correct selection")
	update     = flag.Bool("update", false, "write the outcome of the experiments into testdata")
)

// truth is a set of settings, cheapest first, whose chances are known.
type truth struct {
	name   string
	rule   rule
	means  []float64 // of a normal shift, or of a lognormal one
	sd     float64
	common float64 // correlation of the settings' shifts
	shifts int     // in a replication
	paced  float64 // correlation of the shifts of one replication
	skewed bool
	good   int // the cheapest one that meets the target
	bad    []int
}

// at is the mean of a normal shift that reaches what with this chance.
func at(what, chance, sd float64) float64 {
	return what + float64(sd*distuv.UnitNormal.Quantile(chance))
}

var (
	nineOfTen = rule{target: 1000, share: 0.9, tolerance: 0.01, confidence: 0.95}
	theMean   = rule{target: 1000, tolerance: 0.01, confidence: 0.95}
)

// truths are the worst places for a procedure: a good setting exactly at the target, bad ones just not within the tolerance.
func truths() []truth {
	edge, just := at(1000, 0.9, 30), at(990, 0.9, 30)-0.01
	apart := func(n int, bad, good float64) (means []float64, who []int) {
		for i := range n {
			means, who = append(means, bad), append(who, i)
		}
		return append(means, good, good+5, good+40), who
	}
	slip, slipped := apart(9, just, edge)
	meanSlip, meanSlipped := apart(9, 990, 1000)
	return []truth{
		{"chance, nine just bad, one just good", nineOfTen, slip, 30, 0, 1, 0, false, 9, slipped},
		{"the same with common random numbers", nineOfTen, slip, 30, 0.9, 1, 0, false, 9, slipped},
		{"the same, three shifts that hang together", nineOfTen, slip, 30, 0.5, 3, 0.6, false, 9, slipped},
		{"chance, in steps", nineOfTen, []float64{900, 940, 980, 1000, 1020, at(1000, 0.9, 30) + 3, 1060, 1100}, 30, 0.8, 1, 0, false, 5, []int{0, 1, 2, 3, 4}},
		{"mean, nine just bad, one just good", theMean, meanSlip, 30, 0, 1, 0, false, 9, meanSlipped},
		{"the same with common random numbers", theMean, meanSlip, 30, 0.9, 1, 0, false, 9, meanSlipped},
		{"mean of skewed shifts", theMean, meanSlip, 60, 0.5, 1, 0, true, 9, meanSlipped},
	}
}

// normal is a draw of a stream by number.
func normal(s random.Stream, n uint64) float64 { return distuv.UnitNormal.Quantile(s.At(n)) }

// sampler draws trials of a truth in experiment number e.
func (x *truth) sampler(e int) func(context.Context, int, int, int) ([]trial, bool, error) {
	shared := random.Named(20260301, e, "shared")
	return func(_ context.Context, no, first, n int) (out []trial, _ bool, _ error) {
		own := random.Named(20260301, e, fmt.Sprintf("setting %d", no))
		for r := first; r < first+n; r++ {
			t := trial{}
			for k := range x.shifts {
				id := uint64(r*10 + k)
				z := mixed(x.common, mixed(x.paced, normal(shared, uint64(r)+1e9), normal(shared, id)), mixed(x.paced, normal(own, uint64(r)+1e9), normal(own, id)))
				v := x.means[no] + float64(x.sd*z)
				if x.skewed { // lognormal with the same mean and standard deviation
					s := math.Sqrt(math.Log1p(x.sd / x.means[no] * x.sd / x.means[no]))
					v = x.means[no] * math.Exp(s*z-s*s/2)
				}
				t.mean += v / float64(x.shifts)
				if v >= x.rule.target {
					t.full += 1 / float64(x.shifts)
				}
				if v >= x.rule.low() {
					t.nearly += 1 / float64(x.shifts)
				}
			}
			out = append(out, t)
		}
		return out, false, nil
	}
}

// mixed has correlation rho with a.
func mixed(rho, a, b float64) float64 { return math.Sqrt(rho)*a + math.Sqrt(1-rho)*b }

// right searches once and tells whether the choice was right: the cheapest good setting, or a cheaper one that is not bad.
func (x *truth) right(e int) (ok bool, trials int) {
	s := &searcher{rule: x.rule, k: len(x.means), most: MostTrials, sample: x.sampler(e)}
	var list []*candidate
	for i := range x.means {
		list = append(list, &candidate{no: i})
	}
	found, _, _ := s.cheapest(context.Background(), list)
	for _, c := range list {
		trials += len(c.trials)
	}
	if found == nil || found.no > x.good {
		return false, trials
	}
	for _, b := range x.bad {
		if found.no == b {
			return false, trials
		}
	}
	return true, trials
}

// A choice must be right at least as often as its confidence says, in the worst places too.
func TestCorrectSelection(t *testing.T) {
	out := fmt.Sprintf("%-46s %9s %9s %16s %14s\n", "case", "searches", "right", "95 % interval", "trials, mean")
	for _, x := range truths() {
		right, trials := 0, 0
		for e := range *selections {
			ok, n := x.right(e)
			trials += n
			if ok {
				right++
			}
		}
		n := float64(*selections)
		low, high := ClopperPearson(float64(right), n, 0.95)
		out += fmt.Sprintf("%-46s %9d %8.1f%% %7.1f%% %6.1f%% %14.0f\n", x.name, *selections, 100*float64(right)/n, 100*low, 100*high, float64(trials)/n)
		if high < x.rule.confidence {
			t.Errorf("%s: right in %.1f %% (%.1f to %.1f), stated are %.0f %%", x.name, 100*float64(right)/n, 100*low, 100*high, 100*x.rule.confidence)
		}
	}
	t.Log("\n" + out)
	if *update {
		if err := os.WriteFile(filepath.Join("testdata", "selection.txt"), []byte(out), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
