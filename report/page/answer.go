package page

import (
	"fmt"

	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

// headlineFigures are the four great figures, those that the line has.
func headlineFigures(r *result.Run) []headFigure {
	h, per := r.Headline, "per "+words.Hour(r)
	out := []headFigure{estimate(&h.PacksPerH, "packs/h", "finished "+per)}
	if h.PacksPerH.Mean == 0 && h.CarriersPerH != nil {
		out = nil // the line ends with carriers
	}
	out = addEstimate(out, h.CarriersPerH, "carriers/h", "finished "+per)
	out = addEstimate(out, h.CasesPerH, "cases/h", "finished "+per)
	out = addEstimate(out, h.CyclesPerH, "cycles/h", "of the vessel "+per)
	if len(out) < 3 {
		out = addEstimate(out, h.KgPerH, "kg/h", "finished "+per)
	}
	if r.HandCheck.BoundPacksPerH > 0 {
		out = append(out, headFigure{
			Value: number.Percent(r.HandCheck.Share),
			Says:  fmt.Sprintf("of the hand-check bound, %s packs/h by %s", number.Fixed(r.HandCheck.BoundPacksPerH, 0), r.HandCheck.By),
		})
	}
	return out
}

func addEstimate(to []headFigure, e *result.Estimate, unit, says string) []headFigure {
	if e == nil {
		return to
	}
	return append(to, estimate(e, unit, says))
}

func estimate(e *result.Estimate, unit, says string) headFigure {
	mean, half := number.Rounded(*e)
	if half != "" {
		half = "± " + half
	}
	return headFigure{Value: mean, Doubt: half, Unit: unit, Says: says}
}

// howSure says in a sentence what stands behind the figures.
func howSure(r *result.Run) string {
	e, n := r.Headline.PacksPerH, r.Replications
	runs := "replications"
	if n.N == 1 {
		runs = "replication"
	}
	s := fmt.Sprintf("From %s %s of %s", number.Count(int64(n.N)), runs, n.Length)
	if e.HalfWidth == nil {
		return s + ". One replication says nothing about chance: there is no interval."
	}
	s += fmt.Sprintf("; ± is the %s %% interval of the mean (Student t)", number.Figure(100*e.Level, 2))
	if e.P90 > e.P10 {
		s += fmt.Sprintf("; single replications lie between %s and %s packs/h (P10 to P90)", number.Figure(e.P10, 4), number.Figure(e.P90, 4))
	}
	s += ". " + stopped(n)
	if x := r.Steady; x != nil {
		s += fmt.Sprintf(" Without roster: of %s %s the first %s (%s h) are left out of these figures; all that follows is of the whole run.",
			number.Count(int64(x.Observations)), observations(x), number.Count(int64(x.Cut)), number.Fixed(x.CutH, 1))
	}
	return s
}

// observations is what a steady run was observed by.
func observations(x *result.Steady) string {
	if x.ByCycle {
		return "vessel cycles"
	}
	return "steps of time"
}

// stopped says why there were no more replications.
func stopped(n result.Replications) string {
	switch n.StoppedBy {
	case "precision":
		return fmt.Sprintf("They ended when the interval was within ±%s of the mean.", number.Percent(n.Precision))
	case "number asked":
		return "They ended at the number asked for."
	case "cap":
		return fmt.Sprintf("They ended at the cap, before the interval was within ±%s of the mean.", number.Percent(n.Precision))
	case "interrupted":
		return "They were interrupted: these are the ones that were done."
	}
	return ""
}

// notes numbers the warnings.
func notes(warnings []result.Warning) []note {
	out := make([]note, len(warnings))
	for i, w := range warnings {
		out[i] = note{i + 1, w.Text}
	}
	return out
}
