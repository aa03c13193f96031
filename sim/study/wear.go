package study

import (
	"pascaline/scenarios"
	"pascaline/scenarios/units"
	"pascaline/sim/result"
)

// wear says when the parts that last so many cycles are due, at the cycles of this run: in weeks from now, since no date of the wall clock
// belongs into a result that others can have again.
func wear(s *scenarios.Scenario, cyclesPerH result.Estimate) []result.Wear {
	var list []result.Wear
	hours := weekHours(s)
	vessels := float64(s.Vessel.Vessels)
	for _, l := range s.Vessel.Life {
		w := result.Wear{Part: string(l.Part), Cycles: int64(l.Cycles), Used: int64(l.Used), HoursPerWk: hours, PerWeek: cyclesPerH.Mean * hours / vessels}
		left := float64(l.Cycles - l.Used)
		if w.PerWeek > 0 {
			weeks := left / w.PerWeek
			w.WeeksLeft = &weeks
			if h := cyclesPerH.HalfWidth; h != nil && *h < cyclesPerH.Mean {
				w.WeeksWithin = &[2]float64{left * vessels / ((cyclesPerH.Mean + *h) * hours), left * vessels / ((cyclesPerH.Mean - *h) * hours)}
			}
		}
		list = append(list, w)
	}
	return list
}

// weekHours are the rostered hours of a week; all of them where there is no roster.
func weekHours(s *scenarios.Scenario) float64 {
	if s.Roster == nil {
		return 168
	}
	var day units.Duration
	for _, sh := range s.Roster.Shifts {
		day += sh.Hours.To - sh.Hours.From
	}
	days := 0
	for _, on := range s.Roster.Days {
		if on {
			days++
		}
	}
	return float64(days) * day.Seconds() / 3600
}
