package study_test

import (
	"context"
	"slices"
	"testing"

	"pascaline/scenarios"
	"pascaline/sim/line"
	"pascaline/sim/result"
	"pascaline/sim/study"
)

func hasWarning(r *result.Run, code string) bool {
	return slices.ContainsFunc(r.Warnings, func(w result.Warning) bool { return w.Code == code })
}

const loadingLine = `scenario: carriers
product: {packs_per_carrier: 10, hold: 180 s}
loading: {crew: 1 loader, hand_time: {per: carrier, mean: 60 s, as: constant}}
infeed: {places: 4}
vessel: {carriers_per_load: 1, phases: {close: 20 s, come_up: 40 s}}
tip: {swap: 20 s, per_pack: 1 s}
packing: {time: 2 s}
people: {loaders: {heads: 1, serve: [loading]}}
run: {one_replication: 4 h}
`

// Every doubt that has to travel with the numbers is told where there is reason, and not where there is none.
func TestDoubtsAreTold(t *testing.T) {
	for _, c := range []struct {
		name, code, text string
		o                study.Options
		want             bool
	}{
		{"cap reached", "cap reached", "scenario: x\nlabeller: {time: {mean: 60 s, as: exponential}}\nrun: {one_replication: 30 min}\n", study.Options{Precision: 0.0005}, true},
		{"precision reached", "cap reached", "scenario: x\nlabeller: {time: 60 s}\nrun: {one_replication: 30 min}\n", study.Options{Precision: 0.01}, false},
		{"warm-up not over", "warm-up not over", "scenario: x\nlabeller: {time: 60 s}\nrun: {one_replication: 3 h, steps: 30 min}\n", study.Options{Replications: 2, Steady: true}, true},
		{"warm-up over", "warm-up not over", "scenario: x\nlabeller: {time: 60 s}\nrun: {one_replication: 30 h, steps: 30 min}\n", study.Options{Replications: 2, Steady: true}, false},
		{"input outside its source", "outside typical range", loadingLine + "note: come-up of 40 s\n", study.Options{Replications: 2}, true},
		{"distribution clipped", "normal clipped", "scenario: x\nlabeller: {time: {mean: 10 s, sd: 4 s, as: normal}}\nrun: {one_replication: 30 min}\n", study.Options{Replications: 2}, true},
		{"distribution whole", "normal clipped", "scenario: x\nlabeller: {time: {mean: 10 s, sd: 1 s, as: normal}}\nrun: {one_replication: 30 min}\n", study.Options{Replications: 2}, false},
		{"carriers binding", "carriers binding", loadingLine + "carriers: {owned: 2, return: 10 min}\n", study.Options{Replications: 2}, true},
		{"carriers enough", "carriers binding", loadingLine + "carriers: {owned: 20, return: 10 min}\n", study.Options{Replications: 2}, false},
		{"one replication", "one replication", "scenario: x\nlabeller: {time: 60 s}\nrun: {one_replication: 30 min}\n", study.Options{Replications: 1}, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, faults := scenarios.ReadBytes("x.yaml", []byte(c.text))
			for _, f := range faults {
				t.Fatal(f)
			}
			m, err := line.New(s)
			if err != nil {
				t.Fatal(err)
			}
			c.o.Seed, c.o.Workers = 1, 2
			r, err := study.Run(context.Background(), m, c.o)
			if err != nil {
				t.Fatal(err)
			}
			if got := hasWarning(r, c.code); got != c.want {
				t.Errorf("%q is told: %v, want %v: %+v", c.code, got, c.want, r.Warnings)
			}
		})
	}
}
