package page

import (
	"fmt"
	"strconv"

	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

// orderDocument is the page of a better order of lots.
func orderDocument(r *result.Ordering) (*document, error) {
	r, err := number.Shown(r)
	if err != nil {
		return nil, err
	}
	d := &document{
		Title: r.Scenario, Tab: r.Scenario + ": a better order of its lots", Answer: r.Answer, Notes: notes(r.Warnings), Cautions: r.Cautions,
		Figures: []headFigure{
			hoursFigure(r.Listed.Value, words.Goal(r)+", as listed"),
			hoursFigure(r.Suggested.Value, words.Goal(r)+", as suggested"),
			hoursFigure(r.Difference, "difference, paired by replication"),
		},
		Sure: fmt.Sprintf("%s orders were tried with %d replications each and the same random numbers; found by: %s. Both orders were then held against each other in %d other replications; ± is the 95 %% interval of the mean (Student t).",
			number.Count(int64(r.Tried)), r.Look, r.Rule, r.Replications),
		Facts: []fact{
			{Name: "Seed", Value: strconv.FormatUint(r.Seed, 10)},
			{Name: "Goal", Value: words.Goal(r)},
			{Name: "Scenario", Value: "SHA-256 " + r.ScenarioHash, Hash: true},
		},
	}
	if r.Incomplete {
		d.Incomplete = "the search was interrupted; more orders were to be tried."
	}
	d.Sections, err = built(r, []func(*result.Ordering) (*section, error){suggestedSection, listedSection})
	return d, err
}

func hoursFigure(e result.Estimate, says string) headFigure {
	mean, half := number.Rounded(e)
	f := headFigure{Value: mean, Unit: "h", Says: says}
	if e.HalfWidth != nil {
		f.Doubt = "± " + half
	}
	return f
}

func suggestedSection(r *result.Ordering) (*section, error) {
	s := &section{ID: "suggested", Title: "The order suggested", Says: []string{
		"It is a suggestion: the scenario's list stays as it is. To take it, put the lots into this order in the file.",
	}}
	s.Tables = filled(sideTable(r, "The lots as suggested", r.Suggested), changeTable(&result.Lots{Changes: r.Suggested.Changes}))
	return s, nil
}

func listedSection(r *result.Ordering) (*section, error) {
	s := &section{ID: "listed", Title: "The order as listed"}
	s.Tables = filled(sideTable(r, "The lots as listed", r.Listed), changeTable(&result.Lots{Changes: r.Listed.Changes}))
	return s, nil
}

func sideTable(r *result.Ordering, caption string, side result.OrderSide) table {
	t := table{Caption: caption, Head: columns("Lot", "=product", "=customer", "packs", "=finished, P50", "=P90", "=due", "late")}
	at := func(h *float64) string {
		if h == nil {
			return "not finished"
		}
		return number.Moment(r.StartMin, *h)
	}
	for i := range side.Lots {
		x := &side.Lots[i]
		due, late := "", ""
		if x.DueH != nil {
			due, late = at(x.DueH), number.Percent(*x.Late)
		}
		t.Rows = append(t.Rows, []string{x.Lot, x.Product, x.Customer, number.Count(x.Packs), at(x.Finish.P50H), at(x.Finish.P90H), due, late})
	}
	t.Rows = append(t.Rows, []string{"all lots", "", "", "", at(side.Finish.P50H), at(side.Finish.P90H), "", ""})
	return t
}
