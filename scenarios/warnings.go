package scenarios

import "slices"

// Warning is not a fault, but somebody should know of it.
type Warning struct {
	Code string // a few words that stay the same
	Text string // a sentence
}

func (t *Trail) warn(code, text string) { t.warnings = append(t.warnings, Warning{code, text}) }

// Warnings are what somebody should know of before the results are believed.
func (s *Scenario) Warnings() []Warning {
	var all []Warning
	if s.Trail != nil {
		all = slices.Clone(s.Trail.warnings)
	}
	for _, a := range s.unusual() {
		all = append(all, Warning{"outside typical range", a.Says})
	}
	return all
}
