package words

import (
	"fmt"
	"slices"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// FillCycle writes the sentences of a cycle into it, once, before it is saved.
func FillCycle(r *result.Cycle) {
	r.Answer = cycleAnswer(r)
	r.Cautions = slices.Concat([]string{
		"Worked out from volumes, flows and the properties of water, not measured: where a stopwatch time is known, give it, and it is used instead.",
		"Warming is the most there can be. Fat and oil warm more than water; steel and plastic take heat, so places near the wall stay colder. No temperature here is evidence of a process.",
		"The force is the pressure on the area of the bore, nothing more. Whether frame, yoke and plugs bear it is for the vessel's maker and inspector.",
	}, Cautions())
}

func cycleAnswer(r *result.Cycle) string {
	who := number.Plain(r.Scenario)
	if r.Variant != "" {
		who += " (" + number.Plain(r.Variant) + ")"
	}
	s := fmt.Sprintf("%s: a cycle takes %s at %s MPa and a hold of %s, so %s cycles an hour without a pause", who, number.Duration(r.CycleS),
		number.Figure(r.PressureMPa, 3), number.Duration(r.HoldS), number.Fixed(r.CyclesPerH, 1))
	if r.ComeUp.UsedS > 0 {
		s += fmt.Sprintf("; come-up is %s for %s L of water", number.Duration(r.ComeUp.UsedS), number.Fixed(r.Water.PushedInL, 1))
	}
	return s + "."
}

// Origin says where the time of a phase comes from.
func Origin(r *result.Cycle, p result.CyclePhase) string {
	switch p.Name {
	case "prefill":
		return worked(r.Prefill)
	case "come-up":
		return worked(r.ComeUp)
	}
	return p.Origin
}

// worked says of a time whether it was taken or worked out, and how far the two are apart.
func worked(w result.WorkedTime) string {
	switch {
	case w.UsedS == 0:
		return "not known"
	case w.StopwatchS == 0:
		return "worked out; nobody took it"
	case w.WorkedOutS == 0:
		return "by the stopwatch; a flow would tell what physics says"
	}
	return fmt.Sprintf("stopwatch, used; physics says %s (%s)", number.Duration(w.WorkedOutS), apart(w))
}

func apart(w result.WorkedTime) string {
	d := 100 * (w.WorkedOutS - w.StopwatchS) / w.StopwatchS
	if d >= 0 {
		return "+" + number.Fixed(d, 0) + " %"
	}
	return number.Fixed(d, 0) + " %"
}

// Litres writes an amount of water.
func Litres(l float64) string { return number.Fixed(l, 1) + " L" }
