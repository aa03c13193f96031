package scenarios

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// Value is a value for a field of a scenario file, with what stands behind it.
type Value struct {
	Path    []string // names, such as vessel, phases, close; a stop is called by StopKey: stops, tip/jam, every. A whole stop has no third name
	Text    string   // as it is written: "25 s" or "{mean: 25 s, sd: 4 s, as: gamma}"
	Because []string // sentences that are put above it as comments
}

// WholeStop tells a stop with all its fields from a field.
func (v Value) WholeStop() bool { return len(v.Path) == 2 && v.Path[0] == "stops" }

// FieldPath is the path of a field that is written with dots, such as tip.swap.
func FieldPath(field string) []string { return strings.Split(field, ".") }

// evidence begins each comment that Put writes for a field, so that a later Put takes the old ones away. A whole stop is called by its name alone.
func evidence(path []string) string {
	name := path[len(path)-1]
	if len(path) == 2 && path[0] == "stops" {
		_, name, _ = strings.Cut(name, "/")
	}
	return evidenceOf(name)
}

func evidenceOf(name string) string { return "# fit " + oneLine(name) + ": " }

// Snippet writes values as a piece of a scenario file, nested by their paths, in the order in which the first of each group comes.
func Snippet(values []Value) string {
	var b strings.Builder
	writeLevel(&b, values, 0)
	return b.String()
}

func writeLevel(b *strings.Builder, values []Value, depth int) {
	indent := strings.Repeat("  ", depth)
	for i, v := range values {
		name := v.Path[0]
		if slices.ContainsFunc(values[:i], func(w Value) bool { return w.Path[0] == name }) {
			continue
		}
		if len(v.Path) == 1 {
			for _, c := range v.Because {
				fmt.Fprintf(b, "%s%s%s\n", indent, evidence(v.Path), oneLine(c))
			}
			fmt.Fprintf(b, "%s%s: %s\n", indent, nameText(name), v.Text)
			continue
		}
		fmt.Fprintf(b, "%s%s:\n", indent, nameText(name))
		var under []Value
		for _, w := range values[i:] {
			if w.Path[0] == name && len(w.Path) > 1 {
				under = append(under, Value{Path: w.Path[1:], Text: w.Text, Because: w.Because})
			}
		}
		writeLevel(b, under, depth+1)
	}
}

// StopList writes whole stops as the list of a scenario file; nothing where there are none.
func StopList(stops []Value) string {
	var b strings.Builder
	for i, v := range stops {
		if i == 0 {
			b.WriteString("stops:\n")
		}
		for _, c := range v.Because {
			b.WriteString("  " + evidence(v.Path) + oneLine(c) + "\n")
		}
		b.WriteString("  - " + v.Text + "\n")
	}
	return b.String()
}

// Comment writes a sentence as a line of comment, after as many spaces as are asked for.
func Comment(spaces int, sentence string) string {
	return "#" + strings.Repeat(" ", spaces) + oneLine(sentence) + "\n"
}

// InBraces writes a name or another word so that it is read as the same word between braces.
func InBraces(word string) string { return scalar(word, true) }

// oneLine is a text without line breaks and without signs that no editor shows.
func oneLine(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) {
			return r
		}
		return '?'
	}, strings.Join(strings.Fields(s), " "))
}
