package timestudy

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pascaline/scenarios"
	"pascaline/sim/result"
)

// StopValues are the own causes of a log as values for a scenario: those that it has by station and name get new values, the others are
// new items. Stations that the scenario does not have are named.
func StopValues(r *result.StopFit, s *scenarios.Scenario) (all []scenarios.Value, missing []string) {
	for _, c := range r.Causes {
		if !placed(c) {
			continue
		}
		if !slices.Contains(s.Stations(), c.Station) {
			missing = append(missing, c.Station+": "+c.Name)
			continue
		}
		there := slices.ContainsFunc(s.Stops, func(x scenarios.Stop) bool { return string(x.Name) == c.Name && string(x.Station) == c.Station })
		if !there {
			all = append(all, scenarios.Value{Path: "stops." + c.Name, Text: stopItem(c), Because: stopEvidence(c, r)})
			continue
		}
		all = append(all, scenarios.Value{Path: "stops." + c.Name + ".every", Text: c.Every, Because: stopEvidence(c, r)},
			scenarios.Value{Path: "stops." + c.Name + ".takes", Text: c.Takes, Because: []string{fmt.Sprintf("%s %s takes %s", c.Station, c.Name, secondsText(c.TakesMeanS))}})
	}
	return all, missing
}

// placed tells a cause that goes into a scenario.
func placed(c result.StopFitC) bool { return !c.Outside && c.Takes != "" }

func stopItem(c result.StopFitC) string {
	return fmt.Sprintf("{station: %s, name: %s, every: %s, takes: %s}", c.Station, nameText(c.Name), c.Every, c.Takes)
}

// nameText puts a name in quotes where a scenario file needs them.
func nameText(name string) string {
	if strings.ContainsAny(name, ":,{}[]#&*!|>'\"%@`") {
		return `"` + strings.NewReplacer(`\`, `/`, `"`, "'").Replace(name) + `"`
	}
	return name
}

func stopEvidence(c result.StopFitC, r *result.StopFit) []string {
	head := fmt.Sprintf("%s %s: %s in %s, %s to %s; mean to stop %s (95 %% interval %s to %s) %s; down %s",
		c.Station, c.Name, count(c.N, "stop", "stops"), base(r.File), r.From, r.To, amount(c.Mean, r), amount(*c.Low, r), amount(*c.High, r), r.Clock, hours(c.Down))
	return append([]string{head}, c.Doubts...)
}

func amount(v float64, r *result.StopFit) string {
	if r.Unit == "h" {
		return hours(v)
	}
	return fmt.Sprintf("%.0f", v)
}

// stopSnippet is the own causes as a list for a scenario file; the others stand in comments.
func stopSnippet(r *result.StopFit) string {
	var b, outside strings.Builder
	for _, c := range r.Causes {
		to, lead := &b, "  "
		if !placed(c) {
			to, lead = &outside, "# "
		} else if b.Len() == 0 {
			b.WriteString("stops:\n")
		}
		for _, e := range stopEvidence(c, r) {
			if placed(c) {
				e = "# fit " + c.Name + ": " + e
			}
			fmt.Fprintf(to, "%s%s\n", lead, e)
		}
		if placed(c) {
			fmt.Fprintf(to, "  - %s\n", stopItem(c))
		}
	}
	return b.String() + outside.String()
}

// EstimateShort estimates stops too short for any log, from the gap between what a run predicts with the logged stops and what was counted.
// It is an estimate, and says so: the gap may have other reasons.
func EstimateShort(station string, counted, predicted, eachS float64) *result.Short {
	s := &result.Short{Station: station, Share: round(math.Max(0, 1-counted/predicted)), EachS: eachS, Counted: counted, Predicted: predicted}
	s.PerHour = round(s.Share * 3600 / eachS)
	return s
}
