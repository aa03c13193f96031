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

// Put lays values into the text of a scenario file and leaves all else as it is, comments too. Fields that describe no
// distribution, such as per and by, stay as they were unless the new value has them. The errors say what could not be placed; the text
// is nil then. The caller reads the result before it is kept.
func Put(name string, src []byte, values []Value) ([]byte, error) {
	for _, v := range values {
		var faults faultList
		s := newSource(name, name, src)
		tree := parse(s, &faults)
		if tree == nil || len(faults.faults) > 0 {
			return nil, fmt.Errorf("%s is not a scenario that can be read; \"pascaline check\" says what is wrong", name)
		}
		lines, err := putOne(s, tree, v)
		if err != nil {
			return nil, fmt.Errorf("%s: %s: %w", name, v.Path, err)
		}
		src = []byte(strings.Join(lines, "\n"))
	}
	return src, nil
}

// putOne gives the lines of the file with one value in its place.
func putOne(s *source, tree *node, v Value) ([]string, error) {
	names := strings.Split(v.Path, ".")
	n, depth := tree, 0
	var at *pair
	for depth < len(names) {
		if n.kind == list {
			item := itemNamed(n, names[depth])
			if item == nil {
				return addItem(s, n, v)
			}
			n, depth = item, depth+1
			continue
		}
		p := n.get(names[depth])
		if p == nil {
			break
		}
		at, n, depth = p, p.value, depth+1
		if n.kind != group && n.kind != list && depth < len(names) {
			return nil, fmt.Errorf("line %d holds %s where a group is wanted", p.at.line, n.show())
		}
	}
	switch {
	case depth == len(names):
		return replace(s, at, v)
	case at == nil && names[0] == "stops": // the one list that Put knows
		lines := append(trimEnd(s.lines), "stops:")
		for _, c := range v.Because {
			lines = append(lines, "  "+evidence(v.Path)+oneLine(c))
		}
		return append(lines, "  - "+v.Text, ""), nil
	case at == nil:
		return slices.Concat(trimEnd(s.lines), strings.Split(strings.TrimRight(Snippet([]Value{v}), "\n"), "\n"), []string{""}), nil
	}
	rest := Value{Path: strings.Join(names[depth:], "."), Text: v.Text, Because: v.Because}
	return addUnder(s, at, rest)
}

func itemNamed(n *node, name string) *node {
	i := slices.IndexFunc(n.items, func(x *node) bool { return nameOf(x) == name })
	if i < 0 {
		return nil
	}
	return n.items[i]
}

// addItem puts a new item at the end of a list whose items stand on lines of their own.
func addItem(s *source, n *node, v Value) ([]string, error) {
	if n.flow || len(n.items) == 0 {
		return nil, fmt.Errorf("line %d: the list stands between brackets; put the new one in by hand", n.at.line)
	}
	last := n.items[len(n.items)-1].at
	dash := strings.IndexByte(s.line(last.line), '-')
	end := last.line
	for i := last.line + 1; i <= len(s.lines); i++ {
		l := strings.TrimLeft(s.line(i), " ")
		if l != "" && len(s.line(i))-len(l) <= dash {
			break
		}
		if l != "" {
			end = i
		}
	}
	indent := strings.Repeat(" ", max(0, dash))
	var add []string
	for _, c := range v.Because {
		add = append(add, indent+evidence(v.Path)+oneLine(c))
	}
	return slices.Concat(s.lines[:end], append(add, indent+"- "+v.Text), s.lines[end:]), nil
}

func trimEnd(lines []string) []string {
	for len(lines) > 0 && strings.TrimSpace(lines[len(lines)-1]) == "" {
		lines = lines[:len(lines)-1]
	}
	return lines
}

// replace puts a value where the old one stands.
func replace(s *source, at *pair, v Value) ([]string, error) {
	from := at.value.at
	text := keepOthers(at.value, v.Text)
	if from.line == at.at.line {
		line := s.line(from.line)
		end, err := endOfValue(s, from)
		if err != nil {
			return nil, err
		}
		last := s.line(end.line)
		start := cutRunes(line, from.column-1)
		tail := last[len(cutRunes(last, end.column-1)):]
		return withComments(s.lines, from.line, end.line, start+text+tail, v), nil
	}
	line := s.line(at.at.line)
	indent := len(line) - len(strings.TrimLeft(line, " "))
	end := at.at.line
	for i := at.at.line + 1; i <= len(s.lines); i++ {
		l := strings.TrimLeft(s.line(i), " ")
		if l == "" {
			continue
		}
		if len(s.line(i))-len(l) <= indent {
			break
		}
		end = i
	}
	key, comment := line, ""
	if i := strings.Index(line, " #"); i >= 0 {
		key, comment = strings.TrimRight(line[:i], " "), "   "+strings.TrimLeft(line[i:], " ")
	}
	for i := at.at.line + 1; i <= end; i++ {
		if l := s.line(i); strings.Contains(l, "#") {
			return nil, fmt.Errorf("line %d has a comment inside the old value; write the old value on one line, or put the new one in by hand", i)
		}
	}
	return withComments(s.lines, at.at.line, end, key+" "+text+comment, v), nil
}

func cutRunes(s string, n int) string {
	r := []rune(s)
	return string(r[:min(n, len(r))])
}

// endOfValue is the place behind a value that begins on the line of its name.
func endOfValue(s *source, from place) (place, error) {
	depth, quoted := 0, rune(0)
	for l := from.line; l <= len(s.lines); l++ {
		r := []rune(s.line(l))
		for i := range r {
			if l == from.line && i < from.column-1 {
				continue
			}
			c := r[i]
			switch {
			case quoted != 0:
				if c == quoted {
					quoted = 0
				}
			case c == '"' || c == '\'':
				quoted = c
			case c == '{' || c == '[':
				depth++
			case (c == '}' || c == ']' || c == ',') && depth == 0, c == '#' && depth == 0 && i > 0 && r[i-1] == ' ':
				return place{line: l, column: trimmed(r[:i]) + 1}, nil
			case c == '#' && i > 0 && r[i-1] == ' ':
				return place{}, fmt.Errorf("line %d has a comment inside the old value; put the new one in by hand", l)
			case c == '}' || c == ']':
				if depth--; depth == 0 {
					return place{line: l, column: i + 2}, nil
				}
			}
		}
		if depth == 0 {
			return place{line: l, column: trimmed(r) + 1}, nil
		}
	}
	return place{}, fmt.Errorf("line %d has brackets that do not close", from.line)
}

func trimmed(r []rune) int { return len([]rune(strings.TrimRight(string(r), " \t"))) }

// withComments replaces lines from to end by one, with comments above it in place of the ones that Put wrote before.
func withComments(lines []string, from, end int, line string, v Value) []string {
	block := from - 1
	for block > 0 && strings.HasPrefix(strings.TrimLeft(lines[block-1], " "), "# fit ") {
		block--
	}
	before := slices.Clone(lines[:block])
	for _, l := range lines[block : from-1] {
		if !strings.HasPrefix(strings.TrimLeft(l, " "), evidence(v.Path)) {
			before = append(before, l)
		}
	}
	indent := line[:len(line)-len(strings.TrimLeft(line, " "))]
	var comments []string
	for _, c := range v.Because {
		comments = append(comments, indent+evidence(v.Path)+oneLine(c))
	}
	return slices.Concat(before, comments, []string{line}, lines[end:])
}

// keepOthers adds to a new value in braces what the old one has beside its distribution, such as by and per.
func keepOthers(old *node, text string) string {
	if old.kind != group {
		return text
	}
	inner, braces := strings.CutPrefix(text, "{")
	if !braces {
		inner = "mean: " + text + ", as: constant}"
	}
	for _, p := range old.pairs {
		if slices.Contains(lawFields, p.key) || p.key == "as" || p.value.kind != word || strings.Contains(inner, p.key+":") {
			continue
		}
		value := p.value.text
		if p.value.quoted {
			value = quote(value)
		}
		inner = p.key + ": " + value + ", " + inner
	}
	if !braces && !slices.ContainsFunc(old.pairs, func(p *pair) bool { return !slices.Contains(lawFields, p.key) && p.key != "as" }) {
		return text
	}
	return "{" + inner
}

// addUnder puts a value under a group that is there.
func addUnder(s *source, at *pair, v Value) ([]string, error) {
	group := at.value
	if !group.flow {
		if len(group.pairs) == 0 {
			return nil, fmt.Errorf("line %d is empty", at.at.line)
		}
		first := group.pairs[0].at
		indent := strings.Repeat(" ", first.column-1)
		var add []string
		for _, l := range strings.Split(strings.TrimRight(Snippet([]Value{v}), "\n"), "\n") {
			add = append(add, indent+l)
		}
		return slices.Concat(s.lines[:first.line-1], add, s.lines[first.line-1:]), nil
	}
	names := strings.Split(v.Path, ".")
	text := v.Text
	for i := len(names) - 1; i > 0; i-- {
		text = "{" + names[i] + ": " + text + "}"
	}
	line := s.line(group.at.line)
	start := cutRunes(line, group.at.column)
	rest := line[len(start):]
	comma := ", "
	if strings.HasPrefix(strings.TrimLeft(rest, " "), "}") {
		comma = ""
	}
	return withComments(s.lines, group.at.line, group.at.line, start+names[0]+": "+text+comma+rest, v), nil
}
