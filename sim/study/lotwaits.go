package study

import (
	"cmp"
	"slices"

	"pascaline/scenarios"
	"pascaline/sim/result"
)

// waitSums are the seconds that packs of all lots waited, by place, in the order of the line.
type waitSums struct {
	places []string
	sums   []float64
}

// add takes in one lot, and says where its packs waited longest if some were out of the chilled store beyond the limit.
func (w *waitSums) add(own *scenarios.Scenario, lot *result.Lot) {
	longest := 0.0
	for _, leg := range lot.Legs {
		heldAt, held := heldIn(own, leg)
		for _, x := range []result.LotWait{{Place: "before " + leg.Station, MeanS: leg.WaitS}, {Place: heldAt, MeanS: held}} {
			if x.MeanS <= 0 {
				continue
			}
			if x.MeanS > longest {
				longest = x.MeanS
				if lot.Over > 0 {
					lot.OverBy = "waiting " + x.Place
				}
			}
			i := slices.Index(w.places, x.Place)
			if i < 0 {
				i = len(w.places)
				w.places, w.sums = append(w.places, x.Place), append(w.sums, 0)
			}
			w.sums[i] += float64(x.MeanS * float64(lot.Packs))
		}
	}
}

// means are the waits of a pack, the longest first.
func (w *waitSums) means(packs float64) []result.LotWait {
	var all []result.LotWait
	for i, place := range w.places {
		all = append(all, result.LotWait{Place: place, MeanS: w.sums[i] / packs})
	}
	slices.SortStableFunc(all, func(a, b result.LotWait) int { return cmp.Compare(b.MeanS, a.MeanS) })
	return all
}

const leastHeld = 1 // s: less is how phases and carriers are rounded, not waiting

// heldIn is how long a pack is in a station beyond what the station does to it, on average: a finished load that stays in the vessel, packs at the
// end of a belt or on the table, and wet packs that wait to be wiped or to go round again. Of other stations it is not known; 0 there.
func heldIn(own *scenarios.Scenario, leg result.LotLeg) (place string, heldS float64) {
	belt := func(b *scenarios.Belt) (string, float64) {
		place := "in " + leg.Station
		if b.Wet != nil {
			place += ", wet packs too"
		}
		return place, leg.StayS - meanOf(&b.Travel)
	}
	switch {
	case leg.Station == "table":
		place, heldS = "on the table", leg.StayS
	case leg.Station == "vessel" && own.Vessel != nil:
		place, heldS = "in vessel, after its cycle", leg.StayS-idealCycle(own)
	case leg.Station == "shaker" && own.Shaker != nil:
		place, heldS = belt(own.Shaker)
	case leg.Station == "dryer" && own.Dryer != nil:
		place, heldS = belt(own.Dryer)
	}
	if heldS < leastHeld {
		return place, 0
	}
	return place, heldS
}
