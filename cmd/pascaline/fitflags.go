package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"pascaline/scenarios/units"
	"pascaline/sim/result"
	"pascaline/sim/timestudy"
)

// Flags that say something of one of the two kinds of file.
var (
	forTimes = []string{"unit", "half-width", "rating", "allowance", "allowance-of", "goes", "pool"}
	forLogs  = []string{"from", "to", "roster", "counted", "predicted", "short-at", "short-each"}
)

// forTheOther refuses flags that say nothing of this kind of file, since what they ask for would not be done.
func forTheOther(cmd *cobra.Command, path string, isLog bool) error {
	flags, wanted, is := forLogs, "a stop log", "a stopwatch sheet"
	if isLog {
		flags, wanted, is = forTimes, is, wanted
	}
	var given []string
	for _, name := range flags {
		if cmd.Flags().Changed(name) {
			given = append(given, "--"+name)
		}
	}
	if len(given) == 0 {
		return nil
	}
	verb := "is"
	if len(given) > 1 {
		verb = "are"
	}
	return fmt.Errorf("%s %s for %s, and %s is %s; leave out what does not belong to it", strings.Join(given, ", "), verb, wanted, path, is)
}

// shortStops adds the estimate of short stops where it was asked for.
func shortStops(cmd *cobra.Command, r *result.StopFit, f fitFlags) error {
	both := cmd.Flags().Changed("counted") && cmd.Flags().Changed("predicted")
	switch {
	case !both && (cmd.Flags().Changed("counted") || cmd.Flags().Changed("predicted")):
		return fmt.Errorf("--counted and --predicted go together, both above 0")
	case !both && (cmd.Flags().Changed("short-at") || cmd.Flags().Changed("short-each")):
		return fmt.Errorf("--short-at and --short-each go with --counted and --predicted")
	case !both:
		return nil
	}
	for _, x := range []struct {
		flag  string
		value float64
	}{{"counted", f.counted}, {"predicted", f.predicted}} {
		if !(x.value > 0 && x.value <= math.MaxFloat64) {
			return fmt.Errorf("--%s %v is no number of packs above 0; --counted and --predicted go together", x.flag, x.value)
		}
	}
	var each units.Duration
	if err := each.Parse(f.shortEach); err != nil || each <= 0 {
		return fmt.Errorf("--short-each %q is not a time, such as \"30 s\"", f.shortEach)
	}
	at, err := shortAt(r, f.shortAt)
	if err != nil {
		return err
	}
	r.Short = timestudy.EstimateShort(at, f.counted, f.predicted, each.Seconds())
	return nil
}

// shortAt is the station of the short stops: the one that was said, or else the one that stood longest by one cause.
func shortAt(r *result.StopFit, said string) (at string, err error) {
	var stations []string
	most := 0.0
	for _, c := range r.Causes {
		if !slices.Contains(stations, c.Station) {
			stations = append(stations, c.Station)
		}
		if c.Down >= most {
			at, most = c.Station, c.Down
		}
	}
	if said == "" {
		return at, nil
	}
	if i := slices.IndexFunc(stations, func(s string) bool { return strings.EqualFold(s, strings.TrimSpace(said)) }); i >= 0 {
		return stations[i], nil
	}
	return "", fmt.Errorf("--short-at %q is no station of the log; there are: %s", said, strings.Join(stations, ", "))
}
