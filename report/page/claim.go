package page

import (
	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

// claimDocument is the page of a quoted output.
func claimDocument(r *result.Claim) (*document, error) {
	r, err := number.Shown(r)
	if err != nil {
		return nil, err
	}
	t := table{Caption: "What is quoted, and what it needs", Head: columns("What", "value")}
	for _, row := range words.ClaimRows(r) {
		t.Rows = append(t.Rows, []string{row[0], row[1]})
	}
	return &document{
		Title: "Does the claim hold?", Tab: "Does the claim hold?", Answer: r.Answer, Cautions: r.Cautions,
		Figures:  []headFigure{{Value: number.Figure(r.FillNeeded, 3), Says: "fill ratio needed in every load"}, {Value: number.Fixed(r.PerHAtFill, 0), Unit: "kg/h", Says: "at a fill ratio of " + number.Figure(r.Fill, 3)}},
		Sure:     r.Verdict,
		Sections: []section{{ID: "claim", Title: "The sum", Tables: []table{t}, Says: []string{"Fill needed = quoted kg / (volume of the vessels x cycles/h x hours x density of the packs)."}}},
	}, nil
}
