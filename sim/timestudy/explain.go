package timestudy

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/stat/distuv"

	"pascaline/sim/result"
)

// explain finds what could lie behind a gap: which loss, which periods, chance that the model lacks.
func explain(r *result.Backtest, run *result.Run) {
	r.Scatter = scatter(r)
	losses(r, run, -r.Bias*run.Headline.PacksPerH.Mean)
	r.StandsOut = standsOut(r)
}

// scatter tells whether counts scatter more or less than in 99 of 100 valid models; of few units nothing is told.
func scatter(r *result.Backtest) string {
	chi := distuv.ChiSquared{K: float64(r.Units)}
	square := float64(r.SpreadRatio*r.SpreadRatio) * float64(r.Units)
	switch {
	case r.Units < 5:
	case square > chi.Quantile(0.995):
		return result.ScatterMore
	case square < chi.Quantile(0.005):
		return result.ScatterLess
	}
	return ""
}

// losses lists what could explain a gap in packs per hour: the losses of the waterfall, and how many times as great each would have to be. Counts
// alone cannot tell which it is.
func losses(r *result.Backtest, run *result.Run, gap float64) {
	for _, l := range run.Waterfall {
		if l.Kind == "loss" && l.PacksPerH < 0 && -l.PacksPerH >= 0.002*run.Headline.PacksPerH.Mean {
			r.Gaps = append(r.Gaps, result.GapLoss{Cause: l.Cause, PacksPerH: round(-l.PacksPerH), Times: round(1 + gap/-l.PacksPerH)})
		}
	}
	slices.SortStableFunc(r.Gaps, func(a, b result.GapLoss) int { return cmp.Compare(math.Abs(a.Times-1), math.Abs(b.Times-1)) })
}

// alike are the periods of one time of day, shift or weekday, added up.
type alike struct {
	key               string
	gap, mean, square float64
	n                 int
}

// standsOut finds the time of day, shift or weekday whose periods lie furthest off by chance's measure, if that is beyond what the most extreme of so
// many would be in 99 of 100 valid models (Bonferroni).
func standsOut(r *result.Backtest) *result.StandsOut {
	var all []alike
	for _, p := range r.Periods {
		key := p.Period[:3]
		if r.Per != "day" {
			_, key, _ = strings.Cut(p.Period[4:], " ")
		}
		i := slices.IndexFunc(all, func(a alike) bool { return a.key == key })
		if i < 0 {
			all = append(all, alike{key: key})
			i = len(all) - 1
		}
		sd := (p.High - p.Low) / (2 * bothSides)
		all[i].gap += p.Counted - p.Mean
		all[i].mean += p.Mean
		all[i].square += float64(sd * sd)
		all[i].n++
	}
	best, most := -1, distuv.UnitNormal.Quantile(1-0.005/float64(max(1, len(all))))
	for i, a := range all {
		if a.n < 2 || a.square == 0 || a.mean == 0 {
			continue
		}
		if z := math.Abs(a.gap) / math.Sqrt(a.square); z > most {
			best, most = i, z
		}
	}
	if best < 0 || len(all) < 2 {
		return nil
	}
	a := all[best]
	return &result.StandsOut{At: a.key, Bias: round(a.gap / a.mean), Periods: a.n}
}
