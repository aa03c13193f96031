package page

import (
	"fmt"

	"pascaline/sim/result"
)

// Book is what a page says, without its look: for exports, which must not tell another story than the page.
type Book struct {
	Title, Note, Answer, Incomplete, Sure string

	Figures            [][2]string // value with its doubt and unit, what it is
	Facts              [][2]string // what is needed to get the same again: the seed among them
	Warnings, Cautions []string
	Sheets             []Sheet
}

// Sheet is one table of the page. Figures tells the columns that hold figures.
type Sheet struct {
	Section, Title string // ID and heading of the section
	Caption, Foot  string
	Head           []string
	Figures        []bool
	Rows           [][]string
}

// Contents gives what the page of r says. Errors are those of Write.
func Contents(r result.Results) (*Book, error) {
	d, err := documentOf(r)
	if err != nil {
		return nil, fmt.Errorf("nothing to export: %w", err)
	}
	b := &Book{Title: d.Title, Note: d.Note, Answer: d.Answer, Incomplete: d.Incomplete, Sure: d.Sure, Cautions: d.Cautions}
	b.Facts = append(b.Facts, [2]string{"Program", r.Top().Program + " " + r.Top().ProgramVersion})
	for _, f := range d.Facts {
		b.Facts = append(b.Facts, [2]string{f.Name, f.Value})
	}
	for _, f := range d.Figures {
		value := f.Value
		for _, more := range []string{f.Doubt, f.Unit} {
			if more != "" {
				value += " " + more
			}
		}
		b.Figures = append(b.Figures, [2]string{value, f.Says})
	}
	for _, n := range d.Notes {
		b.Warnings = append(b.Warnings, n.Text)
	}
	for _, s := range d.Sections {
		for _, t := range s.Tables {
			one := Sheet{Section: s.ID, Title: s.Title, Caption: t.Caption, Foot: t.Foot, Rows: t.Rows}
			for _, c := range t.Head {
				one.Head, one.Figures = append(one.Head, c.Name), append(one.Figures, c.Figure)
			}
			b.Sheets = append(b.Sheets, one)
		}
	}
	return b, nil
}
