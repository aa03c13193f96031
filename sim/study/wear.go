package study

import (
	"pascaline/scenarios"
	"pascaline/sim/result"
)

// wear says when the parts that last so many cycles are due, at the cycles of this run in so many hours of a week: in weeks from now, since no date
// of the wall clock belongs into a result that others can have again.
func wear(s *scenarios.Scenario, cyclesPerH result.Estimate, hours float64) []result.Wear {
	var list []result.Wear
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
