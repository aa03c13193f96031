package page

import (
	"encoding/json"
	"fmt"
	"html/template"

	"pascaline/report/grid"
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

// Sheet is one table of the page, its figures as numbers.
type Sheet struct {
	Section, Title string // ID and heading of the section
	Caption, Foot  string
	grid.Grid
}

// grid is the table with its figures as numbers.
func (t *table) grid() grid.Grid {
	head, figures := make([]string, len(t.Head)), make([]bool, len(t.Head))
	for i, c := range t.Head {
		head[i], figures[i] = c.Name, c.Figure
	}
	return grid.Of(head, figures, t.Rows)
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
			b.Sheets = append(b.Sheets, Sheet{s.ID, s.Title, t.Caption, t.Foot, t.grid()})
		}
	}
	return b, nil
}

// csv is a JSON list of every table as a CSV file, in the order of the page.
func (d *document) csv() (template.JS, error) {
	texts := []string{}
	for _, s := range d.Sections {
		for _, t := range s.Tables {
			g := t.grid()
			text, err := g.CSV()
			if err != nil {
				return "", fmt.Errorf("table %q: %w", t.Caption, err)
			}
			texts = append(texts, string(text))
		}
	}
	data, err := json.Marshal(texts) // <, > and & become escapes
	return template.JS(data), err
}
