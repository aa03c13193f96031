package export

import (
	"fmt"
	"strings"

	"pascaline/sim/result"
)

const (
	inputSheet  = "Inputs"
	firstSide   = 3 // column of the line as it stands; the options follow
	moneyFormat = "#,##0"
	yearsFormat = "0.00"
	rateFormat  = "0.0%"
	plainFormat = "#,##0.####"
)

// input is one row of the sheet of inputs.
type input struct {
	key, label, unit, format string
	side                     func(s *result.MoneySide) any // of every column: a number or a word
	buy                      func(o *result.PaybackOption) any
}

// inputs is the sheet of inputs: which row has what.
type inputs struct {
	r    *result.Payback
	rows []input
	at   map[string]int // row by key
}

func inputsOf(r *result.Payback) *inputs {
	cur := r.Currency
	num := func(f func(s *result.MoneySide) float64) func(*result.MoneySide) any {
		return func(s *result.MoneySide) any { return f(s) }
	}
	buy := func(f func(b *result.Purchase) float64) func(*result.PaybackOption) any {
		return func(o *result.PaybackOption) any { return f(&o.Buy) }
	}
	in := &inputs{r: r, at: map[string]int{}, rows: []input{
		{"packs", "packs made in a week, if all can be sold", "packs", moneyFormat, num(func(s *result.MoneySide) float64 { return s.PacksPerWeek }), nil},
		{"cycles", "vessel cycles in that week", "cycles", plainFormat, num(func(s *result.MoneySide) float64 { return s.CyclesPerWeek }), nil},
		{"rostered", "rostered hours of the line in a week", "h", plainFormat, num(func(s *result.MoneySide) float64 { return s.RosteredH }), nil},
		{"all", "all that is made can be sold", "yes or no", "", func(s *result.MoneySide) any { return yesNo(s.Endless) }, nil},
		{"demand", "demand in a week of the first year", "packs", moneyFormat, num(func(s *result.MoneySide) float64 { return s.Demand }), nil},
		{"growth", "growth of the demand in a year", "", "0.0%", num(func(s *result.MoneySide) float64 { return s.Growth }), nil},
		{"weeks", "weeks worked in a year", "weeks", plainFormat, num(func(s *result.MoneySide) float64 { return s.Weeks }), nil},
		{"pack", "contribution or fee of a pack", cur, plainFormat, num(func(s *result.MoneySide) float64 { return s.PerPack }), nil},
		{"variable", "variable cost of a pack", cur, plainFormat, num(func(s *result.MoneySide) float64 { return s.Variable }), nil},
		{"energy", "energy for a cycle", cur, plainFormat, num(func(s *result.MoneySide) float64 { return s.Energy }), nil},
		{"water", "water for a cycle", cur, plainFormat, num(func(s *result.MoneySide) float64 { return s.Water }), nil},
		{"wear", "wear parts for a cycle", cur, plainFormat, num(func(s *result.MoneySide) float64 { return s.Wear }), nil},
		{"rise", "rise of prices and wages in a year", "", "0.0%", num(func(s *result.MoneySide) float64 { return s.Rise }), nil},
		{"premium", "an hour of overtime costs above another", "", "0.0%", num(func(s *result.MoneySide) float64 { return s.Premium }), nil},
	}}
	for k, p := range r.Base.Side.People {
		in.rows = append(in.rows, peopleRows(k, strings.TrimSpace(p.Pool+" "+p.Shift), cur)...)
	}
	in.rows = append(in.rows, []input{
		{"rate", "discount rate in a year", "", "0.0%", num(func(s *result.MoneySide) float64 { return s.Rate }), nil},
		{"tax", "tax on the gain", "", "0.0%", num(func(s *result.MoneySide) float64 { return s.Tax }), nil},
		{"price", "purchase", cur, moneyFormat, nil, buy(func(b *result.Purchase) float64 { return b.Price })},
		{"installation", "installation", cur, moneyFormat, nil, buy(func(b *result.Purchase) float64 { return b.Installation })},
		{"training", "training", cur, moneyFormat, nil, buy(func(b *result.Purchase) float64 { return b.Training })},
		{"stands", "rostered hours without output while it is installed", "h", plainFormat, nil, buy(func(b *result.Purchase) float64 { return b.StandsH })},
		{"upkeep", "maintenance in a year", cur, moneyFormat, nil, buy(func(b *result.Purchase) float64 { return b.Upkeep })},
		{"rest", "rest value at the end", cur, moneyFormat, nil, buy(func(b *result.Purchase) float64 { return b.Rest })},
		{"writeoff", "years of straight-line depreciation", "years", plainFormat, nil, func(o *result.PaybackOption) any { return writeOff(o) }},
	}...)
	return in
}

// writeOff is over how many years a purchase is written off.
func writeOff(o *result.PaybackOption) float64 {
	if y := o.Side.WriteOff; y > 0 {
		return float64(y)
	}
	return float64(max(1, o.Buy.Life))
}

func peopleRows(k int, who, cur string) []input {
	key := func(s string) string { return fmt.Sprintf("%s %d", s, k) }
	return []input{
		{key("hours"), who + ": hours on the roster in a week", "h", plainFormat, func(s *result.MoneySide) any { return s.People[k].HoursWeek }, nil},
		{key("overtime"), who + ": hours of overtime in a week", "h", plainFormat, func(s *result.MoneySide) any { return s.People[k].OvertimeH }, nil},
		{key("cost"), who + ": an hour costs", cur, plainFormat, func(s *result.MoneySide) any { return s.People[k].Cost }, nil},
		{key("paid"), who + ": hours not needed are paid all the same", "yes or no", "", func(s *result.MoneySide) any { return yesNo(s.People[k].PaidAll) }, nil},
	}
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// ref is where an input stands, for a formula on another sheet.
func (in *inputs) ref(key, column string) string {
	return fmt.Sprintf("%s!$%s$%d", inputSheet, column, in.at[key])
}

func (in *inputs) write(w *writer, plans []*plan) {
	w.text(1, "What the central case is worked out from. Change any figure; the sheets behind follow.", w.style("bold"))
	w.row++
	heads := []string{"Figure", "Unit", "as it stands"}
	for _, p := range plans {
		heads = append(heads, p.o.Name)
	}
	for i, h := range heads {
		w.text(i+1, h, w.style("head"))
	}
	w.high(2)
	w.row++
	for _, row := range in.rows {
		in.at[row.key] = w.row
		w.text(1, row.label, 0)
		w.text(2, row.unit, 0)
		if row.side != nil {
			w.input(firstSide, row.side(&in.r.Base.Side), row.format)
		}
		for i, p := range plans {
			switch {
			case row.buy != nil:
				w.input(firstSide+1+i, row.buy(p.o), row.format)
			case row.key != "rate" && row.key != "tax": // these hold for all options: those of the line as it stands
				w.input(firstSide+1+i, row.side(&p.o.Side), row.format)
			}
		}
		w.row++
	}
	widths := []float64{50, 11}
	for range plans {
		widths = append(widths, 16)
	}
	w.widths(append(widths, 16))
}

func (w *writer) input(column int, v any, format string) {
	switch v := v.(type) {
	case string:
		w.text(column, v, w.style("right"))
	case float64:
		w.value(column, v, format)
	}
}
