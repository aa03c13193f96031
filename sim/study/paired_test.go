package study_test

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"pascaline/sim/line"
	"pascaline/sim/study"
)

var (
	shiftsA = study.Sample{412, 398, 405, 421, 394}
	shiftsB = study.Sample{418, 405, 410, 428, 399}
)

// Hand case O12: the interval around a mean.
func TestIntervalAroundAMean(t *testing.T) {
	near(t, "mean", shiftsA.Mean(), 406, 1e-12)
	near(t, "standard deviation, from s^2 = 470/4", shiftsA.SD(), 10.84, 0.005)
	h, ok := shiftsA.Half()
	if !ok {
		t.Fatal("five values have no interval")
	}
	near(t, "half width", h, 13.46, 0.005)
	if _, ok := shiftsA[:1].Half(); ok {
		t.Error("one value has an interval")
	}
}

// Hand case O13: the second scenario is better, by its differences.
func TestPairedDifferences(t *testing.T) {
	p := study.Pairs{Base: shiftsA, Other: shiftsB}
	d := p.Differences()
	near(t, "mean difference", d.Mean(), 6, 1e-12)
	near(t, "its standard deviation", d.SD(), 1, 1e-12)
	h, _ := d.Half()
	near(t, "half width", h, 1.24, 0.005)
	saved, ok := p.Saved()
	if !ok {
		t.Fatal("nothing said about pairing")
	}
	near(t, "variance saved: 1 - 1/(117.5 + 128.5)", saved, 1-1/246.0, 1e-12)
	r, _ := p.Correlation()
	near(t, "correlation: (117.5 + 128.5 - 1) / 2 / sqrt(117.5 x 128.5)", r, 122.5/122.8769, 1e-5)
}

// Antithetic pairs: pairing costs precision, and it is told.
func TestPairingThatCosts(t *testing.T) {
	p := study.Pairs{Base: study.Sample{1, 2, 3, 4}, Other: study.Sample{4, 3, 2, 1}}
	saved, _ := p.Saved()
	near(t, "saved", saved, -1, 1e-12) // var of the difference is twice the sum of variances
	r, _ := p.Correlation()
	near(t, "correlation", r, -1, 1e-12)
}

func TestBonferroniLevels(t *testing.T) {
	near(t, "one", study.Bonferroni(0.95, 1), 0.95, 1e-12)
	near(t, "five", study.Bonferroni(0.95, 5), 0.99, 1e-12)
	near(t, "none counts as one", study.Bonferroni(0.95, 0), 0.95, 1e-12)
}

// A sample against itself differs by exactly nothing, and pairing saves all of its variance.
func TestPairsOfTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := study.Sample(rapid.SliceOfN(rapid.Float64Range(-1e6, 1e6), 2, 30).Draw(t, "sample"))
		p := study.Pairs{Base: s, Other: s}
		h, ok := p.Differences().Half()
		if p.Differences().Mean() != 0 || h != 0 || !ok {
			t.Fatalf("differs by %v, half width %v", p.Differences().Mean(), h)
		}
		if saved, ok := p.Saved(); ok && saved != 1 {
			t.Fatalf("saved %v", saved)
		}
	})
}

// Together gives each model the records that it has alone, in order, whatever the number of workers.
func TestTogetherIsEachAlone(t *testing.T) {
	models := []*line.Model{model(t, "testdata/hand/o11.yaml"), nil, model(t, "testdata/hand/o10-lognormal.yaml")}
	for _, workers := range []int{1, 3} {
		n := 0
		interrupted, err := study.Together(context.Background(), models, study.Options{Seed: 5, Workers: workers}, 4, func(no int, rs []*line.Record) bool {
			n++
			if no != n || rs[0].Number != n || rs[1] != nil || rs[2].Number != n {
				t.Errorf("workers %d: number %d, want %d", workers, no, n)
			}
			alone, err := study.One(models[2], line.Options{Seed: 5, Replication: n})
			if err != nil || alone.Packs != rs[2].Packs {
				t.Errorf("replication %d alone: %v packs, together %d, %v", n, alone.Packs, rs[2].Packs, err)
			}
			return n < 3
		})
		if err != nil || interrupted || n != 3 {
			t.Errorf("workers %d: %d taken, interrupted %v, %v", workers, n, interrupted, err)
		}
	}
}

// Student's sleep data of 1908 (Cushny and Peebles; t, half width as R prints them: checked; the ratio of variances recomputed: derived).
func TestPairedSleepData(t *testing.T) {
	p := study.Pairs{Base: study.Sample{1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4}, Other: study.Sample{0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2}}
	d := p.Differences()
	h, _ := d.Half()
	near(t, "half width", h, 0.879885763255, 1e-9)
	near(t, "low", d.Mean()-h, -2.4598858, 1e-7)
	near(t, "t", d.Mean()/d.SD()*3.1622776601684, -4.06212768338, 1e-9)
	saved, _ := p.Saved()
	near(t, "variance of independent samples over paired", 1/(1-saved), 4.76542303173, 1e-9)
}

// Four comparisons that hold together at 90 %, 9 degrees of freedom: t(1 - 0.1/8; 9) (closed form, derived).
func TestBonferroniQuantile(t *testing.T) {
	s := study.Sample{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}
	h, _ := s.HalfAt(study.Bonferroni(0.90, 4))
	near(t, "t", h/s.SD()*3.1622776601684, 2.685010846, 1e-8)
}
