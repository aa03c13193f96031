package page

import (
	"html/template"

	"pascaline/sim/result"
)

// document is a page before it is drawn, whatever kind of results it shows.
type document struct {
	Over       string // what kind of page it is, above the heading; "" for a simulated line
	Title      string // the heading: what was studied
	Tab        string // the title of the browser's tab
	Note       string // the user's own note
	Answer     string // the first sentence
	Incomplete string // why the results are not whole; "" where they are
	Figures    []headFigure
	Sure       string // how sure the figures are
	Notes      []note
	Sections   []section
	Cautions   []string
	Facts      []fact // what is needed to get the same again
}

// fact is a name and a value at the foot of the page.
type fact struct {
	Name, Value string
	Hash        bool // long and without blanks
}

// view is what the template sees.
type view struct {
	document
	Head    result.Head
	Command string
	Tables  template.JS // every table as CSV, in order
	Policy  string      // Content-Security-Policy
	Style   template.CSS
	Library template.JS
	Boot    template.JS
}

// headFigure is one of the great figures under the answer.
type headFigure struct{ Value, Doubt, Unit, Says string }

// note is a warning with its number.
type note struct {
	Number int
	Text   string
}

// section is a heading with what stands under it.
type section struct {
	ID, Title string
	Says      []string // paragraphs before the charts
	Charts    []chart
	Small     bool    // charts side by side
	Replay    *replay // a drawn line that plays, between charts and tables
	Tables    []table
	Text      string   // lines as they stand in a file
	After     []string // paragraphs after the tables
}

// chart is one drawing: options for the library as JSON, and the name of the function in boot.js that gives them their look.
type chart struct {
	ID, Draw string
	Title    string // above a small chart; "" elsewhere
	Label    string // for those who cannot see it
	Caption  string // what it shows
	Rows     int    // bars, from which its height follows; 0: a fixed height
	Options  template.JS
}

// table is a real table. The first column names the row.
type table struct {
	Caption string
	Head    []column
	Rows    [][]string
	Folded  bool // behind a summary on screen
	Foot    string
}

// column is a heading; figures stand to the right.
type column struct {
	Name   string
	Figure bool
}

// Long tells a folded table that paper does without; it stays folded there.
func (t table) Long() bool { return len(t.Rows) > 16 }

// Short tells a table that paper can keep on one page.
func (t table) Short() bool { return len(t.Rows) <= 14 }

// columns makes headings from names of ours; all after the first are figures, except those that begin with "=", which are words. A name that somebody else
// gave, which may begin with anything, is a column as it is.
func columns(names ...string) []column {
	out := make([]column, len(names))
	for i, n := range names {
		out[i] = column{Name: n, Figure: i > 0}
		if n[0] == '=' {
			out[i] = column{Name: n[1:]}
		}
	}
	return out
}
