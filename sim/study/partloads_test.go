package study_test

import (
	"testing"

	"pascaline/scenarios"
	"pascaline/sim/line"
	"pascaline/sim/study"
)

// With part loads one carrier more can lower the rate, from 21.6 carriers/h to 18.0; the derivation stands in the file. The first load is out
// at 90 + 400 = 490 s, so in 24 h: 172 loads of 3, one every 500 s; or 215 loads, one every 400 s, of 3 and 1 in turn.
func TestOneCarrierMoreLowersTheRateOfPartLoads(t *testing.T) {
	for _, c := range []struct {
		variant      string
		loads, round int64
		packs        int64
	}{
		{"three carriers", 172, 500, 172 * 3},
		{"four carriers", 215, 400, 108*3 + 107*1},
	} {
		t.Run(c.variant, func(t *testing.T) {
			s, faults, err := scenarios.Read("../../testdata/lines/part-loads.yaml", c.variant)
			if err != nil || len(faults) > 0 {
				t.Fatal(err, faults)
			}
			m, err := line.New(s)
			if err != nil {
				t.Fatal(err)
			}
			r, err := study.One(m, line.Options{Seed: 1, Replication: 1, CycleEnds: true})
			if err != nil {
				t.Fatal(err)
			}
			for i, end := range r.Vessel.Ends {
				if want := 490 + c.round*int64(i); end != want*1e6 {
					t.Fatalf("load %d out at %d us, want %d s", i+1, end, want)
				}
			}
			if r.Vessel.Cycles != c.loads || r.Packs != c.packs {
				t.Errorf("%d packs in %d loads, want %d in %d", r.Packs, r.Vessel.Cycles, c.packs, c.loads)
			}
		})
	}
}
