package study

import (
	"math"
	"strings"
	"testing"

	"pascaline/scenarios"
	"pascaline/sim/line"
	"pascaline/sim/result"
)

// pumped is a vessel of 100 L with 50 L of packs, no gas, plastic or growth: 50 L free at 300 L/min are 10 s of prefill, 17.033 L at
// 17.033 L/min are 60 s of come-up (0.17033 L/L to 600 MPa above the atmosphere, IAPWS-95); with a hold of 180 s a cycle of 250 s.
const pumped = `scenario: pumped
product: {pack: {volume: 1 L}, packs_per_carrier: 50, hold: 180 s}
infeed: {places: 4, fed: without end}
vessel:
  vessels: VESSELS
  volume: 100 L
  pumps: {flow: 17.033 L/min, prefill_flow: 300 L/min, gas_in_packs: 0 %, carrier_plastic: 0 %, bore_growth: 0 %, serve: SERVE}
  life: [{part: plug, cycles: 5000, used: 1000}]
run: {one_replication: 100 h, replications: 2}
`

func runPumped(t *testing.T, vessels, serve string) *result.Run {
	t.Helper()
	s, faults := scenarios.ReadBytes("pumped.yaml", []byte(strings.NewReplacer("VESSELS", vessels, "SERVE", serve).Replace(pumped)))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	m, err := line.New(s)
	if err != nil {
		t.Fatal(err)
	}
	r, err := Run(t.Context(), m, Options{Seed: 1, Replications: 2, Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestTimesThatNobodyTook: prefill and come-up are worked out and simulated, said among the assumptions, and the hand check uses them.
func TestTimesThatNobodyTook(t *testing.T) {
	r := runPumped(t, "1", "each vessel has its own")
	if got := r.Vessel.CycleS.Mean; math.Abs(got-250) > 0.02 {
		t.Errorf("cycle of %g s, want 250", got)
	}
	var said []string
	for _, a := range r.Assumptions {
		if a.Origin == "worked out" {
			said = append(said, a.Where+" "+a.Value)
		}
	}
	if got := strings.Join(said, ", "); got != "vessel.phases.prefill 10 s, vessel.phases.come_up 60 s" {
		t.Errorf("said to be worked out: %s", got)
	}
	if got := r.HandCheck.BoundPacksPerH; math.Abs(got-50*3600/250.0) > 0.1 {
		t.Errorf("hand check %g packs/h, want %g", got, 50*3600/250.0)
	}
}

// TestPartIsDue: 4,000 cycles left at 14.4 an hour and 168 hours a week are 1.653 weeks.
func TestPartIsDue(t *testing.T) {
	w := runPumped(t, "1", "each vessel has its own").Vessel.Wear
	if len(w) != 1 || w[0].WeeksLeft == nil || math.Abs(*w[0].WeeksLeft-4000/(3600/250.0*168)) > 0.01 {
		t.Errorf("%+v", w)
	}
}

// TestPumpsBind: five vessels of 250 s on one set that needs 60 s for each come-up: 60 an hour at most, not 72; the waterfall adds up.
func TestPumpsBind(t *testing.T) {
	r := runPumped(t, "5", "one vessel at a time")
	if r.HandCheck.By != "pumps" || math.Abs(r.HandCheck.BoundPacksPerH-3000) > 1 {
		t.Errorf("bound of %g packs/h by %s, want 3000 by pumps", r.HandCheck.BoundPacksPerH, r.HandCheck.By)
	}
	if got := r.Headline.CyclesPerH.Mean; got > 60.01 || got < 59.8 {
		t.Errorf("%g cycles/h, want 60", got)
	}
	sum, waits := 0.0, 0.0
	for _, l := range r.Waterfall[:len(r.Waterfall)-1] {
		sum += l.PacksPerH
		if l.Cause == "waiting for the pumps" {
			waits = l.PacksPerH
		}
	}
	last := r.Waterfall[len(r.Waterfall)-1].PacksPerH
	if math.Abs(sum-last) > 1e-6*last || math.Abs(waits+600) > 10 {
		t.Errorf("the waterfall adds up to %g, finished is %g; %g by waiting for the pumps, want about -600", sum, last, waits)
	}
}
