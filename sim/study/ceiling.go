package study

import (
	"math"
	"slices"
	"strings"

	"pascaline/scenarios"
	"pascaline/sim/random"
)

// ceiling is the most that a setting could make by the hand check, in the unit of the target; 0 where nothing is known. It leaves out breaks and
// stops, counts every head at work all the time, and adds what the line can hold when a shift begins, or works off after it: so a
// setting whose ceiling is below the target can be ruled out without a run, and more of anything can only raise it.
//
// Mean times do not bound what is made in a shift by themselves: of tasks with a coefficient of variation v no more than T/mean + v^2 are expected in
// time T (Lorden 1970: from memory), about T/mean + (v^2 - 1)/2. Up to v = 1 that is the task in hand, which is counted with what the line holds; with
// more nothing is known. (No target asks for what less than half of the shifts reach.) A pace of a shift with variance v^2 is on average 1 + v^2 times as quick.
func ceiling(s *scenarios.Scenario, t *scenarios.Target) (most float64, by string) {
	if !s.OneStretch() || len(s.Lots) > 0 { // lots wait for each other, and differ
		return 0, ""
	}
	if scattered(s) {
		return 0, ""
	}
	h := HandCheck(s, 0)
	if h.BoundPacksPerH == 0 {
		return 0, ""
	}
	pace := 1.0
	for i := range s.People {
		p := float64(s.People[i].ShiftPace)
		pace = max(pace, 1+float64(p*p))
	}
	h.BoundPacksPerH *= pace
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

// takesOnly are the parts of a scenario whose times take nothing but output away from the line.
var takesOnly = []string{"stops", "changeovers", "lots", "roster", "run", "money", "size"}

// scattered tells whether some time of the line has a standard deviation above its mean, so that much more than by mean times may be made in a shift.
func scattered(s *scenarios.Scenario) bool {
	found := false
	s.EachTime(func(path string, t *scenarios.Time) {
		if section := strings.FieldsFunc(path, func(r rune) bool { return r == '.' || r == '[' })[0]; slices.Contains(takesOnly, section) {
			return
		}
		x, err := random.NewLaw(t.Law())
		found = found || err == nil && x.SD() > x.Mean()
	})
	return found
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
