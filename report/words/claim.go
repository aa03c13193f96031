package words

import (
	"fmt"
	"slices"
	"strings"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// FillClaim writes the sentences of a claim into it.
func FillClaim(r *result.Claim) {
	if r.Possible {
		r.Answer = fmt.Sprintf("%q can be: it needs a fill ratio of %s in every load, without a pause.", r.Quoted, number.Figure(r.FillNeeded, 3))
	} else if r.FillNeeded <= 1 {
		r.Answer = fmt.Sprintf("%q cannot be with these cycles: their holds alone are more than an hour.", r.Quoted)
	} else {
		r.Answer = fmt.Sprintf("%q cannot be: every load would have to fill %s of the vessel.", r.Quoted, number.Percent(r.FillNeeded))
	}
	r.Cautions = slices.Concat([]string{
		"Possible is not likely: breaks, stops, part loads and changeovers take their share of the hours. Simulate the line to know what is left.",
		"What is lacking is never made good by a shorter hold or a lower pressure.",
	}, Cautions())
}

// ClaimRows are the figures of a claim in words: a name and a value.
func ClaimRows(r *result.Claim) [][2]string {
	fill := "at a fill ratio of " + number.Figure(r.Fill, 3)
	if r.FillTaken {
		fill += " (taken, not stated)"
	}
	vessel := number.Figure(r.VolumeL, 4) + " L"
	if r.Vessels > 1 {
		vessel = fmt.Sprintf("%d x %s", r.Vessels, vessel)
	}
	return [][2]string{
		{"quoted", strings.Join([]string{number.Fixed(r.QuotedKg, 0) + " kg", number.Fixed(r.QuotedPerH, 1) + " kg/h"}, ", ")},
		{"hours", number.Fixed(r.Hours, 0)},
		{"vessel", vessel + ", " + number.Figure(r.CyclesPerH, 3) + " cycles/h each"},
		{"density of the packs", number.Figure(r.Density, 3) + " kg/L"},
		{"fill ratio needed", number.Figure(r.FillNeeded, 3)},
		{fill, number.Fixed(r.KgAtFill, 0) + " kg, " + number.Fixed(r.PerHAtFill, 1) + " kg/h"},
		{"hours needed at that fill ratio", number.Fixed(r.HoursFill, 1)},
		{"or cycles/h needed at it", number.Figure(r.CyclesFill, 3)},
	}
}
