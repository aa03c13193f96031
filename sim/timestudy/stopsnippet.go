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
// new items. Causes at stations that the scenario does not have are named in missing; otherwise are those that the scenario has, but not
// stopped by an interval: of these only the length is a value, and a sentence says what was left.
func StopValues(r *result.StopFit, s *scenarios.Scenario) (all []scenarios.Value, missing, otherwise []string) {
	for _, c := range r.Causes {
		if !placed(c) {
			continue
		}
		if !slices.Contains(s.Stations(), c.Station) {
			missing = append(missing, c.Station+": "+c.Name)
			continue
		}
		there := stopOf(s, c)
		if there == nil {
			all = append(all, stopValue(c, r))
			continue
		}
		path := []string{"stops", scenarios.StopKey(c.Station, string(there.Name))}
		if there.Every != nil {
			all = append(all, scenarios.Value{Path: append(slices.Clone(path), "every"), Text: c.Every, Because: stopEvidence(c, r)})
		} else {
			way := "by chance"
			if len(there.At) > 0 {
				way = "at stated times"
			}
			otherwise = append(otherwise, fmt.Sprintf("when %s begins is %s there, and the log gives an interval; to take that, write in its place \"every: %s\"",
				strings.Join(path, "."), way, c.Every))
		}
		all = append(all, scenarios.Value{Path: append(slices.Clone(path), "takes"), Text: c.Takes,
			Because: []string{fmt.Sprintf("%s %s takes %s", c.Station, c.Name, secondsText(c.TakesMeanS))}})
	}
	return all, missing, otherwise
}

// stopOf is the stop of a scenario that a cause of a log is: of this station and name, but for capital letters.
func stopOf(s *scenarios.Scenario, c result.StopFitC) *scenarios.Stop {
	for _, same := range []func(a, b string) bool{func(a, b string) bool { return a == b }, strings.EqualFold} {
		for i := range s.Stops {
			if x := &s.Stops[i]; string(x.Station) == c.Station && same(string(x.Name), c.Name) {
				return x
			}
		}
	}
	return nil
}

// placed tells a cause that goes into a scenario.
func placed(c result.StopFitC) bool { return !c.Outside && c.Every != "" && c.Takes != "" }

// stopValue is a cause as a whole stop.
func stopValue(c result.StopFitC, r *result.StopFit) scenarios.Value {
	text := fmt.Sprintf("{station: %s, name: %s, every: %s, takes: %s}", scenarios.InBraces(c.Station), scenarios.InBraces(c.Name), c.Every, c.Takes)
	return scenarios.Value{Path: []string{"stops", scenarios.StopKey(c.Station, c.Name)}, Text: text, Because: stopEvidence(c, r)}
}

func stopEvidence(c result.StopFitC, r *result.StopFit) []string {
	mean := "not known"
	if c.Low != nil {
		mean = fmt.Sprintf("%s (95 %% interval %s to %s) %s", amount(c.Mean, r), amount(*c.Low, r), amount(*c.High, r), r.Clock)
	}
	head := fmt.Sprintf("%s %s: %s in %s, %s to %s; mean to stop %s; down %s", c.Station, c.Name, count(c.N, "stop", "stops"), base(r.File), r.From, r.To, mean, hours(c.Down))
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
	var own []scenarios.Value
	var outside strings.Builder
	for _, c := range r.Causes {
		if placed(c) {
			own = append(own, stopValue(c, r))
			continue
		}
		for _, e := range stopEvidence(c, r) {
			outside.WriteString(scenarios.Comment(1, e))
		}
	}
	return scenarios.StopList(own) + outside.String()
}

// EstimateShort estimates stops too short for any log, from the gap between what a run predicts with the logged stops and what was counted.
// It is an estimate, and says so: the gap may have other reasons.
func EstimateShort(station string, counted, predicted, eachS float64) *result.Short {
	s := &result.Short{Station: station, Share: round(math.Max(0, 1-counted/predicted)), EachS: eachS, Counted: counted, Predicted: predicted}
	s.PerHour = round(s.Share * 3600 / eachS)
	return s
}
