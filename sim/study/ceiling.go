package study

import (
	"math"

	"pascaline/scenarios"
)

// ceiling is the most that a setting could make by the hand check, in the unit of the target; 0 where nothing is known. It leaves out breaks and
// stops, counts every head at work all the time, and adds what the line can hold when a shift begins, or works off after it: so a
// setting whose ceiling is below the target can be ruled out without a run, and more of anything can only raise it.
func ceiling(s *scenarios.Scenario, t *scenarios.Target) (most float64, by string) {
	if !s.OneStretch() || len(s.Lots) > 0 { // lots wait for each other, and differ
		return 0, ""
	}
	h := HandCheck(s, 0)
	if h.BoundPacksPerH == 0 {
		return 0, ""
	}
	if s.Roster == nil {
		return h.BoundPacksPerH, h.By
	}
	for _, hours := range countedHours(s, t) {
		stock, limited := s.Holds(float64(h.BoundPacksPerH * 24))
		if !limited || hours == 0 {
			return 0, ""
		}
		made := float64(h.BoundPacksPerH*hours) + stock
		if t.PacksPerHour > 0 {
			made /= hours
		}
		most = math.Max(most, made)
	}
	return most, h.By
}

// countedHours are the hours of the shifts that count.
func countedHours(s *scenarios.Scenario, t *scenarios.Target) (hours []float64) {
	for i := range s.Roster.Shifts {
		if name := s.Roster.Shifts[i].Name; counts(t, name) {
			hours = append(hours, s.ShiftHours(name))
		}
	}
	return hours
}

// counts tells whether a shift counts for the target.
func counts(t *scenarios.Target, shift string) bool {
	for _, x := range t.Shifts {
		if string(x) == shift {
			return true
		}
	}
	return len(t.Shifts) == 0
}
