package press

import (
	"fmt"
	"math"

	"pascaline/scenarios"
	"pascaline/sim/result"
)

const curvePoints = 40 // of the come-up

// curve is the pressure over the cycle. The come-up has the shape that flow and power give it, stretched to the time that is used; pressure is
// let off along a straight line.
func (x *Setup) curve(r *result.Cycle, u ComeUp) {
	if r.ComeUp.UsedS == 0 || u.S == 0 {
		return
	}
	at, mpa, in := 0.0, 0.0, 0.0
	point := func() {
		r.Curve = append(r.Curve, result.CurvePoint{S: six(at), MPa: six(mpa), PushedIn: six(in)})
	}
	point()
	for _, ph := range r.Phases {
		switch ph.Name {
		case "come-up":
			for i := steps / curvePoints; i <= steps; i += steps / curvePoints {
				p := u.Points[i]
				c := result.CurvePoint{S: six(at + p.S/u.S*ph.S), MPa: six(p.MPa), PushedIn: six(p.In)}
				r.Curve = append(r.Curve, c)
			}
			at, mpa, in = at+ph.S, x.MPa, u.In
			continue
		case "decompress":
			mpa, in = 0, 0
		default:
			if mpa > 0 && ph.Name != "hold" { // no time was given for letting it off
				mpa, in = 0, 0
				point()
			}
		}
		at += ph.S
		point()
	}
}

// tellsApart is the share by which a stopwatch and the physics may differ before it is told.
const tellsApart = 0.10

// doubts fills in what somebody should know of the figures.
func (x *Setup) doubts(r *result.Cycle) {
	r.Warnings = append(r.Warnings, Doubts(x.s)...)
	add := func(code, format string, a ...any) {
		r.Warnings = append(r.Warnings, result.Warning{Code: code, Text: fmt.Sprintf(format, a...)})
	}
	if !x.Stated {
		add("pumps not stated", "vessel.pumps is not in the file: gas in the packs, carrier plastic, growth of the bore, temperatures and efficiency are typical values.")
	}
	if r.ComeUp.UsedS == 0 {
		add("come-up not known", "Neither vessel.phases.come_up nor vessel.pumps.flow is given: the cycle is without its come-up, and there is no curve.")
	}
	if r.Prefill.UsedS == 0 {
		add("prefill not known", "Neither vessel.phases.prefill nor vessel.pumps.prefill_flow is given: the cycle is without its prefill.")
	}
	if r.Energy.PowerShortS > 0 {
		add("power short", "The power of the pumps holds their flow back for %.0f s of the come-up; with power enough it would take %.0f s.", r.Energy.PowerShortS, r.Energy.PowerEnoughS)
	}
	if x.MPa > 800 {
		add("beyond the trade", "%g MPa is beyond vessels of this trade; water near its freezing pressure may turn to ice.", x.MPa)
	}
}

// Doubts tells where a stopwatch time and the physics differ by more than a tenth, where the stopwatch is used; and where a time that is worked out
// lies outside what is usual.
func Doubts(s *scenarios.Scenario) []result.Warning {
	x, err := SetupOf(s)
	if err != nil || x == nil || !x.Known() || !x.Stated {
		return nil
	}
	var list []result.Warning
	for _, d := range []struct {
		name      string
		taken     *scenarios.Time
		worked    float64
		low, high float64 // usual
	}{{"prefill", s.Vessel.Phases.Prefill, x.PrefillS(x.Full()), 10, 60}, {"come-up", s.Vessel.Phases.ComeUp, x.ComeUpS(x.Full()), 90, 300}} {
		by := meanOf(d.taken)
		if d.taken == nil && d.worked > 0 && (d.worked < d.low || d.worked > d.high) {
			list = append(list, result.Warning{Code: d.name + " unusual", Text: fmt.Sprintf("From volumes and flow %s takes %.4g s; %g to %g s is usual (common practice, no source). Look at the flow and the volumes again.", d.name, d.worked, d.low, d.high)})
		}
		if by == 0 || d.worked == 0 || math.Abs(d.worked-by) <= tellsApart*by {
			continue
		}
		list = append(list, result.Warning{Code: d.name + " differs", Text: fmt.Sprintf("The stopwatch time of %s, %.4g s, is used; volumes and flow give %.4g s. One of them is not what it was taken for.", d.name, by, d.worked)})
	}
	return list
}

// Assumed are the times that were worked out, as assumptions of a run.
func Assumed(s *scenarios.Scenario) []result.Assumption {
	w, err := WorkedOut(s)
	if err != nil || s.Vessel == nil {
		return nil
	}
	var list []result.Assumption
	add := func(where, name string, by []float64) {
		if n := len(by); n > 0 {
			list = append(list, result.Assumption{Where: where, Value: fmt.Sprintf("%.4g s", by[n-1]), Origin: "worked out",
				Says: fmt.Sprintf("%s: nobody took this time; volumes and flow give %.4g s for a full load (pascaline cycle shows how).", name, by[n-1])})
		}
	}
	add("vessel.phases.prefill", "prefill", w.Prefill)
	add("vessel.phases.come_up", "come-up", w.ComeUp)
	return list
}
