package page_test

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"pascaline/report/internal/fixture"
	"pascaline/report/page"
	"pascaline/sim/result"
)

func drawPayback(t *testing.T, r *result.Payback) string {
	t.Helper()
	var b bytes.Buffer
	if err := page.Write(&b, r, page.Options{Command: "pascaline payback plant.yaml"}); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestPaybackPageIsWellMade(t *testing.T) {
	p := drawPayback(t, fixture.Payback())
	if fault := unbalanced(p); fault != "" {
		t.Error(fault)
	}
	m := markup(p)
	checkHeadings(t, m)
	checkIDs(t, m)
	for _, want := range []string{"Assumptions to sign", `id="chart-cash"`, `id="chart-swings"`, `id="chart-cost"`, "pascaline payback plant.yaml", "it is one or the other"} {
		if !strings.Contains(m, want) {
			t.Errorf("no %s", want)
		}
	}
	if strings.Contains(m, "NaN") || strings.Contains(m, "&lt;nil&gt;") || regexp.MustCompile(`%!`).MatchString(m) {
		t.Error("something was not written out")
	}
	if p != drawPayback(t, fixture.Payback()) {
		t.Error("the same results give another page")
	}
}

// The tables say what the results say; what has no number reads never or none.
func TestPaybackTables(t *testing.T) {
	all := tables(drawPayback(t, fixture.Payback()))
	money := table(t, all, "What each option brings", 3)
	money.words(0, 0, "do nothing")
	money.words(1, 1, "2.5 years")
	money.words(1, 2, "2.1 years to never")
	money.number(1, 4, 25815.735)
	money.words(1, 6, "28.7 % (none to 44.0 %)")
	money.words(2, 1, "never")
	money.words(2, 6, "none")
	even := table(t, all, "The value at which", 3)
	even.number(0, 3, 5.0/3)
	even.words(1, 5, "at most 120.0 % of the plan")
	even.words(2, 3, "none")
	sure := table(t, all, "How sure", 2)
	sure.words(0, 1, "12.0 %")
	sure.words(0, 3, "never")
	sign := table(t, all, "Assumptions to sign", 3)
	sign.words(1, 2, "1.70 to 2.30 EUR/pack")
	sign.words(2, 1, "2.0 % a year")
	sign.words(2, 2, "-1.0 to 4.0 % a year (8 of 10)")
	years := table(t, all, "second loading station against", 6)
	years.number(1, 8, 20000)
	years.number(5, 9, 50000)
}

// Bare: nothing bought, no ranges; several internal rates are told; names that mean something in HTML stay words.
func TestPaybackPageAtItsEdges(t *testing.T) {
	r := fixture.Payback()
	r.Options = []result.PaybackOption{r.Options[0], r.Options[2]}
	r.Options[1].Name = `<script>alert(1)</script> & "x"`
	r.Options[1].Central.Rates = []float64{-0.4, 0.2}
	r.Options[1].Central.MIRR = &r.Options[1].NeverPays
	r.Order, r.Figures, r.Assumptions = result.Order{}, nil, nil
	r.Replications.Incomplete = true
	p := drawPayback(t, r)
	if strings.Contains(p, "<script>alert") {
		t.Error("a name became a script")
	}
	m := markup(p)
	for _, want := range []string{"not unique (2), modified 100 %", "Incomplete:", "do nothing"} {
		if !strings.Contains(m, want) {
			t.Errorf("no %q", want)
		}
	}
	r.Options = r.Options[:1]
	if fault := unbalanced(drawPayback(t, r)); fault != "" {
		t.Error(fault)
	}
}

// Interest is that of the line as it stands, whatever an option's own block of money says: it is what the present values were worked out with.
func TestPaybackPageNamesTheRateThatWasUsed(t *testing.T) {
	r := fixture.Payback()
	for i := range r.Options {
		r.Options[i].Side.Rate = 0.3
	}
	p := drawPayback(t, r)
	for _, want := range []string{"over 5 years at 10.0 % a year", "discounted at 10.0 % a year"} {
		if !strings.Contains(p, want) {
			t.Errorf("no %q", want)
		}
	}
	if strings.Contains(p, "30.0 % a year") {
		t.Error("a rate is named that was not used")
	}
}
