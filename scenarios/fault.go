package scenarios

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"pascaline/scenarios/sheet"
)

// Fault is one thing wrong with a scenario file.
type Fault struct {
	File    string // as it was named, or the base or data file in which the value stands
	Line    int    // from 1
	Column  int    // from 1, in characters
	Path    string // the field, such as roster.shifts.early.hours; empty for the file as a whole
	Found   string // what stands there
	Want    string // what is wanted there
	Hint    string // why, or what was probably meant
	Excerpt string // the line as it stands in the file
}

// Headline is the fault in one line, without the excerpt. Whatever stands in the file, a terminal shows it and does nothing else.
func (f Fault) Headline() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s:%d:%d: ", f.File, f.Line, f.Column)
	if f.Path != "" {
		fmt.Fprintf(&b, "%s: ", f.Path)
	}
	fmt.Fprintf(&b, "found %s, want %s", f.Found, f.Want)
	if f.Hint != "" {
		fmt.Fprintf(&b, " (%s)", f.Hint)
	}
	return sheet.Harmless(b.String())
}

const (
	excerptBefore = 60 // characters of a long line shown before the caret
	excerptAfter  = 50
)

// Error is the fault with its line and a caret under its place.
func (f Fault) Error() string {
	if f.Excerpt == "" {
		return f.Headline()
	}
	line, column := cutLine(f.Excerpt, f.Column)
	number := fmt.Sprintf("%4d", f.Line)
	return fmt.Sprintf("%s\n%s | %s\n%s | %s^", f.Headline(), number, sheet.Harmless(line), strings.Repeat(" ", len(number)), lead(line, column))
}

// String is the same as Error.
func (f Fault) String() string { return f.Error() }

// cutLine shortens a long line around the column, so that the caret stays on the screen.
func cutLine(line string, column int) (string, int) {
	r := []rune(line)
	from, to := 0, len(r)
	if column-1 > excerptBefore+excerptAfter {
		from = min(column-1-excerptBefore, len(r))
	}
	if to-from > 2*(excerptBefore+excerptAfter) {
		to = from + 2*(excerptBefore+excerptAfter)
	}
	s, shift := string(r[from:to]), from
	if from > 0 {
		s, shift = "…"+s, from-1
	}
	if to < len(r) {
		s += "…"
	}
	return s, column - shift
}

// lead is the white space before the caret: a tab where the line has a tab, so that both lines up on every terminal.
func lead(line string, column int) string {
	var b strings.Builder
	for i, r := range []rune(line) {
		if i >= column-1 {
			break
		}
		if r == '\t' {
			b.WriteByte('\t')
		} else {
			b.WriteByte(' ')
		}
	}
	if n := column - 1 - utf8.RuneCountInString(line); n > 0 {
		b.WriteString(strings.Repeat(" ", n))
	}
	return b.String()
}

// inOrder sorts faults by place, the file that was asked for first, and drops what is said twice.
func inOrder(main string, faults []Fault) []Fault {
	slices.SortStableFunc(faults, func(a, b Fault) int {
		return cmp.Or(
			cmp.Compare(btoi(a.File != main), btoi(b.File != main)), cmp.Compare(a.File, b.File),
			cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return slices.Compact(faults)
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}
