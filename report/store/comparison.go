package store

import (
	"errors"
	"fmt"
	"slices"

	"pascaline/sim/result"
)

func fitsComparison(c *result.Comparison) error {
	switch {
	case len(c.Scenarios) < 2:
		return errors.New("it compares fewer than two scenarios")
	case len(c.Measures) == 0:
		return errors.New("it compares in no measure")
	case len(c.PerReplication) != c.Replications.N:
		return fmt.Errorf("it says %d replications and lists %d", c.Replications.N, len(c.PerReplication))
	}
	for _, p := range c.PerReplication {
		if len(p.Values) != len(c.Scenarios) {
			return fmt.Errorf("replication %d has not one value a scenario", p.Number)
		}
	}
	for _, d := range c.Differing {
		if len(d.Values) != len(c.Scenarios) {
			return fmt.Errorf("the value %q is not given for each scenario", d.Where)
		}
	}
	seen := map[[2]string]bool{}
	for _, d := range c.Differences {
		which := [2]string{d.Scenario, d.Measure}
		if seen[which] || !slices.ContainsFunc(c.Scenarios, func(s result.Compared) bool { return s.Name == d.Scenario }) {
			return fmt.Errorf("the difference of %q is there twice, or of no scenario", d.Scenario)
		}
		seen[which] = true
		if (d.Low == nil) != (d.High == nil) {
			return fmt.Errorf("the difference of %q has half an interval", d.Scenario)
		}
	}
	return nil
}

func fitsGains(g *result.Gains) error {
	if g == nil {
		return nil
	}
	for _, x := range g.Rows {
		if (x.Low == nil) != (x.High == nil) {
			return fmt.Errorf("the gain of %q has half an interval", x.Candidate)
		}
	}
	return nil
}
