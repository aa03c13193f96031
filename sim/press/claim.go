package press

import (
	"fmt"

	"pascaline/sim/result"
)

// Claim is what a line is said to bring, and by what.
type Claim struct {
	Kg         float64 // quoted, in all the hours
	Hours      float64
	Volume     float64 // L, all vessels together
	CyclesPerH float64 // of each vessel
	Density    float64 // kg/L of the packs
	HoldS      float64 // of each cycle; 0 where not stated
}

// FillNeeded is the volume of packs over that of the vessels in every load, without a pause, for the claim to hold. Above 1 it cannot. It is
// infinite where nothing would come out at all.
func (c Claim) FillNeeded() float64 { return c.Kg / c.Most() }

// Most is the kg that vessels filled to the brim would bring.
func (c Claim) Most() float64 { return c.Volume * c.CyclesPerH * c.Hours * c.Density }

// CyclesPerH is how often a cycle of a hold and of everything else, in seconds, can follow on itself.
func CyclesPerH(holdS, otherS float64) float64 { return 3600 / (holdS + otherS) }

// HoursFor is the hours that an amount takes at a rate for each hour.
func HoursFor(amount, perH float64) float64 { return amount / perH }

// Fill ratios, volume of packs over volume of vessel; common practice and a handbook chapter seen second-hand.
const (
	leastFill = 0.30 // upright cylinders
	usualFill = 0.75 // the densest packs: flat pouches
	bulkFill  = 0.90 // bulk bags in a vessel made for them
)

// Verdict says in a sentence what a fill ratio means.
func Verdict(fill float64) string {
	switch {
	case fill > 1:
		return fmt.Sprintf("Impossible: the packs of a load would take %.0f %% of the vessel.", 100*fill)
	case fill > bulkFill:
		return fmt.Sprintf("Hardly possible: not even bulk bags fill a vessel to %.0f %%; 90 %% is the most that is reported.", 100*fill)
	case fill > usualFill:
		return fmt.Sprintf("Possible with bulk bags only: packs in carriers fill 30 to 75 %% of a vessel, and this needs %.0f %%.", 100*fill)
	case fill >= leastFill:
		return fmt.Sprintf("Possible: it needs a fill ratio of %.0f %%, and 30 to 75 %% is usual, by the shape of the packs.", 100*fill)
	}
	return fmt.Sprintf("Possible: it needs a fill ratio of only %.0f %%.", 100*fill)
}

// Weigh works a claim out, beside what a fill ratio would bring.
func Weigh(c Claim, fill float64) *result.Claim {
	need, at := c.FillNeeded(), c.Most()*fill
	verdict, fits := Verdict(need), c.CyclesPerH*c.HoldS < 3600
	if !fits {
		verdict = fmt.Sprintf("Impossible: %.4g cycles with a hold of %.4g s each do not go into an hour.", c.CyclesPerH, c.HoldS)
	}
	return &result.Claim{
		Head: result.NewHead(result.KindClaim), QuotedKg: six(c.Kg), QuotedPerH: six(c.Kg / c.Hours), Hours: six(c.Hours), CyclesPerH: six(c.CyclesPerH), Density: c.Density,
		Fill: fill, FillNeeded: six(need), HoldS: c.HoldS, Possible: need <= 1 && fits, Verdict: verdict,
		KgAtFill: six(at), PerHAtFill: six(at / c.Hours), HoursFill: six(c.Hours * c.Kg / at), CyclesFill: six(c.CyclesPerH * c.Kg / at),
	}
}
