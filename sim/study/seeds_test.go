package study_test

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"pascaline/scenarios"
	"pascaline/sim/line"
	"pascaline/sim/random"
	"pascaline/sim/result"
	"pascaline/sim/study"
)

// O10: parameters mean what their names say.
func TestDistributionsByWhatAPersonKnows(t *testing.T) {
	r := once(t, "testdata/hand/o10-exponential.yaml", line.Options{Seed: 1, Replication: 1})
	// 240/h: the number in 100 h is Poisson, sd sqrt(24000); 4 sd.
	near(t, "exponential with mean 15 s, packs in 100 h", float64(r.Packs), 24000, 4*math.Sqrt(24000))

	r = once(t, "testdata/hand/o10-lognormal.yaml", line.Options{Seed: 1, Replication: 1})
	mean := float64(r.Length) / 1e6 / float64(r.Packs)
	near(t, "lognormal with mean 20 s, sample mean", mean, 20, 0.3)
	s, _, _ := scenarios.Read("../../testdata/hand/o10-lognormal.yaml", "")
	law, err := random.NewLaw(s.Labeller.Time.Law())
	if err != nil {
		t.Fatal(err)
	}
	near(t, "its median", law.Quantile(0.5), 17.89, 0.005)
	near(t, "its log mean", math.Log(law.Quantile(0.5)), 2.8842, 0.00005)

	_, faults, err := scenarios.Read("../../testdata/hand/o10-normal.yaml", "")
	if err != nil || len(faults) != 1 {
		t.Fatalf("normal with likely negative draws: %v, %d faults, want one", err, len(faults))
	}
	for _, want := range []string{"10.6 of 100", "11.63"} {
		if !strings.Contains(faults[0].String(), want) {
			t.Errorf("the refusal does not name %s:\n%s", want, faults[0])
		}
	}
}

func batch(t *testing.T, m *line.Model, o study.Options) (*result.Run, []byte) {
	t.Helper()
	r, err := study.Run(context.Background(), m, o)
	if err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	return r, b
}

// O11: the same whatever the number of workers; a replication alone is that of the batch; neighbouring seeds share nothing; a stop that is
// added leaves the other streams as they were.
func TestSeedsAndStreams(t *testing.T) {
	m := model(t, "testdata/hand/o11.yaml")
	one, b1 := batch(t, m, study.Options{Seed: 7, Replications: 20, Workers: 1})
	_, b2 := batch(t, m, study.Options{Seed: 7, Replications: 20, Workers: 2})
	if !bytes.Equal(b1, b2) {
		t.Error("1 worker and 2 workers give different results")
	}
	r, err := study.One(m, line.Options{Seed: 7, Replication: 13})
	if err != nil {
		t.Fatal(err)
	}
	if got, want := r.Packs, one.PerReplication[12].Packs; got != want {
		t.Errorf("replication 13 alone finished %d packs, in the batch %d", got, want)
	}
	if one.Seed != 7 {
		t.Errorf("seed %d in the results, want 7", one.Seed)
	}
	first := map[float64]bool{}
	for n := range 20 {
		first[random.Named(7, n+1, "labeller/time").At(0)] = true
	}
	for n := range 20 {
		if first[random.Named(8, n+1, "labeller/time").At(0)] {
			t.Errorf("seed 8 shares replication %d with seed 7", n+1)
		}
	}
}

// Results of the plain line, stops, breaks and all, do not depend on the number of workers.
func TestWorkersOnThePlainLine(t *testing.T) {
	m := model(t, "scenarios/examples/plain.yaml")
	_, a := batch(t, m, study.Options{Seed: 3, Replications: 6, Workers: 1})
	_, b := batch(t, m, study.Options{Seed: 3, Replications: 6, Workers: 2})
	_, c := batch(t, m, study.Options{Seed: 3, Replications: 6, Workers: 5})
	if !bytes.Equal(a, b) || !bytes.Equal(a, c) {
		t.Error("results depend on the number of workers")
	}
	_, other := batch(t, m, study.Options{Seed: 4, Replications: 6, Workers: 1})
	if bytes.Equal(a, other) {
		t.Error("another seed gives the same results")
	}
}
