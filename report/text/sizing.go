package text

import (
	"fmt"
	"strings"

	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

// sizing is the screen of a search for the cheapest setting.
func (s *screen) sizing(r *result.Sizing) error {
	r, err := number.Shown(r)
	if err != nil {
		return err
	}
	s.answer(r.Answer, r.Warnings, r.Incomplete)
	f := r.Chosen
	if f == nil {
		f = r.Nearest
	}
	if f != nil {
		s.line(none, "")
		made := number.PlusMinus(f.Output, r.Target.Unit)
		if r.Target.Unit != "packs/h" {
			made += "; " + number.PlusMinus(f.Packs, "packs per "+words.HourOf(r.Rostered))
		}
		s.line(none, made)
	}
	p := r.Procedure
	s.says(faint, fmt.Sprintf("%s, %s ruled out by hand check, %s + %s replications, seed %d", words.Settings(p.Settings), number.Count(int64(p.ByHand)),
		number.Count(int64(p.Replications)), number.Count(int64(p.Fresh)), r.Seed), 2)
	s.steps(r)
	s.frontier(r)
	s.staffing(r.Staffing)
	s.notes(r.Warnings)
	return nil
}

// cells sets words in columns of a width: the first from the left, the others against the right.
func (s *screen) cells(widths []int, words ...string) string {
	out := s.left(words[0], widths[0])
	for i, c := range words[1:] {
		out += s.right(s.cut(s.letters(c), widths[i+1]-1), widths[i+1])
	}
	return out
}

const (
	mostSteps    = 10
	mostFrontier = 6
	mostStaffing = 6
)

func (s *screen) steps(r *result.Sizing) {
	w := []int{38, 12, 19, 10}
	rows := 0
	for _, x := range r.Steps {
		if x.Chance == nil {
			continue
		}
		if rows == 0 {
			s.line(none, "")
			s.line(bold, s.cells(w, "one step less, one step more", "cost a year", r.Target.Unit, "reach it"))
		}
		if rows++; rows > mostSteps {
			s.line(faint, "and more: see the page")
			return
		}
		change := fmt.Sprintf("  %s %s instead of %s", x.Name, x.To, x.From)
		s.line(none, s.cells(w, change, number.Fixed(x.Cost, 0), number.Signed(x.Differs), number.Percent(x.Chance.Share)))
	}
}

func (s *screen) frontier(r *result.Sizing) {
	if len(r.Frontier) == 0 {
		return
	}
	w := []int{38, 12, 19, 10}
	s.line(none, "")
	names := make([]string, len(r.Dimensions))
	for i, d := range r.Dimensions {
		names[i] = d.Name
	}
	s.line(bold, s.cells(w, "most for the money: "+strings.Join(names, ", "), "cost a year", r.Target.Unit, "reach it"))
	list := around(r.Frontier, r)
	for _, n := range list {
		x := r.Settings[n-1]
		s.line(none, s.cells(w, "  "+strings.Join(x.Values, ", "), number.Fixed(x.Cost, 0), number.Fixed(x.Output.Mean, 0), number.Percent(x.Reached)))
	}
	if len(list) < len(r.Frontier) {
		s.line(faint, fmt.Sprintf("  and %d more: see the page", len(r.Frontier)-len(list)))
	}
}

// around are the points of the frontier nearest to the chosen setting in cost.
func around(list []int, r *result.Sizing) []int {
	at := 0
	for i, n := range list {
		if r.Chosen != nil && n <= r.Chosen.Number {
			at = i
		}
	}
	from := max(0, min(at-mostFrontier/2, len(list)-mostFrontier))
	return list[from:min(len(list), from+mostFrontier)]
}

func (s *screen) staffing(rows []result.Staffing) {
	if len(rows) == 0 {
		return
	}
	w := []int{28, 8, 9, 16}
	s.line(none, "")
	s.line(bold, s.cells(w, "people by shift", "heads", "busy", "without a pause")+"  waited for them")
	for i, x := range rows {
		if i == mostStaffing-1 && len(rows) > mostStaffing {
			s.line(faint, fmt.Sprintf("  and %d more: see the page", len(rows)-i))
			return
		}
		name := "  " + x.Pool
		if x.Shift != "" {
			name += ", " + x.Shift
		}
		s.line(none, s.cells(w, name, number.Count(int64(x.People)), number.Percent(x.Busy), number.Duration(x.LongestS))+"  "+words.HeldUp(x.HoldsUp))
	}
}
