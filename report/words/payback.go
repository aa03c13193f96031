package words

import (
	"fmt"
	"slices"
	"strings"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// FillPayback writes the sentences of a case for capital into it, once, before it is saved.
func FillPayback(r *result.Payback) {
	r.Cautions = slices.Concat([]string{
		"A forecast, no promise: it holds as far as its assumptions hold. Who decides signs them; finance can change any figure in the spreadsheet.",
	}, Cautions())
	r.Replications.Length = number.Duration(r.Replications.LengthH * 3600)
	r.Question = question(r)
	r.Answer = paybackAnswer(r)
	r.Doubt = doubt(r)
	r.Order.Says = orderSays(r)
}

func question(r *result.Payback) string {
	var names []string
	for _, o := range r.Options {
		if o.Kind == "buy" {
			names = append(names, fmt.Sprintf("%q", o.Name))
		}
	}
	if len(names) == 0 {
		return fmt.Sprintf("Is a change worth its cost within %s?", Years(r.Asked))
	}
	return fmt.Sprintf("Buy %s: is the money back within %s?", list(names, "or"), Years(r.Asked))
}

func list(words []string, last string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " " + last + " " + words[len(words)-1]
}

// Best is the option that is worth most for each year of its life (equivalent annual worth), "do nothing" where none is worth anything.
func Best(r *result.Payback) *result.PaybackOption {
	best := &r.Options[0]
	for i := range r.Options {
		if r.Options[i].Central.Annual > best.Central.Annual {
			best = &r.Options[i]
		}
	}
	return best
}

// Amount writes money with its currency, rounded to three digits: "312,000 EUR".
func Amount(r *result.Payback, v float64) string {
	return number.Figure(Round3(v), 3) + " " + r.Currency
}

// Round3 keeps three significant digits: no figure of a forecast has more.
func Round3(v float64) float64 {
	if v == 0 {
		return 0
	}
	p := 1.0
	for a := max(v, -v); a >= 1000; a /= 10 {
		p *= 10
	}
	return float64(int64(v/p+half(v))) * p
}

func half(v float64) float64 {
	if v < 0 {
		return -0.5
	}
	return 0.5
}

// Years writes a payback time.
func Years(v float64) string {
	s := strings.TrimSuffix(number.Fixed(v, 1), ".0")
	if s == "1" {
		return "1 year"
	}
	return s + " years"
}

// Payback writes a payback time that may be never; life is how long the option lives.
func Payback(v *float64) string {
	switch {
	case v == nil:
		return "never"
	case *v == 0:
		return "at once"
	}
	return Years(*v)
}

func paybackAnswer(r *result.Payback) string {
	best := Best(r)
	var s string
	switch best.Kind {
	case "do nothing":
		s = "Do nothing: no option brings more than it costs"
		if next := nextBest(r); next != nil {
			s += fmt.Sprintf("; the best of them, %q, loses %s in its life at today's value", next.Name, Amount(r, -next.Central.NPV))
		}
		return s + "."
	case "buy":
		s = fmt.Sprintf("Buy %q", best.Name)
	case "hire":
		s = fmt.Sprintf("Do not buy: %q", best.Name)
	default:
		s = fmt.Sprintf("Change before you buy: %q", best.Name)
	}
	if best.Kind == "buy" {
		s += fmt.Sprintf(": %s, and is worth %s today over %s at %s a year", paysBack(best), Amount(r, best.Central.NPV), Years(float64(best.Buy.Years)), percent(r.Base.Side.Rate))
	} else {
		s += fmt.Sprintf(" is worth most, %s a year", Amount(r, best.Central.Annual))
		if next := BestBuy(r); next != nil {
			s += fmt.Sprintf("; the best thing to buy, %q, %s", next.Name, paysBack(next))
		}
	}
	if best.NeverPays >= 0.005 && best.Kind == "buy" {
		s += fmt.Sprintf(". In %s of the cases it never pays", number.Percent(best.NeverPays))
	}
	return s + "." + thenToo(r, best)
}

// thenToo says what pays beside the best thing to buy.
func thenToo(r *result.Payback, best *result.PaybackOption) string {
	var more []string
	for _, s := range r.Order.Steps {
		if s.Worth && s.Name != best.Name {
			more = append(more, fmt.Sprintf("%q", s.Name))
		}
	}
	if best.Kind != "buy" || len(more) == 0 || r.Order.Steps[0].Name != best.Name {
		return ""
	}
	return fmt.Sprintf(" Then %s pays as well.", strings.Join(more, ", then "))
}

func percent(share float64) string {
	return strings.TrimSuffix(number.Fixed(100*share, 1), ".0") + " %"
}

func paysBack(o *result.PaybackOption) string {
	if o.Central.Payback == nil {
		return "does not pay back in its life"
	}
	s := "pays back " + paybackIn(*o.Central.Payback)
	if o.PaybackYears.P10 != nil {
		s += fmt.Sprintf(" (%s in 8 of 10 cases)", Span(o.PaybackYears))
	}
	return s
}

// Span writes P10 to P90 of a payback time.
func Span(r result.Range) string {
	if r.P10 == nil {
		return "never"
	}
	if r.P90 == nil {
		return Years(*r.P10) + " to never"
	}
	if Payback(r.P10) == Payback(r.P90) {
		return Payback(r.P10)
	}
	low := strings.TrimSuffix(strings.TrimSuffix(Payback(r.P10), "s"), " year")
	return low + " to " + Payback(r.P90)
}

func paybackIn(v float64) string {
	if v == 0 {
		return "at once"
	}
	return "in " + Years(v)
}

// BestBuy is the thing to buy that is worth most for each year of its life; nil where nothing is bought.
func BestBuy(r *result.Payback) (best *result.PaybackOption) {
	for i := range r.Options {
		if o := &r.Options[i]; o.Kind == "buy" && (best == nil || o.Central.Annual > best.Central.Annual) {
			best = o
		}
	}
	return best
}

func nextBest(r *result.Payback) (best *result.PaybackOption) {
	for i := range r.Options[1:] {
		if o := &r.Options[i+1]; best == nil || o.Central.Annual > best.Central.Annual {
			best = o
		}
	}
	return best
}

// doubt says in how many of the cases it pays in time, and what would turn the answer around.
func doubt(r *result.Payback) string {
	o := BestBuy(r)
	if o == nil {
		return "Nothing is bought in any option."
	}
	s := fmt.Sprintf("%q is paid back within %s in %s of %s cases drawn from the ranges you gave and the simulation's own doubt; in %s it never is.",
		o.Name, Years(r.Asked), number.Percent(o.InTime), number.Count(int64(r.Draws)), number.Percent(o.NeverPays))
	if v := o.LowDemand; v != nil {
		s += fmt.Sprintf(" At 60 %% of the demand planned it %s.", whenBack(v.Payback))
	}
	if len(o.Tornado) > 0 {
		s += fmt.Sprintf(" What matters most is %s.", o.Tornado[0].What)
	}
	return s
}

func whenBack(v *float64) string {
	if v == nil {
		return "never pays back"
	}
	return "pays back " + paybackIn(*v)
}

func orderSays(r *result.Payback) string {
	var buy, leave []string
	for _, s := range r.Order.Steps {
		if s.Worth {
			buy = append(buy, fmt.Sprintf("%q", s.Name))
		} else {
			leave = append(leave, fmt.Sprintf("%q", s.Name))
		}
	}
	switch {
	case len(r.Order.Steps) == 0:
		return ""
	case len(buy) == 0:
		return "Buy none of them: none brings more than it costs."
	case len(leave) == 0 && len(buy) == 1:
		return fmt.Sprintf("Buy %s.", buy[0])
	case len(leave) == 0:
		return fmt.Sprintf("Buy in this order: %s. Each pays beside those before it.", strings.Join(buy, ", then "))
	}
	return fmt.Sprintf("Buy in this order: %s. Then stop: beside what was bought %s would not pay.", strings.Join(buy, ", then "), list(leave, "and"))
}
