package study

import (
	"fmt"
	"slices"
	"strings"

	"pascaline/scenarios"
	"pascaline/sim/line"
	"pascaline/sim/result"
)

// NotAlike is a pair of scenarios that cannot be compared.
type NotAlike struct{ Text string }

// Error says why, and what to do.
func (e *NotAlike) Error() string { return e.Text }

// alike refuses scenarios whose replications are not the same stretch of a plant's time, and gives the doubts about those that can be compared.
func alike(list []Entrant) ([]result.Warning, error) {
	var doubts []result.Warning
	if len(list) < 2 {
		return nil, &NotAlike{"one scenario is compared with nothing: name another"}
	}
	base := list[0]
	for _, e := range list[1:] {
		a, b := base.Model.Scenario(), e.Model.Scenario()
		if a.Run.OneReplication != b.Run.OneReplication {
			return nil, &NotAlike{fmt.Sprintf("one replication of %q is %s, of %q %s: their filling and emptying weigh differently, so no difference between them would mean anything; state the same run.one_replication in both",
				base.Name, lengthOf(a), e.Name, lengthOf(b))}
		}
		doubts = append(doubts, unlike(base.Name, e.Name, scenarios.Differ([]*scenarios.Scenario{a, b}))...)
	}
	return doubts, nil
}

// unlike warns of fields that make two scenarios hard to compare, those of one meaning together.
func unlike(base, name string, fields []scenarios.Differing) []result.Warning {
	var texts, where []string
	for _, x := range fields {
		text := tellsApart(x.Where)
		i := slices.Index(texts, text)
		switch {
		case text == "":
		case i < 0:
			texts, where = append(texts, text), append(where, fmt.Sprintf("%s (%s, not %s)", x.Where, x.Values[1], x.Values[0]))
		case !strings.HasSuffix(where[i], " and more"):
			where[i] += " and more"
		}
	}
	var list []result.Warning
	for i, text := range texts {
		list = warn(list, "not alike", "%s differs from %s in %s: %s", name, base, where[i], text)
	}
	return list
}

// otherEnds refuses lines of which one ends with carriers and another with packs: there is no rate that both have.
func (c *comparison) otherEnds(records []*line.Record) error {
	ends := func(r *line.Record) string {
		if r.Stretches[len(r.Stretches)-1].Piece == "carriers" {
			return "carriers"
		}
		return "packs"
	}
	for i, r := range records {
		if a, b := ends(records[0]), ends(r); a != b {
			return &NotAlike{fmt.Sprintf("the line of %q ends with %s, that of %q with %s: there is no rate to compare; let both end at the same place", c.list[0].Name, a, c.list[i].Name, b)}
		}
	}
	return nil
}

func lengthOf(s *scenarios.Scenario) string {
	if s.Run.OneReplication.UntilFinished {
		return "until finished"
	}
	return s.Run.OneReplication.For.String()
}

// tellsApart says what it means that a field differs, "" where it is a change of the line like any other.
func tellsApart(path string) string {
	switch {
	case path == "run.starts":
		return "they begin at different times of the week."
	case strings.HasPrefix(path, "roster.shifts") && !strings.Contains(path, ".people."), path == "roster.days", path == "roster.overnight", path == "roster":
		return "rates are per rostered hour of each, so a longer day is not seen in them."
	case path == "product.packs_per_case", path == "product.pack.mass":
		return "they count different things."
	case path == "cold_chain.from":
		return "their times out of the chilled store begin at different moments."
	}
	return ""
}

func addOnce(list []result.Warning, w result.Warning) []result.Warning {
	for _, x := range list {
		if x == w {
			return list
		}
	}
	return append(list, w)
}

// differing lists the values in which the scenarios differ.
func differing(list []Entrant) []result.Differing {
	var all []*scenarios.Scenario
	for _, e := range list {
		all = append(all, e.Model.Scenario())
	}
	out := []result.Differing{}
	for _, x := range scenarios.Differ(all) {
		out = append(out, result.Differing{Where: x.Where, Values: x.Values})
	}
	return out
}
