package selftest

import (
	"fmt"
	"strconv"
	"strings"

	"pascaline/sim/press"
)

// vesselChecks compares the physics of a cycle, and what is claimed of vessels.
func vesselChecks(_ *Runner, _ string, rows []valueRow) ([]Check, error) {
	var checks []Check
	for _, x := range rows {
		c, err := x.check()
		if err == nil {
			c.Got, err = physical(strings.Fields(x["metric"]))
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.Name, err)
		}
		checks = append(checks, c)
	}
	return checks, nil
}

// vesselFigures works out a figure from the numbers that follow its name in the table.
var vesselFigures = map[string]func(a [5]float64) float64{
	"density": func(a [5]float64) float64 { return water(a[0]).Density(a[1] - 0.101325) },
	"push-in": func(a [5]float64) float64 { return water(a[0]).PushIn(a[1] - 0.101325) },
	"warming": func(a [5]float64) float64 { return water(a[0]).Warming(a[1] - 0.101325) },
	"work": func(a [5]float64) float64 {
		c := press.Content{Vessel: 1}
		return 3600 * c.ComeUp(water(a[0]), press.Pumps{}, a[1]-0.101325).IdealKWh
	},
	"growth": func(a [5]float64) float64 { return press.BoreGrowth(a[0], a[1]) },
	"force":  func(a [5]float64) float64 { return press.Force(a[0], a[1]) },
	"tonnes": func(a [5]float64) float64 { return press.TonnesForce(press.Force(a[0], a[1])) },
	"packed": func(a [5]float64) float64 { return packed(1).PushIn(water(10), a[0]).Sum() },
	"flow":   func(a [5]float64) float64 { return packed(a[0]).PushIn(water(10), 600).Sum() / a[1] * 60 },
	"lost":   func(a [5]float64) float64 { return press.Lost(int(a[0]), int(a[1])) },
	"fill": func(a [5]float64) float64 {
		return press.Claim{Kg: a[0], Hours: a[1], Volume: a[2], CyclesPerH: a[3], Density: a[4]}.FillNeeded()
	},
	"cycles": func(a [5]float64) float64 { return press.CyclesPerH(a[0], a[1]) },
	"hours":  func(a [5]float64) float64 { return press.HoursFor(a[0], a[1]) },
}

func physical(words []string) (float64, error) {
	if len(words) == 0 || vesselFigures[words[0]] == nil {
		return 0, fmt.Errorf("no figure is called %q", words)
	}
	var a [5]float64
	for i, w := range words[1:] {
		v, err := strconv.ParseFloat(w, 64)
		if err != nil || i >= len(a) {
			return 0, fmt.Errorf("%q is no number, or one too many", w)
		}
		a[i] = v
	}
	return vesselFigures[words[0]](a), nil
}

// water of a temperature in the table; another is a fault of the table and shows as no number.
func water(c float64) *press.Water {
	w, err := press.NewWater(c)
	if err != nil {
		return &press.Water{}
	}
	return w
}

// packed is a vessel at a fill of 0.6 with 2 % of it gas in the packs and a bore that grows by 1.2 %.
func packed(litres float64) *press.Content {
	return &press.Content{Vessel: litres, Packs: 0.6 * litres, Gas: 0.02 / 0.6, Growth: 0.012}
}
