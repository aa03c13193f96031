package scenarios

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"pascaline/scenarios/units"
)

const mostReadings = 1_000_000

// readings are the values of one column of a CSV file beside the scenario, in seconds, sorted.
func (r *reader) readings(path string, n *node, column string) []float64 {
	p := n.get("file")
	src := r.beside(p.value.at, join(path, "file"), p.value)
	if src == nil {
		return nil
	}
	r.sources = append(r.sources, src)
	t := table{r: r, src: src, path: path, rows: csv.NewReader(strings.NewReader(src.text()))}
	head, ok := t.next()
	if !ok {
		if !t.failed {
			r.add(place{src: src, line: 1, column: 1}, path, "an empty file", "a line of headings, then one reading a line", "")
		}
		return nil
	}
	i := t.column(head, column, n)
	if i < 0 {
		return nil
	}
	scale, ok := t.unit(head[i], i)
	if !ok {
		return nil
	}
	values := t.values(i, scale)
	if t.failed {
		return nil
	}
	if len(values) == 0 {
		r.add(place{src: src, line: 1, column: 1}, path, "no readings", "one reading a line under the headings", "")
		return nil
	}
	slices.Sort(values)
	return values
}

// table is a CSV file while it is read.
type table struct {
	r      *reader
	src    *source
	path   string
	rows   *csv.Reader
	failed bool
}

func (t *table) fault(line, column int, found, want, hint string) {
	t.failed = true
	t.r.add(place{src: t.src, line: line, column: column}, t.path, found, want, hint)
}

func (t *table) next() ([]string, bool) {
	row, err := t.rows.Read()
	var p *csv.ParseError
	switch {
	case err == io.EOF:
		return nil, false
	case errors.As(err, &p):
		hint := p.Err.Error()
		if strings.Contains(t.src.line(1), ";") {
			hint = "cells are parted by commas here, and numbers have a decimal point"
		}
		t.fault(p.Line, max(1, p.Column), "a line that does not fit the others", "cells parted by commas, as many as there are headings", hint)
		return nil, false
	case err != nil:
		t.fault(1, 1, "a file that cannot be read", "CSV", err.Error())
		return nil, false
	}
	return row, true
}

// place of a cell of the row read last.
func (t *table) cell(i int) (line, column int) {
	line, bytes := t.rows.FieldPos(i)
	text := t.src.line(line)
	return line, len([]rune(text[:min(bytes-1, len(text))])) + 1
}

// column finds the named column, or the only one.
func (t *table) column(head []string, name string, n *node) int {
	names := make([]string, len(head))
	for i, h := range head {
		names[i] = strings.TrimSpace(h)
		if names[i] == name || name != "" && withoutUnit(names[i]) == name {
			return i
		}
	}
	if name == "" && len(head) == 1 {
		return 0
	}
	if p := n.get("column"); p != nil {
		t.r.add(p.value.at, join(t.path, "column"), quote(name), "one of the headings "+orList(quoted(names)), didYouMean(name, withoutUnits(names)))
		return -1
	}
	t.r.add(n.get("file").value.at, t.path, "a file of several columns", "column: one of "+orList(quoted(names)), "")
	return -1
}

var unitInHead = regexp.MustCompile(`^(.*?) ?\(([^()]*)\)$`)

func withoutUnits(heads []string) []string {
	all := slices.Clone(heads)
	for _, h := range heads {
		all = append(all, withoutUnit(h))
	}
	return all
}

func withoutUnit(head string) string {
	if m := unitInHead.FindStringSubmatch(head); m != nil {
		return m[1]
	}
	return head
}

// unit is the number of seconds in the unit that a heading names.
func (t *table) unit(head string, i int) (float64, bool) {
	word := strings.TrimSpace(head)
	if m := unitInHead.FindStringSubmatch(word); m != nil {
		word = strings.TrimSpace(m[2])
	}
	switch word {
	case "s", "seconds":
		return 1, true
	case "min", "minutes":
		return 60, true
	case "h", "hours":
		return 3600, true
	case "ms", "milliseconds":
		return 0.001, true
	}
	line, column := t.cell(i)
	t.fault(line, column, quote(head), `a heading with its unit, such as "hand time (s)" or "seconds"`, "")
	return 0, false
}

func (t *table) values(i int, scale float64) []float64 {
	var values []float64
	for {
		row, ok := t.next()
		if !ok {
			return values
		}
		if len(values) >= mostReadings {
			t.fault(1, 1, "more than a million readings", "at most a million", "")
			return nil
		}
		v, hint := reading(row[i])
		if hint != "" {
			line, column := t.cell(i)
			t.fault(line, column, quote(row[i]), "a plain number, in the unit of the heading", hint)
			continue
		}
		values = append(values, v*scale)
	}
}

func reading(cell string) (float64, string) {
	cell = strings.TrimSpace(cell)
	if strings.Contains(cell, ",") {
		return 0, fmt.Sprintf("a decimal comma; write %s", strings.Replace(cell, ",", ".", 1))
	}
	v, err := strconv.ParseFloat(cell, 64)
	switch {
	case cell == "":
		return 0, "the cell is empty"
	case err != nil || math.IsNaN(v) || math.IsInf(v, 0) || strings.ContainsAny(cell, "xX_pP"):
		return 0, "not a number"
	case v < 0:
		return 0, "below zero"
	case v*1 > (366 * units.Day).Seconds():
		return 0, "longer than a year"
	}
	return v, ""
}
