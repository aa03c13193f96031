package export

import (
	"fmt"
	"strconv"

	"github.com/xuri/excelize/v2"

	"pascaline/report/number"
	"pascaline/report/store"
	"pascaline/sim/result"
)

// Workbook writes a case for capital as a workbook that counts by itself: a sheet of inputs, and for each option a sheet whose formulas work its
// cash flows, payback, net present value and internal rate out of them. Every formula has its value stored beside it, so that it reads right where nothing
// is worked out anew. It holds the central case; ranges come from the simulation and are on the first sheet as they were.
func Workbook(path string, r *result.Payback) error {
	data, err := workbook(r)
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", path, err)
	}
	return store.Write(path, data)
}

func workbook(r *result.Payback) ([]byte, error) {
	r, err := number.Shown(r)
	if err != nil {
		return nil, err
	}
	w := &writer{file: excelize.NewFile(), names: map[string]bool{}, styles: map[string]int{}}
	w.open("Summary")
	in := inputsOf(r)
	plans := make([]*plan, 0, len(r.Options))
	for i := range r.Options {
		if o := &r.Options[i]; len(o.Lines) > 0 {
			plans = append(plans, &plan{r: r, o: o, in: in, column: columnName(firstSide + 1 + len(plans))})
		}
	}
	w.open(inputSheet)
	in.write(w, plans)
	w.sideways()
	for _, p := range plans {
		p.write(w)
		w.sideways()
	}
	w.sheet, w.row = "Summary", 1
	summary(w, r, plans)
	w.sideways()
	b, err := w.bytes()
	if err != nil {
		return nil, err
	}
	return numbersStored(b)
}

// formula writes a formula with its value beside it; where it comes to a word, which is the last in its quotes, that is put in at the end.
func (w *writer) formula(column int, f string, v float64, word string, format string) {
	w.put(column, w.style(format), func(at string) error {
		if word == "" {
			if err := w.file.SetCellDefault(w.sheet, at, strconv.FormatFloat(v, 'g', -1, 64)); err != nil {
				return err
			}
		}
		return w.file.SetCellFormula(w.sheet, at, f)
	})
}

// linked is the figure of another sheet, and the word where it comes to one.
func linked(sheet string, x found) string {
	at := fmt.Sprintf("'%s'!%s", sheet, x.at)
	if x.word == "" {
		return at
	}
	return fmt.Sprintf(`IF(ISNUMBER(%s),%s,"%s")`, at, at, x.word)
}

// value writes a plain number.
func (w *writer) value(column int, v float64, format string) {
	w.put(column, w.style(format), func(at string) error { return w.file.SetCellFloat(w.sheet, at, v, -1, 64) })
}

func columnName(n int) string {
	name, err := excelize.ColumnNumberToName(n)
	if err != nil {
		return "" // a fault of ours: there are fewer than 16,000 options
	}
	return name
}

// summary is the first sheet: the question, the answer, and each option's figures as the sheets behind it work them out.
func summary(w *writer, r *result.Payback, plans []*plan) {
	for _, p := range []pair{
		{"Question", r.Question}, {"Answer", r.Answer}, {"How sure", r.Doubt},
		{"How to use", "Change a number on the sheet " + inputSheet + ": everything here is worked out again, for the central case. The ranges below are the simulation's and stay as they were."},
		{"Money", fmt.Sprintf("in %s; seed %d, %d replications, %s draws", r.Currency, r.Seed, r.Replications.N, number.Count(int64(r.Draws)))},
	} {
		w.across(p)
	}
	w.row++
	for i, h := range []string{"Option", "NPV, " + r.Currency, "Payback, years", "Payback with interest, years", "Internal rate", "Worth a year, " + r.Currency,
		"NPV as simulated, P10", "NPV as simulated, P90", "Payback as simulated, P10", "Payback as simulated, P90", "Never pays, share of draws"} {
		w.text(i+1, h, w.style("head"))
	}
	w.high(3)
	w.row++
	for _, p := range plans {
		w.text(1, p.o.Name, 0)
		for i, x := range p.found {
			w.formula(i+2, linked(p.sheet, x), x.value, x.word, x.format)
		}
		ends := []*float64{p.o.NPV.P10, p.o.NPV.P90, p.o.PaybackYears.P10, p.o.PaybackYears.P90, &p.o.NeverPays}
		for i, v := range ends {
			if v == nil {
				w.text(i+7, "never", w.style("right"))
			} else {
				w.value(i+7, *v, []string{moneyFormat, moneyFormat, yearsFormat, yearsFormat, rateFormat}[i])
			}
		}
		w.row++
	}
	w.widths([]float64{34, 14, 12, 14, 12, 14, 14, 14, 14, 14, 12})
}

// lineLetters is how many letters stand on a line across the summary.
const lineLetters = 125

// across writes a heading with words over the whole width, as high as they need.
func (w *writer) across(p pair) {
	w.text(1, p.name, w.style("bold"))
	w.text(2, p.value, w.style("wrap"))
	w.do(func() error { return w.file.MergeCell(w.sheet, fmt.Sprintf("B%d", w.row), fmt.Sprintf("K%d", w.row)) })
	w.high(1 + number.Width(p.value)/lineLetters)
	w.row++
}

// high makes the present row so many lines high.
func (w *writer) high(lines int) {
	w.do(func() error { return w.file.SetRowHeight(w.sheet, w.row, 15*float64(lines)) })
}

// sideways lets a sheet be printed on paper laid sideways, one page wide.
func (w *writer) sideways() {
	way, wide, high, fit := "landscape", 1, 0, true
	w.do(func() error {
		return w.file.SetPageLayout(w.sheet, &excelize.PageLayoutOptions{Orientation: &way, FitToWidth: &wide, FitToHeight: &high})
	})
	w.do(func() error { return w.file.SetSheetProps(w.sheet, &excelize.SheetPropsOptions{FitToPage: &fit}) })
}
