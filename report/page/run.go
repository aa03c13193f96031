package page

import (
	"strconv"

	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

// runDocument is the page of one run.
func runDocument(r *result.Run) (*document, error) {
	r, err := number.Shown(r)
	if err != nil {
		return nil, err
	}
	d := &document{
		Title: r.Scenario, Tab: r.Scenario + ": what the line brings", Note: r.Note, Answer: r.Answer, Figures: headlineFigures(r),
		Sure: howSure(r), Notes: notes(r.Warnings), Cautions: r.Cautions,
		Facts: []fact{
			{Name: "Seed", Value: strconv.FormatUint(r.Seed, 10)},
			{Name: "Replications", Value: strconv.Itoa(r.Replications.N) + " (asked: " + r.Replications.Asked + ")"},
			{Name: "Scenario", Value: "SHA-256 " + r.ScenarioHash, Hash: true},
		},
	}
	if r.Variant != "" {
		d.Facts = append(d.Facts, fact{Name: "Variant", Value: words.Variants(r.Variant, r.OtherVariants)})
	}
	if r.Replications.Incomplete {
		d.Incomplete = "the run was interrupted; the figures rest on the replications that were done."
	}
	d.Sections, err = built(r, runSections)
	return d, err
}

// runSections in the order of the page; one gives nil where its results are absent.
var runSections = []func(*result.Run) (*section, error){
	lotSection, statesSection, gainSection, bottleneckSection, lossSection, profileSection, replaySection, bufferSection, vesselSection, peopleSection, coldSection,
	stopSection, handSection, steadySection, replicationSection, balanceSection, assumptionSection,
}

// built is the sections that have something to show.
func built[R any](r R, all []func(R) (*section, error)) ([]section, error) {
	var out []section
	for _, build := range all {
		s, err := build(r)
		if err != nil {
			return nil, err
		}
		if s != nil {
			out = append(out, *s)
		}
	}
	return out, nil
}
