package words

import (
	"fmt"
	"math"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// FillTimeFit writes the sentences of a study of task times into it, once, before it is saved. What a task's evidence says stands in the
// scenario file too, and is written with it.
func FillTimeFit(r *result.TimeFit) {
	r.Rule = timeRule(r)
	r.Answer = timesAnswer(r)
}

// timeRule says how ratings and allowances were put in.
func timeRule(r *result.TimeFit) string {
	if r.Allowance == 0 && r.Rating == 1 {
		return "Times are as the watch showed them: no rating, no allowance."
	}
	rule := fmt.Sprintf("x (1 + %.4g)", r.Allowance)
	if r.AllowanceOf == "shift" {
		rule = fmt.Sprintf("/ (1 - %.4g)", r.Allowance)
	}
	return fmt.Sprintf("Time on the watch x rating (%.4g where the sheet says none) %s: an allowance of %.4g %% of %s time. Do not roster the same breaks again.",
		r.Rating, rule, 100*r.Allowance, r.AllowanceOf)
}

func timesAnswer(r *result.TimeFit) string {
	n, few, doubtful := 0, 0, 0
	for _, t := range r.Tasks {
		n += t.N
		if t.Needed > t.N || t.HalfS != nil && *t.HalfS > 1.005*r.HalfShare*t.MeanS {
			few++
		}
		if t.TwoKinds != nil || len(t.Outliers) > 0 || math.Abs(t.DriftZ) > result.DriftShown || t.ReadingsS != nil {
			doubtful++
		}
	}
	s := fmt.Sprintf("%s from %s: ", count(len(r.Tasks), "task time", "task times"), count(n, "reading", "readings"))
	switch {
	case few == 0:
		s += fmt.Sprintf("all means are within ± %.3g %%", 100*r.HalfShare)
	case few == 1:
		s += fmt.Sprintf("1 needs more readings to be within ± %.3g %%", 100*r.HalfShare)
	default:
		s += fmt.Sprintf("%d need more readings to be within ± %.3g %%", few, 100*r.HalfShare)
	}
	switch doubtful {
	case 0:
	case 1:
		s += "; look at 1 before you use it"
	default:
		s += fmt.Sprintf("; look at %d before you use them", doubtful)
	}
	return s + "."
}

// FillStopFit writes the sentences of a study of stops into it, once, before it is saved.
func FillStopFit(r *result.StopFit) {
	r.Counted = stopClock(r.Clock)
	r.Answer = stopsAnswer(r)
	if r.Short != nil {
		r.Short.Sentence = shortStops(r.Short)
	}
}

// stopClock says how times to stop were counted.
func stopClock(clock string) string {
	switch clock {
	case "calendar time":
		return "Times to stop are counted by the clock on the wall, nights and week-ends too: give a roster (--roster) if the line does not always run."
	case "on shift":
		return "Times to stop and lengths are counted on shift, by the roster; breaks count as time."
	case "running":
		clock = "running hours"
	}
	return "Times to stop are counted in " + clock + ", by the meter in the log: for each station from its own rows."
}

func stopsAnswer(r *result.StopFit) string {
	n, down, own := 0, 0.0, 0.0
	for _, c := range r.Causes {
		n += c.N
		down += c.Down
		if !c.Outside {
			own += c.Down
		}
	}
	s := fmt.Sprintf("%s of %s stood for %s", count(n, "stop", "stops"), count(len(r.Causes), "cause", "causes"), hours(down))
	if down > 0 {
		s += fmt.Sprintf(", %.0f %% of it by causes of the stations' own", 100*own/down)
	}
	if len(r.Causes) > 0 {
		most := r.Causes[0]
		for _, c := range r.Causes {
			if c.Down > most.Down {
				most = c
			}
		}
		s += fmt.Sprintf("; most of it: %s at %s, %s", most.Name, most.Station, hours(most.Down))
	}
	return s + "."
}

// hours writes hours to four digits.
func hours(v float64) string { return number.PlusMinus(result.Estimate{Mean: v}, "h") }

// shortStops says what an estimate of short stops is, and that it is one.
func shortStops(s *result.Short) string {
	if s.Share == 0 {
		return "What was counted is not below what was predicted: no short stops are missing from the log."
	}
	return fmt.Sprintf("Estimate, not a reading: if the gap between %s counted and %s predicted is short stops of %.3g s each at %s that nobody writes down, there are %.2g an hour, %.1f %% of its time. "+
		"The gap may have other reasons: hold it against an hour of watching.", number.Fixed(s.Counted, 0), number.Fixed(s.Predicted, 0), s.EachS, s.Station, s.PerHour, 100*s.Share)
}
