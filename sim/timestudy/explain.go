package timestudy

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"pascaline/sim/result"
)

// thousands writes a whole number with a comma before every three digits.
func thousands(x float64) string {
	s := fmt.Sprintf("%.0f", math.Abs(x))
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	if x <= -0.5 {
		s = "-" + s
	}
	return s
}

// signed writes a whole number with its sign.
func signed(x float64) string {
	if x > 0 {
		return "+" + thousands(x)
	}
	return thousands(x)
}

// tenth writes a share in per cent with its sign; 0 has none.
func tenth(share float64) string {
	if s := fmt.Sprintf("%+.1f", 100*share); s != "-0.0" && s != "+0.0" {
		return s
	}
	return "0.0"
}

func minutes(n int) time.Duration { return time.Duration(n) * time.Minute }

// explain puts the comparison into sentences, and says what could lie behind a gap.
func explain(r *result.Backtest, run *result.Run) {
	verdict := "does not reject the model"
	if !r.Accepted {
		verdict = "rejects the model"
	}
	r.Answer = fmt.Sprintf("What was counted %s: %s %s against %s predicted, %s %% (95 %% interval %s to %s %%).", verdict, thousands(r.Counted), r.What, thousands(r.Predicted),
		tenth(r.Bias), tenth(r.BiasLow), tenth(r.BiasHigh))
	r.Says = append(r.Says, fmt.Sprintf("%s in %s. A bias of %.1f %% would have been shown by these data 9 times in 10; one of 5 %% with a chance of %.0f %%.",
		count(len(r.Periods), r.Per, r.Per+"s"), count(r.Units, "independent "+r.Unit, "independent "+r.Unit+"s"), 100*r.Detectable, 100*r.PowerAt5))
	r.Says = append(r.Says, fmt.Sprintf("%d of %d %ss lie within their own interval of 95 %%.", r.Inside, len(r.Periods), r.Per))
	r.Says = append(r.Says, "The usual rule: a model is kept until the data speak against it. Not to be rejected is no proof; what could have been shown says how hard the test was.")
	chi := distuv.ChiSquared{K: float64(r.Units)}
	square := float64(r.SpreadRatio*r.SpreadRatio) * float64(r.Units)
	switch {
	case r.Units < 5:
	case square > chi.Quantile(0.995):
		r.Says = append(r.Says, fmt.Sprintf("What was counted scatters %.1f times as much as the model: chance is missing in it, such as stops, shift pace or a mix of products.", r.SpreadRatio))
	case square < chi.Quantile(0.005):
		r.Says = append(r.Says, fmt.Sprintf("What was counted scatters only %.1f times as much as the model: it has too much chance in it, or counts were evened out.", r.SpreadRatio))
	}
	if r.Units < 3 {
		r.Says = append(r.Says, fmt.Sprintf("%s is little: count some more.", count(r.Units, r.Unit, r.Unit+"s")))
	}
	gap := -r.Bias * run.Headline.PacksPerH.Mean
	losses(r, run, gap)
	where(r)
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
	if r.Accepted || len(r.Gaps) == 0 {
		return
	}
	g := r.Gaps[0]
	if g.Times < 0 {
		r.Says = append(r.Says, "No single loss of the model is great enough to explain so much more output: look at the task times and the rates first.")
		return
	}
	r.Says = append(r.Says, fmt.Sprintf("The loss that would have to change least to explain the gap alone is %s: %.2f times what the model has (%.0f packs/h). Counts alone cannot tell which loss it is; measure that one first.",
		g.Cause, g.Times, g.PacksPerH))
}

// where says in which periods the gap lies, if some have much more of it than others: at which time of day, in which shift, on which weekday;
// else which single one stands out.
func where(r *result.Backtest) {
	if at := standsOut(r); at != "" {
		r.Where = at
		return
	}
	worst, most := "", 0.0
	for _, p := range r.Periods {
		if d := p.Counted - p.Mean; !p.Inside && math.Abs(d) > math.Abs(most) {
			worst, most = p.Period, d
		}
	}
	if worst == "" {
		r.Where = "No single " + r.Per + " stands out."
		return
	}
	r.Where = fmt.Sprintf("Furthest from its prediction is %s, by %s %s.", worst, signed(most), r.What)
}

// alike are the periods of one time of day, shift or weekday, added up.
type alike struct {
	key               string
	gap, mean, square float64
	n                 int
}

// standsOut finds the time of day, shift or weekday whose periods lie furthest off by chance's measure, if that is beyond what the most extreme of so
// many would be in 99 of 100 valid models (Bonferroni).
func standsOut(r *result.Backtest) string {
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
		return ""
	}
	a := all[best]
	return fmt.Sprintf("The gap stands out at %s: %s %% over %d %ss. Look at what happens then (start-up, breaks, changeovers, who is there).", a.key, tenth(a.gap/a.mean), a.n, r.Per)
}
