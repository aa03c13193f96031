// Package text writes results for a terminal: one screen of 80 columns that opens with the same sentence as the page. Colour and
// letters beyond ASCII are used only where the caller says that the terminal has them.
package text

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

const (
	columns     = 80
	mostLines   = 40
	mostRows    = 12 // stations in the table
	mostPools   = 4
	noteLines   = 2 // lines of one warning
	nameColumns = 18
)

// Options say what the terminal can do.
type Options struct {
	Colour  bool // ANSI colours may be used
	Unicode bool // letters beyond ASCII are shown
}

// Write writes the screen of results of any kind. The same results and options give the same bytes. A number that is not finite is an error that
// names its field.
func Write(w io.Writer, r result.Results, o Options) error {
	s := &screen{o: o}
	var err error
	switch r := r.(type) {
	case *result.Run:
		err = s.run(r)
	case *result.Comparison:
		err = s.comparison(r)
	case *result.Cycle:
		err = s.cycle(r)
	case *result.Claim:
		err = s.claim(r)
	case *result.Payback:
		err = s.payback(r)
	case *result.Ordering:
		err = s.ordering(r)
	case *result.TimeFit:
		err = s.timeFit(r)
	case *result.Sizing:
		err = s.sizing(r)
	case *result.StopFit:
		err = s.stopFit(r)
	case *result.Backtest:
		err = s.backtest(r)
	default:
		err = fmt.Errorf("results of the kind %q have no screen", r.Top().Kind)
	}
	if err != nil {
		return fmt.Errorf("nothing to print: %w", err)
	}
	_, err = io.WriteString(w, s.b.String())
	return err
}

// run is the screen of one run: at most 40 lines of at most 80 columns, unless a name is in letters that the terminal draws wider.
func (s *screen) run(r *result.Run) error {
	r, err := number.Shown(r)
	if err != nil {
		return err
	}
	s.answer(r.Answer, r.Warnings, r.Replications.Incomplete)
	s.figures(r)
	s.gains(r.Gains)
	if r.Lots != nil {
		s.lots("lot", r.Profile.StartMin, r.Lots.Each)
	}
	s.stations(r)
	s.losses(r)
	s.people(r)
	s.notes(r.Warnings)
	return nil
}

// answer prints the first sentence with the numbers of its warnings.
func (s *screen) answer(words string, warnings []result.Warning, incomplete bool) {
	marks := make([]string, len(warnings))
	for i := range warnings {
		marks[i] = fmt.Sprintf("[%d]", i+1)
	}
	if len(marks) > 0 {
		words += " " + strings.Join(marks[:min(len(marks), 9)], "")
	}
	s.says(bold, words, 4)
	if incomplete {
		s.line(alert, "Incomplete: the run was interrupted.")
	}
}

func (s *screen) figures(r *result.Run) {
	h := r.Headline
	s.line(none, "")
	var parts []string
	for _, f := range []struct {
		e    *result.Estimate
		unit string
	}{{&h.PacksPerH, "packs/h"}, {h.CasesPerH, "cases/h"}, {h.CarriersPerH, "carriers/h"}, {h.CyclesPerH, "cycles/h"}} {
		if f.e != nil {
			parts = append(parts, number.PlusMinus(*f.e, f.unit))
		}
	}
	s.line(none, strings.Join(parts, ", "))
	n := r.Replications
	times := "replications"
	if n.N == 1 {
		times = "replication"
	}
	per := "per " + words.Hour(r)
	s.says(faint, fmt.Sprintf("%s; %s %s of %s, seed %d", per, number.Count(int64(n.N)), times, n.Length, r.Seed), 2)
	if x := r.Steady; x != nil {
		of := "steps of time"
		if x.ByCycle {
			of = "vessel cycles"
		}
		s.line(none, fmt.Sprintf("Steady, without roster: of %d %s the first %d are cut off (MSER-5)", x.Observations, of, x.Cut))
	}
	if r.HandCheck.BoundPacksPerH > 0 {
		s.line(none, fmt.Sprintf("Hand check: %s of %s packs/h (%s)", number.Percent(r.HandCheck.Share), number.Fixed(r.HandCheck.BoundPacksPerH, 0), r.HandCheck.By))
	}
}

// gains prints what limits the line, where that was worked out.
func (s *screen) gains(g *result.Gains) {
	if g == nil {
		return
	}
	s.line(none, "")
	s.says(none, g.Sentence, 4)
}

// stations prints the states in five columns, in percent of the base: waiting is for an operator, down is every stop and changeover.
func (s *screen) stations(r *result.Run) {
	if len(r.Stations) == 0 {
		return
	}
	s.line(none, "")
	s.line(bold, s.row("station", "base, h", "processing", "starved", "blocked", "waiting", "down", "% of base"))
	for i, st := range r.Stations {
		if i == mostRows-1 && len(r.Stations) > mostRows {
			s.line(faint, fmt.Sprintf("and %d more stations: see the page", len(r.Stations)-i))
			break
		}
		of := func(states ...string) string {
			sum := 0.0
			for _, one := range st.Shares {
				if slices.Contains(states, one.State) {
					sum += one.Share
				}
			}
			return number.Fixed(100*sum, 1)
		}
		s.line(none, s.row(st.Name, number.Fixed(st.BaseH, 1), of("processing"), of("starved"), of("blocked"), of("waiting for operator"),
			of("changeover", "under repair", "waiting for repair"), ""))
	}
}

// losses prints the three greatest.
func (s *screen) losses(r *result.Run) {
	var rows []result.Loss
	for _, l := range r.Waterfall {
		if l.Kind == "loss" && l.PacksPerH < 0 {
			rows = append(rows, l)
		}
	}
	if len(rows) == 0 {
		return
	}
	slices.SortStableFunc(rows, func(a, b result.Loss) int {
		switch {
		case a.PacksPerH < b.PacksPerH:
			return -1
		case a.PacksPerH > b.PacksPerH:
			return 1
		}
		return 0
	})
	s.line(none, "")
	s.line(bold, "greatest losses, packs/h")
	for _, l := range rows[:min(3, len(rows))] {
		s.line(none, "  "+s.left(l.Cause, 60)+s.right(number.Fixed(l.PacksPerH, 0), 9))
	}
}

// waited is what waited longest for a pool in its worst shift.
func waited(rows []result.Staffing, pool string) string {
	most := result.HeldUp{}
	for _, x := range rows {
		if x.Pool == pool && len(x.HoldsUp) > 0 && x.HoldsUp[0].WaitH > most.WaitH {
			most = x.HoldsUp[0]
		}
	}
	if most.WaitH < 0.05 {
		return ""
	}
	return most.Station + " " + number.Fixed(most.WaitH, 1) + " h"
}

func (s *screen) people(r *result.Run) {
	if len(r.People) == 0 {
		return
	}
	s.line(none, "")
	s.line(bold, s.left("people", 18)+s.left("", 15)+s.right("busy", 14)+s.right("no pause for", 13)+"  waited, a shift")
	for i, p := range r.People {
		if i == mostPools-1 && len(r.People) > mostPools {
			s.line(faint, fmt.Sprintf("  and %d more pools: see the page", len(r.People)-i))
			break
		}
		heads := p.Heads + " heads"
		if p.Heads == "1" {
			heads = "1 head"
		}
		s.line(none, "  "+s.left(p.Name, 16)+s.left(" "+heads, 15)+s.right(number.PercentPlusMinus(p.Busy), 14)+s.right(number.Duration(p.LongestS), 13)+"  "+waited(r.Staffing, p.Name))
	}
}

// notes prints the warnings as footnotes, in the lines that are left.
func (s *screen) notes(warnings []result.Warning) {
	if len(warnings) == 0 {
		return
	}
	s.line(none, "")
	for i, n := range warnings {
		mark := fmt.Sprintf("[%d] ", i+1)
		lines := s.wrap(n.Text, columns-len(mark), noteLines)
		if left := mostLines - s.n; len(lines) > left-1 && (i < len(warnings)-1 || len(lines) > left) {
			s.line(alert, fmt.Sprintf("and %d more warnings: see the page", len(warnings)-i))
			return
		}
		for k, line := range lines {
			if k > 0 {
				mark = strings.Repeat(" ", len(mark))
			}
			s.line(alert, mark+line)
		}
	}
}
