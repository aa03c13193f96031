package scenarios

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"pascaline/scenarios/sheet"
)

// lotColumns are the columns of a table of lots, with the headings that people give them.
var lotColumns = []struct {
	field    string
	headings []string
	need     bool
}{
	{"lot", []string{"lot", "lot number", "lot no", "lot no."}, true},
	{"product", []string{"product"}, false},
	{"quantity", []string{"quantity", "packs"}, true},
	{"ready", []string{"ready"}, false},
	{"due", []string{"due"}, false},
	{"customer", []string{"customer"}, false},
	{"group", []string{"group", "allergen group", "allergen"}, false},
}

// lotTable puts the rows of a CSV or XLSX table in the place of its name: lots: week12.csv. Each cell keeps its place, so that a fault is told
// where it stands in the table.
func (r *reader) lotTable(tree *node) *node {
	p := tree.get("lots")
	if p == nil || p.value.kind != word || p.value.text == "" {
		return tree
	}
	src := r.beside(p.value.at, "lots", p.value)
	rows := &node{kind: refused, at: p.value.at}
	if src != nil {
		src.base = true // a value from it is told with the table's name
		r.sources = append(r.sources, src)
		r.lotRows(src, p.value, rows)
	}
	whole := *tree
	whole.pairs = nil
	for _, q := range tree.pairs {
		if q == p {
			q = &pair{key: p.key, at: p.at, value: rows}
		}
		whole.pairs = append(whole.pairs, q)
	}
	return &whole
}

// lotRows fills the list from the table; it stays refused where the table cannot be read.
func (r *reader) lotRows(src *source, n, rows *node) {
	t := r.table(src, "lots", n, "a CSV or XLSX table of lots", sheet.Options{})
	if t == nil {
		return
	}
	columns := r.lotHead(src, t)
	if columns == nil {
		return
	}
	if len(t.Rows) == 0 {
		r.add(place{src: src, line: 1, column: 1}, "lots", "no lots", "a row for each lot under the headings", "")
		return
	}
	rows.kind = list
	for _, row := range t.Rows {
		rows.items = append(rows.items, lotNode(src, t, row, columns))
	}
}

// lotHead finds the columns; nil where one is missing. What is not used is told.
func (r *reader) lotHead(src *source, t *sheet.Table) []int {
	columns := make([]int, len(lotColumns))
	used := map[int]bool{}
	missing := false
	for i, c := range lotColumns {
		columns[i] = t.Column(c.headings...)
		used[columns[i]] = true
		if columns[i] < 0 && c.need {
			r.add(place{src: src, line: 1, column: 1}, "lots", "no column "+c.field, "a column with one of the headings "+orList(quoted(c.headings)), "")
			missing = true
		}
		if columns[i] >= 0 && !r.lotUnit(src, c.field, t.Head[columns[i]]) {
			missing = true
		}
	}
	for i, h := range t.Head {
		if !used[i] && h.Text != "" {
			r.trail.warn("column not used", fmt.Sprintf("%s: the column %s is not used", src.name, quote(h.Text)))
		}
	}
	if missing {
		return nil
	}
	return columns
}

// lotUnit refuses a heading with a unit in which a lot is not counted; taken as packs, or as moments, its numbers would be wrong without a word.
func (r *reader) lotUnit(src *source, field string, h sheet.Cell) bool {
	unit := strings.ToLower(h.Unit())
	switch {
	case field == "quantity" && !slices.Contains([]string{"", "pack", "packs", "piece", "pieces", "pcs"}, unit):
		r.add(cellPlace(src, h), "lots", quote(h.Text), `packs, under a heading such as "quantity" or "quantity (packs)"`,
			"write packs: cases times packs_per_case, carriers times packs_per_carrier")
		return false
	case (field == "ready" || field == "due") && sheet.IsTimeUnit(unit):
		r.add(cellPlace(src, h), "lots", quote(h.Text), fmt.Sprintf("moments, under the heading %q", field),
			"write a time of the week, such as Tue 14:00, a day, such as 2026-03-17 14:00, or a time from the start with its unit in the cell, such as 30 h")
		return false
	}
	return true
}

// lotNode is one row as a lot would be written. Empty cells are fields that are left out.
func lotNode(src *source, t *sheet.Table, row sheet.Row, columns []int) *node {
	at := place{src: src, line: row.Number, column: 1}
	n := &node{kind: group, at: at}
	for i, c := range lotColumns {
		cell := row.At(columns[i])
		if cell.Text == "" {
			continue
		}
		where := cellPlace(src, cell)
		text := cell.Text
		if c.field == "quantity" {
			text = wholeCount(text)
		}
		if m, fault := t.Moment(cell); (c.field == "ready" || c.field == "due") && fault == nil && strings.Contains(text, ":") { // a day alone is no moment
			text = m.Format("2006-01-02 15:04")
		}
		n.pairs = append(n.pairs, &pair{key: c.field, at: where, value: &node{kind: word, text: strings.TrimSpace(text), quoted: true, at: where}})
	}
	return n
}

var zeroDecimals = regexp.MustCompile(`^([0-9]+)[.,]0{1,2}$`)

// wholeCount takes off the decimals that spreadsheets put behind whole numbers: 6300,0 and 6300.00 are 6300. Three zeros are left, since they
// may be thousands.
func wholeCount(text string) string { return zeroDecimals.ReplaceAllString(text, "$1") }
