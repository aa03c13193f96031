package page

import (
	"fmt"
	"strconv"
	"strings"

	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

// sizingDocument is the page of a search for the cheapest setting.
func sizingDocument(r *result.Sizing) (*document, error) {
	r, err := number.Shown(r)
	if err != nil {
		return nil, err
	}
	d := &document{
		Title: r.Scenario, Tab: r.Scenario + ": what is enough", Note: r.Note, Answer: r.Answer, Figures: sizingFigures(r),
		Sure: sizingSure(r), Notes: notes(r.Warnings), Cautions: r.Cautions,
		Facts: []fact{
			{Name: "Seed", Value: strconv.FormatUint(r.Seed, 10)},
			{Name: "Replications", Value: fmt.Sprintf("%d in the search, %d fresh", r.Procedure.Replications, r.Procedure.Fresh)},
			{Name: "Scenario", Value: "SHA-256 " + r.ScenarioHash, Hash: true},
		},
	}
	if r.Incomplete {
		d.Incomplete = "the search was interrupted; what was done is shown."
	}
	d.Sections, err = built(r, sizingSections)
	return d, err
}

var sizingSections = []func(*result.Sizing) (*section, error){
	frontierSection, stepSection, sizingStaffing, settingSection, procedureSection, sizingAssumptions,
}

// found is the chosen setting or, where nothing meets, the one that came nearest; nil where none was run.
func found(r *result.Sizing) *result.SizeFound {
	if r.Chosen != nil {
		return r.Chosen
	}
	return r.Nearest
}

func sizingFigures(r *result.Sizing) []headFigure {
	f := found(r)
	if f == nil {
		return nil
	}
	list := []headFigure{{Value: number.Fixed(f.Cost, 0), Unit: strings.TrimSpace(r.Currency + " a year"), Says: "for what may be chosen"}}
	if words.PaysOvertime(f) {
		list = append(list, estimate(f.Overtime, perYear(r), "overtime pay, not in the cost"))
	}
	return append(list,
		headFigure{Value: number.Percent(f.Chance.Share), Doubt: number.Percent(f.Chance.Low) + " to " + number.Percent(f.Chance.High), Says: "of " + r.Target.Over + " reach the target"},
		estimate(&f.Output, r.Target.Unit, "asked: "+number.Fixed(r.Target.Value, 0)),
		estimate(&f.Packs, "packs/h", "finished per "+words.HourOf(r.Rostered)))
}

// sizingSure says how the choice was made and how sure it is.
func sizingSure(r *result.Sizing) string {
	p, t := r.Procedure, r.Target
	s := fmt.Sprintf("%s; the hand check ruled out %s without a run. What was left was simulated with the same random numbers, %s replications in all.",
		words.Settings(p.Settings), number.Count(int64(p.ByHand)), number.Count(int64(p.Replications)))
	if r.Chosen != nil || r.Nearest != nil {
		s += fmt.Sprintf(" The figures above come from %s replications that the search had not seen.", number.Count(int64(p.Fresh)))
	}
	return s + fmt.Sprintf(" With %s confidence the choice is the cheapest that meets the target, where less than it by %s counts as good as the target.",
		words.Share(t.Confidence), words.Share(t.Tolerance))
}

// stepSection shows what one step less and one step more would do.
func stepSection(r *result.Sizing) (*section, error) {
	if len(r.Steps) == 0 {
		return nil, nil
	}
	unit := r.Target.Unit
	t := table{Caption: "One step from the setting above, with the same random numbers",
		Head: columns("Change", "=from", "=to", "cost, "+perYear(r), "overtime, "+perYear(r), "output, difference in "+unit, "reach the target", "95 % interval"),
		Foot: "A difference whose half width is larger than itself is none that was shown. Overtime is not in the cost."}
	for _, s := range r.Steps {
		row := []string{s.Name + ", one step " + s.Step, s.From, s.To, "–", "–", "–", "–", "–"}
		switch {
		case s.To == "":
			row[2] = s.Why
		case s.Chance == nil:
			row[3], row[7] = number.Fixed(s.Cost, 0), s.Why
		default:
			row[3], row[5], row[6] = number.Fixed(s.Cost, 0), number.Signed(s.Differs), number.Percent(s.Chance.Share)
			row[7] = number.Percent(s.Chance.Low) + " to " + number.Percent(s.Chance.High)
			if s.Overtime != nil {
				row[4] = number.PlusMinus(*s.Overtime, "")
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return &section{ID: "steps", Title: "One step less, one step more", Tables: []table{t}}, nil
}

func perYear(r *result.Sizing) string {
	if r.Currency == "" {
		return "a year"
	}
	return r.Currency + " a year"
}

func sizingStaffing(r *result.Sizing) (*section, error) {
	if len(r.Staffing) == 0 {
		return nil, nil
	}
	return &section{ID: "staffing", Title: "Staffing", Tables: []table{staffingTable(r.Staffing)}}, nil
}

// staffingTable shows each pool in each shift.
func staffingTable(rows []result.Staffing) table {
	t := table{Caption: "People by shift", Head: columns("Pool", "=shift", "people", "busy", "longest without a pause", "=waited for them, hours a shift"),
		Foot: "Busy is of the hours on shift and not on a break. Longest: over all replications. What waited is summed over its tasks, breaks of the people in; " +
			"a long wait at the station that limits the line is where one more person would help."}
	for _, s := range rows {
		shift := s.Shift
		if shift == "" {
			shift = "all the time"
		}
		t.Rows = append(t.Rows, []string{s.Pool, shift, number.Count(int64(s.People)), number.Percent(s.Busy), number.Duration(s.LongestS), words.HeldUp(s.HoldsUp)})
	}
	return t
}

// settingSection lists all settings and what became of them.
func settingSection(r *result.Sizing) (*section, error) {
	head := []string{"Setting"}
	for _, d := range r.Dimensions {
		head = append(head, "="+d.Name)
	}
	unit := r.Target.Unit
	head = append(head, "cost, "+perYear(r), "=what became of it", "replications", "output, "+unit, "reached the target", "hand check, most "+unit)
	t := table{Caption: "All settings, cheapest first", Head: columns(head...), Folded: len(r.Settings) > 40,
		Foot: "Output and share of those that were dropped early rest on few replications: enough to drop them, not to compare them."}
	for _, s := range r.Settings {
		fate := s.Fate
		if s.Why != "" {
			fate += ": " + s.Why
		}
		made, reached, most := "–", "–", "–"
		if s.Output != nil {
			made, reached = number.PlusMinus(*s.Output, ""), number.Percent(s.Reached)
		}
		if s.Ceiling > 0 {
			most = number.Fixed(s.Ceiling, 0)
		}
		row := append([]string{number.Count(int64(s.Number))}, s.Values...)
		t.Rows = append(t.Rows, append(row, number.Fixed(s.Cost, 0), fate, number.Count(int64(s.N)), made, reached, most))
	}
	return &section{ID: "settings", Title: "All settings", Tables: []table{t}}, nil
}

// procedureSection says how it was done.
func procedureSection(r *result.Sizing) (*section, error) {
	p, t := r.Procedure, r.Target
	says := []string{
		fmt.Sprintf("Asked: %s. Cost: for a year of %d weeks; what is bought once is spread over its life at %s a year.", words.SizeTarget(t), p.Weeks, words.Share(p.Rate)),
		"Hand check: a setting that cannot make the target by mean times alone, without breaks and stops and with all that the line can hold when a shift begins, is not simulated. More of anything can only raise this figure. Where a time scatters by more than its mean nothing is ruled out by hand.",
	}
	if f := found(r); f != nil && f.Overtime != nil {
		says = append(says, "Overtime is known only after a run, so settings are compared without it. Its pay: the hours that people work after the last shift in which they are there, at what an hour of them costs there, and what money.overtime puts on top.")
	}
	if t.Share > 0 {
		says = append(says, fmt.Sprintf("The others were judged one after another, cheapest first, after each replication: by two games that are fair where the answer would be wrong, so that money "+
			"won in them is proof (sequential tests after Wald and Ville). A setting that meets the target is dropped with a chance of at most %s; one that fails it by more than the tolerance is chosen "+
			"with a chance of at most as much, over all settings together.", words.Share(p.WrongDrop)))
	} else {
		says = append(says, fmt.Sprintf("The others were judged one after another, cheapest first, after each replication: by how far the sum of differences from the target has gone (sequential comparison with a standard, "+
			"after Batur, Kim and Nelson). A wrong answer on one setting has a chance of at most %s; over all settings together, at most %s.", words.Share(p.WrongDrop), words.Share(1-t.Confidence)))
	}
	says = append(says, "Settings that cost more than the chosen one were simulated five times each, for the frontier only. The chosen one was estimated again with fresh random numbers, its neighbours with the same ones.")
	return &section{ID: "procedure", Title: "How it was chosen", Says: says}, nil
}

func sizingAssumptions(r *result.Sizing) (*section, error) {
	return assumptionSection(&result.Run{Assumptions: r.Assumptions})
}
