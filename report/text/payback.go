package text

import (
	"fmt"
	"strings"

	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

const (
	mostOptions = 8
	mostSwings  = 5
	optionWide  = 25
)

// payback is the screen of a case for capital.
func (s *screen) payback(r *result.Payback) error {
	r, err := number.Shown(r)
	if err != nil {
		return err
	}
	s.answer(r.Answer, r.Warnings, r.Replications.Incomplete)
	s.says(none, r.Doubt, 4)
	s.says(faint, fmt.Sprintf("%d replications of %s each, %s draws, seed %d; money in %s", r.Replications.N, r.Replications.Length, number.Count(int64(r.Draws)), r.Seed, r.Currency), 2)
	s.options(r)
	if r.Order.Says != "" {
		s.line(none, "")
		s.says(none, r.Order.Says, 3)
	}
	s.swings(r)
	s.notes(r.Warnings)
	return nil
}

// options prints one row for each option.
func (s *screen) options(r *result.Payback) {
	s.line(none, "")
	s.line(bold, s.money("option", "packs/week", "payback", "P10 to P90", "never", "NPV"))
	for i := range r.Options {
		o := &r.Options[i]
		if i == mostOptions && len(r.Options) > mostOptions+1 {
			s.line(faint, fmt.Sprintf("and %d more options: see the page", len(r.Options)-i))
			return
		}
		if o.Kind == "do nothing" {
			s.line(none, s.money(o.Name, number.Fixed(o.Side.PacksPerWeek, 0), "", "", "", "0"))
			continue
		}
		gain, _ := number.Rounded(o.Gain)
		if o.Gain.Mean > 0 {
			gain = "+" + gain
		}
		s.line(none, s.money(o.Name, gain, short(words.Payback(o.Central.Payback)), short(words.Span(o.PaybackYears)),
			number.Percent(o.NeverPays), strings.TrimSuffix(words.Amount(r, o.Central.NPV), " "+r.Currency)))
	}
	s.line(faint, s.money("", "or gain", "years", "years", "of cases", r.Currency))
}

func short(years string) string {
	return strings.TrimSuffix(strings.ReplaceAll(years, " years", ""), " year")
}

func (s *screen) money(name string, cells ...string) string {
	out := s.left(name, optionWide)
	for i, c := range cells {
		out += s.right(c, []int{11, 8, 15, 9, 11}[i])
	}
	return out
}

// swings prints what matters most for the best thing to buy.
func (s *screen) swings(r *result.Payback) {
	o := words.BestBuy(r)
	if o == nil || len(o.Tornado) == 0 {
		return
	}
	s.line(none, "")
	s.line(bold, s.cut("NPV of "+o.Name+", by what matters most", columns))
	for _, x := range o.Tornado[:min(mostSwings, len(o.Tornado))] {
		s.line(none, s.left(x.What, 44)+s.right(number.Fixed(x.NPVLow, 0)+" to "+number.Fixed(x.NPVHigh, 0), 36))
	}
}
