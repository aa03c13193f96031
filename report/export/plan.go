package export

import (
	"fmt"
	"math"
	"strings"

	"pascaline/sim/result"
)

// plan is the sheet of one option.
type plan struct {
	r      *result.Payback
	o      *result.PaybackOption
	in     *inputs
	column string // of the option on the sheet of inputs
	sheet  string
	rows   map[string]int
	found  []found
}

// found is a figure that the sheet comes to.
type found struct {
	at, word, format string
	value            float64
}

const (
	baseColumn = "C" // of the line as it stands on the sheet of inputs
	firstYear  = 3   // column of year 0
)

// yearRow is one row of the sheet: its formula for a year, of which year 0 may be another or none. Names between braces are
// replaced: {b:packs} and {o:packs} are inputs of the line as it stands and of the option, {earned} is a row of the same year, {sum<} of the year
// before, {sold b>} of the year after, {year} the year, {last} the last year.
type yearRow struct {
	key, label, unit, format string
	today, formula           string
	value                    func(t int) float64
}

func (p *plan) write(w *writer) {
	w.open(p.o.Name)
	p.sheet = w.sheet
	w.text(1, p.o.Name+" against the line as it stands, "+p.r.Currency, w.style("bold"))
	w.row = 9 // the figures stand above the years
	w.text(1, "Year", w.style("head"))
	p.rows = map[string]int{"year": w.row}
	years := len(p.o.Lines) - 1
	for t := 0; t <= years; t++ {
		w.value(firstYear+t, float64(t), "0")
	}
	w.row++
	rows := p.yearRows()
	for i, row := range rows {
		p.rows[row.key] = w.row + i
	}
	for _, row := range rows {
		w.text(1, row.label, 0)
		w.text(2, row.unit, 0)
		for t := 0; t <= years; t++ {
			f := row.formula
			if t == 0 {
				f = row.today
			}
			if f == "" {
				continue
			}
			v, word := row.value(t), ""
			if math.IsNaN(v) {
				v, word = 0, "-"
			}
			w.formula(firstYear+t, p.formula(f, t), v, word, row.format)
		}
		w.row++
	}
	p.results(w, years)
	widths := []float64{44, 10}
	for range years + 1 {
		widths = append(widths, 14)
	}
	w.widths(widths)
}

// formula puts places in for the names between braces.
func (p *plan) formula(f string, t int) string {
	var b strings.Builder
	for {
		before, rest, ok := strings.Cut(f, "{")
		b.WriteString(before)
		if !ok {
			return b.String()
		}
		name, after, _ := strings.Cut(rest, "}")
		b.WriteString(p.placeOf(name, t))
		f = after
	}
}

func (p *plan) placeOf(name string, t int) string {
	if key, ok := strings.CutPrefix(name, "b:"); ok {
		return p.in.ref(key, baseColumn)
	}
	if key, ok := strings.CutPrefix(name, "o:"); ok {
		return p.in.ref(key, p.column)
	}
	if name == "last" {
		return fmt.Sprintf("$%s$%d", columnName(firstYear+len(p.o.Lines)-1), p.rows["year"])
	}
	if key, ok := strings.CutSuffix(name, "<"); ok {
		return fmt.Sprintf("%s%d", columnName(firstYear+t-1), p.rows[key])
	}
	if key, ok := strings.CutSuffix(name, ">"); ok {
		return fmt.Sprintf("%s%d", columnName(firstYear+t+1), p.rows[key])
	}
	return fmt.Sprintf("%s%d", columnName(firstYear+t), p.rows[name])
}

// people is the cost of hours in a year, for the side b or o.
func (p *plan) people(side string) string {
	var terms []string
	for k := range p.r.Base.Side.People {
		hours := fmt.Sprintf("{%s:hours %d}", side, k)
		kept := hours
		if side == "o" {
			kept = fmt.Sprintf("MAX(%s,{b:hours %d})", hours, k)
		}
		terms = append(terms, fmt.Sprintf(`{%[1]s:cost %[2]d}*(IF({%[1]s:paid %[2]d}="yes",%[3]s,%[4]s*{used %[1]s})+{%[1]s:overtime %[2]d}*{used %[1]s}*(1+{%[1]s:premium}))`,
			side, k, kept, hours))
	}
	if len(terms) == 0 {
		return "0"
	}
	return fmt.Sprintf("(%s)*{%s:weeks}*{level %s}", strings.Join(terms, "+"), side, side)
}

// results are the figures above the years.
func (p *plan) results(w *writer, years int) {
	first, last := columnName(firstYear), columnName(firstYear+years)
	span := func(key, from string) string { return fmt.Sprintf("%s%d:%s%d", from, p.rows[key], last, p.rows[key]) }
	flow, rate := span("flow", first), p.in.ref("rate", baseColumn)
	v := p.o.Central
	back := func(sums, cross string) string {
		return fmt.Sprintf(`IF(AND(MIN(%[1]s)=0,MAX(%[1]s)=0),"never",IF(MIN(%[1]s)>=0,0,IF(COUNT(%[2]s)=0,"never",MIN(%[2]s))))`, span(sums, first), span(cross, first))
	}
	irr, irrWord, irrValue := fmt.Sprintf(`IFERROR(IRR(%s),"none")`, flow), "none", 0.0
	if len(v.Rates) == 1 {
		irrValue, irrWord = v.Rates[0], ""
		irr = fmt.Sprintf(`IFERROR(IRR(%s,%s),"none")`, flow, fmt.Sprintf("%.4f", v.Rates[0]))
	} else if len(v.Rates) > 1 {
		irr, irrWord = `"not unique"`, "not unique"
	}
	w.row = 2
	for _, x := range []struct {
		label, f, word, format string
		value                  float64
	}{
		{"Net present value", fmt.Sprintf("SUM(%s)", span("discounted", first)), "", moneyFormat, v.NPV},
		{"Payback, years", back("sum", "cross"), never(v.Payback), yearsFormat, orZero(v.Payback)},
		{"Payback with interest, years", back("sumd", "crossd"), never(v.Discounted), yearsFormat, orZero(v.Discounted)},
		{"Internal rate", irr, irrWord, rateFormat, irrValue},
		{"Worth a year (equivalent annual worth)", fmt.Sprintf("-PMT(%s,%s,%s)", rate, p.placeOf("last", 0), "C2"), "", moneyFormat, v.Annual},
	} {
		w.text(1, x.label, w.style("bold"))
		w.formula(firstYear, x.f, x.value, x.word, x.format)
		p.found = append(p.found, found{fmt.Sprintf("$C$%d", w.row), x.word, x.format, x.value})
		w.row++
	}
	w.text(1, "Years are laid out for the life that was given. What a range brings is on the first sheet.", 0)
}

func never(v *float64) string {
	if v == nil {
		return "never"
	}
	return ""
}

func orZero(v *float64) float64 {
	if v == nil {
		return 0
	}
	return *v
}
