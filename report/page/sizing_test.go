package page_test

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"pascaline/report/internal/fixture"
	"pascaline/report/number"
	"pascaline/report/page"
	"pascaline/sim/result"
)

func drawSizing(t *testing.T, r *result.Sizing) string {
	t.Helper()
	var b bytes.Buffer
	if err := page.Write(&b, r, page.Options{Command: "pascaline size sizing.yaml"}); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestTablesOfSizingEqualTheResults(t *testing.T) {
	r := fixture.Sizing()
	p := drawSizing(t, r)
	if !strings.Contains(p, `<p class="answer">`+r.Answer) || !strings.Contains(p, `data-draw="frontier"`) {
		t.Error("the page does not begin with its answer, or has no frontier")
	}
	all := tables(p)
	settings := table(t, all, "All settings, cheapest first", len(r.Settings))
	for i, s := range r.Settings {
		settings.words(i, 1, s.Values[0])
		settings.words(i, 2, s.Values[1])
		settings.number(i, 3, s.Cost)
		settings.number(i, 5, float64(s.N))
		if s.Output != nil {
			settings.number(i, 6, s.Output.Mean)
			settings.number(i, 7, 100*s.Reached)
		}
	}
	settings.words(0, 4, "ruled out by the hand check: by mean times packing allows 21480 at most")
	front := table(t, all, "The frontier", len(r.Frontier))
	for i, n := range r.Frontier {
		front.number(i, 0, float64(n))
		front.number(i, 4, r.Settings[n-1].Output.Mean)
	}
	steps := table(t, all, "One step from the setting above", len(r.Steps))
	steps.words(0, 2, "not asked about")
	steps.number(2, 3, r.Steps[2].Cost)
	steps.number(2, 4, r.Steps[2].Overtime.Mean)
	steps.number(2, 5, r.Steps[2].Differs.Mean)
	steps.number(3, 6, 100*r.Steps[3].Chance.Share)
	if !strings.Contains(p, "overtime pay, not in the cost") {
		t.Error("the pay of overtime does not stand beside the cost")
	}
	table(t, all, "People by shift", len(r.Staffing))
}

// Where nothing meets, or nothing was simulated, or there is one setting, the page says so and still stands.
func TestSizingPageOfLittle(t *testing.T) {
	p := drawSizing(t, fixture.SizingOfNothing())
	if !strings.Contains(p, "None of the 8 settings") || strings.Contains(p, `"chosen"`) {
		t.Error("the page shows a chosen setting where there is none")
	}
	r := fixture.SizingOfNothing()
	r.Nearest, r.Frontier, r.Steps, r.Staffing, r.Incomplete = nil, nil, nil, nil, true
	for i := range r.Settings {
		r.Settings[i].Output, r.Settings[i].N = nil, 0
	}
	p = drawSizing(t, r)
	if strings.Contains(p, "data-draw") || !strings.Contains(p, "Incomplete:") || !strings.Contains(p, number.Count(int64(r.Procedure.Settings))+" settings") {
		t.Error("a search that ran nothing is not shown as such")
	}
}

// Without a roster the figures are per hour.
func TestSizingWithoutARoster(t *testing.T) {
	for _, c := range []struct {
		rostered bool
		want     string
	}{{true, "finished per rostered hour"}, {false, "finished per hour"}} {
		r := fixture.Sizing()
		r.Rostered = c.rostered
		b, err := page.Contents(r)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.ContainsFunc(b.Figures, func(f [2]string) bool { return f[0] == c.want || f[1] == c.want }) {
			t.Errorf("no figure %q among %q", c.want, b.Figures)
		}
	}
}
