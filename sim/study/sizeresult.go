package study

import (
	"fmt"
	"math"
	"strings"

	"pascaline/sim/result"
)

// head writes down what was asked.
func (z *sizing) head() {
	t, p := &z.s.Size.Target, z.prices
	x := result.SizeTarget{
		Value: z.m.rule.target, Unit: "packs/shift", Over: "shifts", Share: float64(t.In), Confidence: float64(t.Confidence), Tolerance: float64(t.Tolerance),
	}
	switch {
	case t.LotsOnTime > 0:
		x.Unit = result.LotsOnTime
	case t.PacksPerHour > 0:
		x.Unit = "packs/h"
	}
	if z.s.Roster == nil || t.LotsOnTime > 0 {
		x.Over = "replications"
	}
	for _, s := range t.Shifts {
		x.Shifts = append(x.Shifts, string(s))
	}
	z.r.Target = x
	z.r.Currency = z.s.Size.Currency()
	if z.r.Currency == "" && z.s.Money != nil {
		z.r.Currency = z.s.Money.Currency()
	}
	for i := range z.s.Size.Vary {
		d := &z.s.Size.Vary[i]
		c := result.SizeChoice{Name: d.Name, Values: d.Choices()}
		for _, f := range d.Fields {
			c.Fields = append(c.Fields, string(f))
		}
		z.r.Dimensions = append(z.r.Dimensions, c)
	}
	wrong := 1 - z.m.rule.confidence
	if z.m.rule.share > 0 {
		wrong /= 2
	} else {
		wrong /= float64(max(1, len(z.open())))
	}
	z.r.Procedure = result.Procedure{Settings: len(z.settings), Judged: len(z.open()), WrongDrop: math.Round(wrong*1e10) / 1e10, Rate: p.rate, Weeks: int(p.weeks)}
}

// finish lists all settings with what became of them.
func (z *sizing) finish() {
	for _, x := range z.settings {
		s := result.Setting{
			Number: x.no + 1, Values: z.values(x), Cost: x.cost, Fate: x.fate, Why: x.why, N: len(x.trials), Ceiling: x.ceiling,
		}
		switch x.fate {
		case "":
			s.Fate = result.FateNotLooked
		case result.FateByHand:
			z.r.Procedure.ByHand++
			s.Why = fmt.Sprintf("by mean times %s allows %.0f at most", x.by, x.ceiling)
		}
		if len(x.trials) > 0 {
			made, reached := sums(x.trials)
			e := made.Estimate()
			s.Output, s.Reached = &e, reached
			z.r.Procedure.Replications += len(x.trials)
		}
		z.r.Settings = append(z.r.Settings, s)
	}
	z.frontier()
	z.warn()
}

// frontier is what nothing cheaper equals.
func (z *sizing) frontier() {
	best := math.Inf(-1)
	for i, s := range z.r.Settings {
		if s.Output == nil || s.Output.Mean <= best {
			continue
		}
		best = s.Output.Mean
		n := len(z.r.Frontier)
		if n > 0 && z.r.Settings[z.r.Frontier[n-1]-1].Cost == s.Cost { // the same cost and more output
			z.r.Frontier = z.r.Frontier[:n-1]
		}
		z.r.Frontier = append(z.r.Frontier, i+1)
	}
}

func (z *sizing) warn() {
	add := func(code, format string, a ...any) {
		z.r.Warnings = append(z.r.Warnings, result.Warning{Code: code, Text: fmt.Sprintf(format, a...)})
	}
	if z.r.Incomplete {
		add("interrupted", "The search was interrupted: settings that were not looked at may be cheaper or better.")
	}
	unclear := 0
	for _, x := range z.settings {
		if x.fate == result.FateNotApart {
			unclear++
		}
	}
	if unclear > 0 {
		add("not told apart", "%d settings were not told apart from the target in %d replications and are counted as not meeting it.", unclear, MostTrials)
	}
	if f := z.r.Chosen; f != nil {
		share := z.r.Target.Share
		switch {
		case share > 0 && f.Chance.High < share:
			add("fresh below target", "With fresh random numbers the chosen setting reached the target itself in fewer shifts than asked: what was found lies within the tolerance below it.")
		case share == 0 && f.Output.Mean < z.r.Target.Value:
			add("fresh below target", "With fresh random numbers the mean of the chosen setting is below the target itself, within the tolerance.")
		}
		if f.OvertimeH >= 0.05 {
			add("overtime", "After a shift people stay on for %.1f h on average until the line is empty; packs finished then are counted, %s", f.OvertimeH, z.overtimeIs(f))
		}
	}
	z.r.Warnings = append(z.r.Warnings, z.doubts...)
}

// overtimeIs says where the pay of overtime stands.
func (z *sizing) overtimeIs(f *result.SizeFound) string {
	says := "its pay stands beside the cost."
	if f.Overtime == nil {
		says = "its pay is not in the cost."
	}
	if len(z.unpaid) > 0 {
		says += " What an hour costs is not said of " + strings.Join(z.unpaid, ", ") + ": write it under money.people."
	}
	return says
}
