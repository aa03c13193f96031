package page_test

import (
	"bytes"
	"strings"
	"testing"

	"pascaline/report/internal/fixture"
	"pascaline/report/page"
	"pascaline/sim/result"
)

func drawAny(t *testing.T, r result.Results) string {
	t.Helper()
	var b bytes.Buffer
	if err := page.Write(&b, r, page.Options{Command: "pascaline"}); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestTablesOfCycleEqualTheResults(t *testing.T) {
	r := fixture.Cycle()
	p := drawAny(t, r)
	if !strings.Contains(p, `data-draw="pressure"`) || !strings.Contains(p, r.Answer) {
		t.Error("the page has no curve, or no answer")
	}
	all := tables(p)
	phases := table(t, all, "Phases", len(r.Phases)+1)
	for i, x := range r.Phases {
		phases.words(i, 0, x.Name)
		phases.number(i, 1, x.S)
	}
	phases.words(2, 2, "stopwatch, used; physics says 1 min 48 s (-20 %)")
	phases.number(len(r.Phases), 1, r.CycleS)
	water := table(t, all, "Water pushed in", len(r.Water.Parts)+4)
	for i, x := range r.Water.Parts {
		water.words(i, 0, x.Name)
		water.number(i, 1, x.Litres)
	}
	curve := table(t, all, "Points of the curve", len(r.Curve))
	for i, x := range r.Curve {
		curve.number(i, 1, x.MPa)
	}
	warm := table(t, all, "At pressure", 2)
	warm.number(0, 2, r.Warming.WaterToC)
	warm.number(1, 1, r.Warming.PacksFromC)
	lost := table(t, all, "With intensifiers lost", len(r.Pumps.Lost))
	for i, x := range r.Pumps.Lost {
		lost.number(i, 1, x.ComeUpS)
		lost.number(i, 3, x.CyclesPerH)
	}
	table(t, all, "What each plug passes on", 4)
	table(t, all, "Energy of the pumps", 7)
}

// Where little is known, what cannot be said is left out, and the page still stands.
func TestCyclePageOfLittle(t *testing.T) {
	p := drawAny(t, fixture.CycleOfLittle())
	for _, gone := range []string{`data-draw="pressure"`, "Force on the plugs", "intensifiers lost", "for a kilogram"} {
		if strings.Contains(p, gone) {
			t.Errorf("the page shows %q", gone)
		}
	}
}

func TestClaimPage(t *testing.T) {
	p := drawAny(t, fixture.Claim())
	rows := table(t, tables(p), "What is quoted", 8)
	rows.words(2, 1, "2 x 525.0 L, 5.00 cycles/h each")
	rows.number(4, 1, 1.17)
	if !strings.Contains(p, "never made good by a shorter hold") {
		t.Error("the page has not its cautions")
	}
}
