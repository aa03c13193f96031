package page

import (
	"fmt"
	"strconv"

	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

// paybackDocument is the page of a case for capital. What is printed first is a brief of one page, to be signed.
func paybackDocument(r *result.Payback) (*document, error) {
	r, err := number.Shown(r)
	if err != nil {
		return nil, err
	}
	d := &document{
		Title: r.Question, Tab: r.Scenario + ": what it pays back", Note: joined(r.Scenario, r.Note), Answer: r.Answer, Figures: paybackFigures(r), Sure: r.Doubt,
		Notes: notes(r.Warnings), Cautions: r.Cautions,
		Facts: []fact{
			{Name: "Seed", Value: strconv.FormatUint(r.Seed, 10)},
			{Name: "Replications", Value: fmt.Sprintf("%d of %s for the line and for each option (asked: %s)", r.Replications.N, r.Replications.Length, r.Replications.Asked)},
			{Name: "Draws", Value: number.Count(int64(r.Draws))},
			{Name: "Scenario", Value: "SHA-256 " + r.ScenarioHash, Hash: true},
		},
	}
	if r.Replications.Incomplete {
		d.Incomplete = "the run was interrupted; the figures rest on the replications that were done, and the order of buying was not worked out."
	}
	d.Sections, err = built(r, paybackSections)
	return d, err
}

var paybackSections = []func(*result.Payback) (*section, error){
	briefSection, optionSection, breakEvenSection, swingSection, orderSection, costSection, yearSection, moneySection, paybackAssumptions,
}

// subject is the option that the brief is about: the best thing to buy, else the best of all.
func subject(r *result.Payback) *result.PaybackOption {
	if o := words.BestBuy(r); o != nil {
		return o
	}
	return words.Best(r)
}

func paybackFigures(r *result.Payback) []headFigure {
	o := subject(r)
	gain := estimate(&o.Gain, "packs/week", "more from "+o.Name)
	return []headFigure{
		{Value: words.Payback(o.Central.Payback), Doubt: between(words.Span(o.PaybackYears)), Says: "to pay back, as planned (8 of 10 cases)"},
		{Value: amount(&o.Central.NPV), Doubt: between(amount(o.NPV.P10) + " to " + amount(o.NPV.P90)), Unit: r.Currency, Says: fmt.Sprintf("net present value over %s at %s a year", words.Years(float64(o.Buy.Years)), number.Percent(r.Base.Side.Rate))},
		gain,
		{Value: number.Percent(o.NeverPays), Says: "of cases in which it never pays"},
	}
}

func between(span string) string { return "(" + span + ")" }

// joined puts what is there into one line.
func joined(a, b string) string {
	if b == "" {
		return a
	}
	return a + ". " + b
}

func amount(v *float64) string {
	if v == nil {
		return "none"
	}
	return number.Fixed(words.Round3(*v), 0)
}

// briefSection is the picture and the assumptions to sign; on paper it ends the first page.
func briefSection(r *result.Payback) (*section, error) {
	o := subject(r)
	s := &section{ID: "brief", Title: "Money in and out, and what it rests on"}
	if len(o.Band) > 0 {
		c, err := cashChart(r, o)
		if err != nil {
			return nil, err
		}
		s.Charts = []chart{c}
	}
	t := table{Caption: "Assumptions to sign: whoever knows the figure puts a name beside it", Head: columns("Assumption", "planned", "=range given", "=agreed by, date")}
	add := func(name, planned, given string) {
		t.Rows = append(t.Rows, []string{name, planned, given, "…………"})
	}
	add(fmt.Sprintf("gain in output of %s", o.Name), number.PlusMinus(o.Gain, "packs/week"), "simulated")
	for i := range r.Figures {
		if f := &r.Figures[i]; toSign(f, o) {
			add(f.Says, figureText(f.Central, f.Unit), rangeText(f))
		}
	}
	s.Tables = []table{t}
	s.After = []string{fmt.Sprintf("Extra output above the demand earns nothing; saved hours earn only where they are really not paid. Money of later years rises with prices and is discounted at %s a year.",
		number.Percent(r.Base.Side.Rate))}
	return s, nil
}

const mostToSign = 8

// toSign tells whether a figure is among those that matter for an option: what it rests on most.
func toSign(f *result.MoneyFigure, o *result.PaybackOption) bool {
	for i, x := range o.Tornado {
		if i < mostToSign && x.What == f.Says {
			return true
		}
	}
	return false
}

func rangeText(f *result.MoneyFigure) string {
	if !f.Range {
		return "one value"
	}
	if f.Low != nil && f.High != nil {
		return spanText(*f.Low, *f.High, f.Unit)
	}
	return spanText(f.P10, f.P90, f.Unit) + " (8 of 10)"
}

// spanText writes the unit once.
func spanText(low, high float64, unit string) string {
	if unit == "per year" {
		return number.Fixed(100*low, 1) + " to " + figureText(high, unit)
	}
	return number.Figure(low, 3) + " to " + figureText(high, unit)
}

// figureText writes a figure with its unit; a rate of a year in per cent.
func figureText(v float64, unit string) string {
	if unit == "per year" {
		return number.Fixed(100*v, 1) + " % a year"
	}
	return number.Figure(v, 3) + " " + unit
}

// optionSection compares all options.
func optionSection(r *result.Payback) (*section, error) {
	hour := words.HourOf(r.Base.Side.RosteredH != 168) // every hour of the week, where there is no roster
	s := &section{ID: "options", Title: "All options", Says: []string{fmt.Sprintf(
		"Each option against the line as it stands, %s packs per %s. Paid back is by the sum of cash flows; P10 to P90 are ranks of %s draws, so that never keeps its place.",
		number.PlusMinus(r.Base.PacksPerH, ""), hour, number.Count(int64(r.Draws)))}}
	what := table{Caption: "What each option is and makes", Head: columns("Option", "=kind", "paid today, "+r.Currency, "gain, packs/week", "sold in year 1, packs", "looked at, years")}
	money := table{Caption: "What each option brings", Head: columns("Option", "payback", "=P10 to P90", "with interest", "NPV, "+r.Currency, "=P10 to P90", "=internal rate", "worth a year, "+r.Currency)}
	sure := table{Caption: "How sure, and with less demand", Head: columns("Option", "never pays", "paid back within "+words.Years(r.Asked), "payback at 60 % of demand", "NPV at 60 %, "+r.Currency)}
	for i := range r.Options {
		o := &r.Options[i]
		if o.Kind == "do nothing" {
			what.Rows = append(what.Rows, []string{o.Name, "", "0", "0", number.Fixed(o.Sold, 0), ""})
			money.Rows = append(money.Rows, []string{o.Name, "", "", "", "0", "", "", "0"})
			continue
		}
		what.Rows = append(what.Rows, []string{o.Name, o.Kind, number.Fixed(o.Buy.Price+o.Buy.Installation+o.Buy.Training, 0), number.PlusMinus(o.Gain, ""), number.Fixed(o.Sold, 0), strconv.Itoa(o.Buy.Years)})
		money.Rows = append(money.Rows, []string{o.Name, words.Payback(o.Central.Payback), words.Span(o.PaybackYears),
			words.Payback(o.Central.Discounted), number.Fixed(o.Central.NPV, 0), amount(o.NPV.P10) + " to " + amount(o.NPV.P90), rateText(o), number.Fixed(o.Central.Annual, 0)})
		low := []string{o.Name, number.Percent(o.NeverPays), number.Percent(o.InTime), "", ""}
		if v := o.LowDemand; v != nil {
			low[3], low[4] = words.Payback(v.Payback), number.Fixed(v.NPV, 0)
		}
		sure.Rows = append(sure.Rows, low)
	}
	money.Foot = "Worth a year is the equivalent annual worth: it compares options of unequal lives, as if each were done again when it is worn out."
	s.Tables = filled(what, money, sure)
	return s, nil
}

// rateText is the internal rate with its range, or why there is none.
func rateText(o *result.PaybackOption) string {
	switch n := len(o.Central.Rates); {
	case n == 0:
		return "none"
	case n > 1:
		s := fmt.Sprintf("not unique (%d)", n)
		if o.Central.MIRR != nil {
			s += ", modified " + number.Percent(*o.Central.MIRR)
		}
		return s
	}
	return number.Fixed(100*o.Central.Rates[0], 1) + " % (" + share(o.IRR.P10) + " to " + share(o.IRR.P90) + ")"
}

func share(v *float64) string {
	if v == nil {
		return "none"
	}
	return number.Fixed(100**v, 1) + " %"
}
