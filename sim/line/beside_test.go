//go:build independent && unix

package line

import (
	"encoding/json"
	"math"
	"os/exec"
	"syscall"
	"testing"
)

// BenchmarkBesideSimPy times the yardstick and the same line in SimPy 3 in turns, as processor time, and gives the least of each and the
// ratio. Both must make about as many packs.
//
//	go test -tags independent -pgo=cmd/pascaline/default.pgo -run '^$' -bench BesideSimPy -benchtime 7x ./sim/line
func BenchmarkBesideSimPy(b *testing.B) {
	m := modelOf(b, "../../scenarios/examples/yardstick.yaml", "")
	ours, theirs := math.Inf(1), math.Inf(1)
	for round := 0; b.Loop(); round++ {
		packs, seconds := timedReplication(b, m, round)
		ours = min(ours, seconds/packs)
		otherPacks, otherSeconds := timedSimPy(b)
		theirs = min(theirs, otherSeconds/otherPacks)
		if math.Abs(packs/otherPacks-1) > 0.02 {
			b.Fatalf("%.0f packs here, %.0f in the SimPy model", packs, otherPacks)
		}
	}
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(ours*1e9, "ns/pack")
	b.ReportMetric(theirs*1e9, "ns/pack-in-SimPy")
	b.ReportMetric(theirs/ours, "times-as-fast")
}

// timedReplication is one replication after another that warms up.
func timedReplication(b *testing.B, m *Model, number int) (packs, seconds float64) {
	for range 2 {
		l, err := m.Line(Options{Seed: 1, Replication: number})
		if err != nil {
			b.Fatal(err)
		}
		began := processorSeconds(b)
		if err := l.Run(); err != nil {
			b.Fatal(err)
		}
		packs, seconds = float64(l.finished), processorSeconds(b)-began
	}
	return packs, seconds
}

func processorSeconds(b *testing.B) float64 {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Fatal(err)
	}
	return float64(u.Utime.Nano()+u.Stime.Nano()) / 1e9
}

func timedSimPy(b *testing.B) (packs, seconds float64) {
	out, err := exec.Command("/usr/bin/python3", "../../testdata/independent/yardstick.py").Output()
	if err != nil {
		b.Fatal(err)
	}
	var r struct{ Packs, Seconds float64 }
	if err := json.Unmarshal(out, &r); err != nil {
		b.Fatal(err)
	}
	return r.Packs, r.Seconds
}
