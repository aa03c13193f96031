package export

import (
	"fmt"

	"pascaline/report/grid"
	"pascaline/report/number"
	"pascaline/report/page"
	"pascaline/sim/result"
)

// The names of the tables that every export has, and of those that go into the second.
const (
	answerName      = "Answer"
	assumptionsName = "Assumptions and seed"
	valuesName      = "All values"
	assumptionsID   = "assumptions" // the section of the page
)

// book is all that an export holds: the answer, what it rests on, the tables of the page, every value in full.
type book struct {
	answer, grounds []pair
	assumptions     []table
	tables          []table
	values          table
}

// table is a table of the page with its figures as numbers.
type table struct {
	title, caption, foot string // title is the heading of its section
	grid.Grid
}

// pair is a line of what is no table: a heading where it has no value.
type pair struct{ name, value string }

// bookOf gathers the export of results. A number that is not finite is an error that names its field.
func bookOf(r result.Results, command string) (*book, error) {
	b, err := page.Contents(r)
	if err != nil {
		return nil, err
	}
	out := &book{answer: answerOf(b), grounds: groundsOf(b, command), values: valuesOf(r)}
	for _, s := range b.Sheets {
		if t := (table{s.Title, s.Caption, s.Foot, s.Grid}); s.Section == assumptionsID {
			out.assumptions = append(out.assumptions, t)
		} else {
			out.tables = append(out.tables, t)
		}
	}
	return out, nil
}

func answerOf(b *page.Book) []pair {
	out := []pair{{"Scenario", b.Title}}
	add := func(name, value string) {
		if value != "" {
			out = append(out, pair{name, value})
		}
	}
	add("Note", b.Note)
	add("Answer", b.Answer)
	add("Incomplete", b.Incomplete)
	for _, f := range b.Figures {
		add(f[1], f[0])
	}
	add("How sure", b.Sure)
	for i, w := range b.Warnings {
		add(fmt.Sprintf("Warning %d", i+1), w)
	}
	for i, c := range b.Cautions {
		add(fmt.Sprintf("Caution %d", i+1), c)
	}
	return out
}

func groundsOf(b *page.Book, command string) []pair {
	var out []pair
	for _, f := range b.Facts {
		out = append(out, pair{f[0], f[1]})
	}
	if command != "" {
		out = append(out, pair{"Command", number.Plain(command)})
	}
	return append(out, pair{"Figures", "In the tables they are as precise as the page prints them; \"" + valuesName + "\" has them in full, named as in results.json."})
}
