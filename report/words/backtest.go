package words

import (
	"fmt"
	"math"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// FillBacktest writes the sentences of a comparison with counts into it, once, before it is saved.
func FillBacktest(r *result.Backtest) {
	verdict := "does not reject the model"
	if !r.Accepted {
		verdict = "rejects the model"
	}
	r.Answer = fmt.Sprintf("What was counted %s: %s %s against %s predicted, %s %% (95 %% interval %s to %s %%).", verdict, number.Fixed(r.Counted, 0), r.What,
		number.Fixed(r.Predicted, 0), tenth(r.Bias), tenth(r.BiasLow), tenth(r.BiasHigh))
	r.Says = backtestSays(r)
	r.Where = where(r)
}

// tenth writes a share in per cent with its sign; 0 has none.
func tenth(share float64) string {
	s := number.Fixed(100*share, 1)
	if share > 0 && s != "0.0" {
		return "+" + s
	}
	return s
}

// backtestSays says how hard the test was, and what could lie behind a gap.
func backtestSays(r *result.Backtest) []string {
	says := []string{
		fmt.Sprintf("%s in %s. A bias of %.1f %% would have been shown by these data 9 times in 10; one of 5 %% with a chance of %.0f %%.",
			count(len(r.Periods), r.Per, r.Per+"s"), count(r.Units, "independent "+r.Unit, "independent "+r.Unit+"s"), 100*r.Detectable, 100*r.PowerAt5),
		fmt.Sprintf("%d of %d %ss lie within their own interval of 95 %%.", r.Inside, len(r.Periods), r.Per),
		"The usual rule: a model is kept until the data speak against it. Not to be rejected is no proof; what could have been shown says how hard the test was.",
	}
	switch r.Scatter {
	case result.ScatterMore:
		says = append(says, fmt.Sprintf("What was counted scatters %.1f times as much as the model: chance is missing in it, such as stops, shift pace or a mix of products.", r.SpreadRatio))
	case result.ScatterLess:
		says = append(says, fmt.Sprintf("What was counted scatters only %.1f times as much as the model: it has too much chance in it, or counts were evened out.", r.SpreadRatio))
	}
	if r.Units < 3 {
		says = append(says, fmt.Sprintf("%s is little: count some more.", count(r.Units, r.Unit, r.Unit+"s")))
	}
	if !r.Accepted && len(r.Gaps) > 0 {
		says = append(says, explained(r.Gaps[0]))
	}
	return says
}

// explained says which loss would have to change least to explain a gap.
func explained(g result.GapLoss) string {
	if g.Times < 0 {
		return "No single loss of the model is great enough to explain so much more output: look at the task times and the rates first."
	}
	return fmt.Sprintf("The loss that would have to change least to explain the gap alone is %s: %.2f times what the model has (%s packs/h). Counts alone cannot tell which loss it is; measure that one first.",
		g.Cause, g.Times, number.Fixed(g.PacksPerH, 0))
}

// where says in which periods the gap lies, if some have much more of it than others; else which single one stands out.
func where(r *result.Backtest) string {
	if at := r.StandsOut; at != nil {
		return fmt.Sprintf("The gap stands out at %s: %s %% over %d %ss. Look at what happens then (start-up, breaks, changeovers, who is there).", at.At, tenth(at.Bias), at.Periods, r.Per)
	}
	worst, most := "", 0.0
	for _, p := range r.Periods {
		if d := p.Counted - p.Mean; !p.Inside && math.Abs(d) > math.Abs(most) {
			worst, most = p.Period, d
		}
	}
	if worst == "" {
		return "No single " + r.Per + " stands out."
	}
	by := number.Fixed(most, 0)
	if most > 0 {
		by = "+" + by
	}
	return fmt.Sprintf("Furthest from its prediction is %s, by %s %s.", worst, by, r.What)
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
