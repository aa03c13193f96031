package press

import (
	"math"
	"strings"
	"testing"

	"pascaline/scenarios"
	"pascaline/sim/result"
)

func read(t *testing.T, text string) *scenarios.Scenario {
	t.Helper()
	s, faults := scenarios.ReadBytes("cycle.yaml", []byte(text))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return s
}

// plainVessel is 100 L with 50 L of packs and nothing that is not water.
const plainVessel = `scenario: x
product: {pack: {volume: 1 L, mass: 1.05 kg}, packs_per_carrier: 25, hold: 180 s}
vessel:
  volume: 100 L
  bore: 300 mm
  carriers_per_load: 2
  pumps: {flow: 17.033 L/min, prefill_flow: 300 L/min, gas_in_packs: 0 %, carrier_plastic: 0 %, bore_growth: 0 %, intensifiers: 3, efficiency: 50 %}
  phases: {PHASES}
`

func cycleOf(t *testing.T, phases string) *result.Cycle {
	t.Helper()
	r, err := CycleOf(read(t, strings.ReplaceAll(plainVessel, "PHASES", phases)))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestCycle holds every figure of a cycle to what can be worked out by hand: 10 s of prefill, 60 s of come-up, 180 s of hold, 3 s of decompression.
func TestCycle(t *testing.T) {
	r := cycleOf(t, "decompress: 3 s")
	for _, x := range []struct {
		name              string
		got, want, within float64
	}{
		{"prefill", r.Prefill.UsedS, 10, 0}, {"come-up", r.ComeUp.UsedS, 60, 0.01}, {"cycle", r.CycleS, 253, 0.01}, {"cycles/h", r.CyclesPerH, 3600 / 253.0, 0.001},
		{"kg/h", r.KgPerH, 50 * 1.05 * 3600 / 253.0, 0.1}, {"fill", r.Load.Fill, 0.5, 0}, {"packs", float64(r.Load.Packs), 50, 0},
		{"pushed in", r.Water.PushedInL, 17.033, 0.002}, {"water of a cycle", r.Water.CycleL, 67.033, 0.002}, {"water a kg", r.Water.PerKg, 67.033 / 52.5, 0.001},
		{"ideal energy", r.Energy.IdealKWh, 1.117, 0.001}, {"energy", r.Energy.KWh, 2.234, 0.002}, {"energy a kg", r.Energy.PerKg, 2.234 / 52.5, 0.0001},
		{"water warms to", r.Warming.WaterToC, 25.37, 0.02}, {"packs warm to", r.Warming.PacksToC, 19.49, 0.02},
		{"force", r.Plugs.ForceMN, 42.41, 0.01}, {"length", r.Plugs.LengthM, 1.4147, 0.0001}, {"flow needed", r.Pumps.FlowNeeded, 17.033, 0.01},
		{"come-up with one of three lost", r.Pumps.Lost[0].ComeUpS, 90, 0.02}, {"cycle with two of three lost", r.Pumps.Lost[1].CycleS, 373, 0.04},
	} {
		if !(math.Abs(x.got-x.want) <= x.within) {
			t.Errorf("%s: %g, want %g within %g", x.name, x.got, x.want, x.within)
		}
	}
	if len(r.Warnings) != 1 || r.Warnings[0].Code != "come-up unusual" { // 60 s is quick
		t.Errorf("warned of %v", r.Warnings)
	}
}

// TestCurve: pressure rises only in the come-up, is the product's through the hold, and ends at none with the cycle.
func TestCurve(t *testing.T) {
	for _, phases := range []string{"decompress: 3 s, open: 15 s", "open: 15 s", "close: 20 s, decompress: 3 s"} {
		t.Run(phases, func(t *testing.T) {
			r := cycleOf(t, phases)
			held := 0.0
			for i := 1; i < len(r.Curve); i++ {
				a, b := r.Curve[i-1], r.Curve[i]
				if b.S < a.S {
					t.Fatalf("point %d goes back in time: %v after %v", i, b, a)
				}
				if a.MPa == r.PressureMPa && b.MPa == r.PressureMPa {
					held += b.S - a.S
				}
			}
			last := r.Curve[len(r.Curve)-1]
			if math.Abs(held-180) > 1e-3 || last.MPa != 0 || math.Abs(last.S-r.CycleS) > 1e-3 {
				t.Errorf("held for %g s, ends with %v of %g s", held, last, r.CycleS)
			}
		})
	}
}

// TestStopwatchWins: a time that was taken is used, and told where physics is more than a tenth away.
func TestStopwatchWins(t *testing.T) {
	for _, x := range []struct {
		name, phases string
		used         float64
		warned       string
	}{
		{"near", "come_up: 64 s", 64, ""},
		{"far", "come_up: 90 s", 90, "come-up differs"},
		{"prefill far", "prefill: 30 s, come_up: {low: 60 s, likely: 66 s, high: 72 s}", 66, "prefill differs"},
	} {
		t.Run(x.name, func(t *testing.T) {
			r := cycleOf(t, x.phases)
			var codes []string
			for _, w := range r.Warnings {
				codes = append(codes, w.Code)
			}
			if r.ComeUp.UsedS != x.used || math.Abs(r.ComeUp.WorkedOutS-60) > 0.01 || strings.Join(codes, ", ") != x.warned {
				t.Errorf("come-up %+v, warned of %v", r.ComeUp, codes)
			}
		})
	}
}

func TestCycleOfNothing(t *testing.T) {
	for _, x := range []struct{ name, text, want string }{
		{"no vessel", "scenario: x\npacking: {time: 26 s}\n", "no vessel"},
		{"no volume", "scenario: x\nvessel: {phases: {}}\n", "vessel.volume is missing"},
		{"no pack", "scenario: x\nvessel: {volume: 100 L}\n", "product.pack.volume is missing"},
	} {
		t.Run(x.name, func(t *testing.T) {
			if _, err := CycleOf(read(t, x.text)); err == nil || !strings.Contains(err.Error(), x.want) {
				t.Errorf("got %v, want %q in it", err, x.want)
			}
		})
	}
}

// TestPartLoad: one carrier of two leaves more free, so its prefill is longer: 75 L at 300 L/min.
func TestPartLoad(t *testing.T) {
	w, err := WorkedOut(read(t, strings.ReplaceAll(plainVessel, "PHASES", "open: 15 s")))
	if err != nil || len(w.Prefill) != 2 || w.Prefill[0] != 15 || w.Prefill[1] != 10 || len(w.ComeUp) != 2 {
		t.Errorf("%+v, %v", w, err)
	}
}

// TestPartLoadByHand: a vessel of 100 L with 5 carriers of 20 packs of 0.5 L and plastic of 10 % of the vessel when it is full: 3 carriers hold 30 L of packs and 6 L of
// plastic, and leave 64 L free.
func TestPartLoadByHand(t *testing.T) {
	x, err := SetupOf(read(t, `scenario: x
product: {pack: {volume: 500 mL}, packs_per_carrier: 20}
vessel:
  volume: 100 L
  carriers_per_load: 5
  pumps: {flow: 20 L/min, prefill_flow: 320 L/min, carrier_plastic: 10 %}
`))
	if err != nil {
		t.Fatal(err)
	}
	for carriers, want := range map[int][3]float64{3: {30, 6, 64}, 5: {50, 10, 40}} {
		c := x.Content(carriers)
		near(t, "packs", c.Packs, want[0], 1e-9)
		near(t, "plastic", c.Plastic, want[1], 1e-9)
		near(t, "free", c.Free(), want[2], 1e-9)
	}
	near(t, "prefill of a part load", x.PrefillS(3), 12, 1e-9) // 64 L at 320 L/min
}

// TestPowerShortInACycle: 17.033 L at 17.033 L/min take 60 s with power enough. The whole work is 1.117 kWh, so 2.234 kWh at 50 %; at 20 kW that alone would take 402 s, so the
// come-up is longer than this by the start, in which the flow is what holds. The most come-ups in an hour are those of its time, not of the cycle.
func TestPowerShortInACycle(t *testing.T) {
	text := strings.ReplaceAll(strings.ReplaceAll(plainVessel, "PHASES", "decompress: 3 s"), "flow: 17.033 L/min, pre", "flow: 17.033 L/min, power: 20 kW, pre")
	r, err := CycleOf(read(t, text))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "come-up with power enough", r.Energy.PowerEnoughS, 60, 0.02)
	if r.ComeUp.UsedS < 402 || r.ComeUp.UsedS > 402+60 {
		t.Errorf("come-up of %g s", r.ComeUp.UsedS)
	}
	near(t, "come-ups an hour", r.Pumps.MostPerH, 3600/r.ComeUp.UsedS, 1e-4)
	plain := cycleOf(t, "decompress: 3 s")
	near(t, "come-ups an hour at 60 s", plain.Pumps.MostPerH, 60, 0.01)
}
