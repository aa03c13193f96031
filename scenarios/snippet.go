package scenarios

import (
	"fmt"
	"slices"
	"strings"
)

// Value is a value for a field of a scenario file, with what stands behind it.
type Value struct {
	Path    string   // names parted by dots, such as vessel.phases.close
	Text    string   // as it is written: "25 s" or "{mean: 25 s, sd: 4 s, as: gamma}"
	Because []string // sentences that are put above it as comments
}

// evidence begins each comment that Put writes for a field, so that a later Put takes the old ones away.
func evidence(path string) string { return "# fit " + path[strings.LastIndexByte(path, '.')+1:] + ": " }

// Snippet writes values as a piece of a scenario file, nested by their paths, in the order in which the first of each group comes.
func Snippet(values []Value) string {
	var b strings.Builder
	writeLevel(&b, values, 0)
	return b.String()
}

func writeLevel(b *strings.Builder, values []Value, depth int) {
	indent := strings.Repeat("  ", depth)
	for i, v := range values {
		name, _, nested := strings.Cut(v.Path, ".")
		if slices.ContainsFunc(values[:i], func(w Value) bool { first, _, _ := strings.Cut(w.Path, "."); return first == name }) {
			continue
		}
		if !nested {
			for _, c := range v.Because {
				fmt.Fprintf(b, "%s%s%s\n", indent, evidence(name), oneLine(c))
			}
			fmt.Fprintf(b, "%s%s: %s\n", indent, name, v.Text)
			continue
		}
		fmt.Fprintf(b, "%s%s:\n", indent, name)
		var under []Value
		for _, w := range values[i:] {
			if r, ok := strings.CutPrefix(w.Path, name+"."); ok {
				under = append(under, Value{Path: r, Text: w.Text, Because: w.Because})
			}
		}
		writeLevel(b, under, depth+1)
	}
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }
