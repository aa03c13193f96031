package scenarios

import (
	"fmt"
	"slices"
	"strings"
)

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
	indent := at.at.column - 1
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
	depth := 0
	for l := from.line; l <= len(s.lines); l++ {
		r := []rune(s.line(l))
		first := 0
		if l == from.line {
			first = from.column - 1
		}
		for i := first; i < len(r); i++ {
			c := r[i]
			switch {
			case (c == '"' || c == '\'') && beginsWord(r[:i]):
				j := endOfQuotes(r, i)
				if j < 0 {
					return place{}, fmt.Errorf("line %d has a text in quotes that goes on; write it on one line, or put the new value in by hand", l)
				}
				i = j
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

// beginsWord tells whether a word begins behind what stands on the line before it: a quotation mark within a word, as in Bob's, is a letter.
func beginsWord(before []rune) bool {
	t := strings.TrimRight(string(before), " ")
	return t == "" || strings.ContainsRune("{[,:-", rune(t[len(t)-1])) && (len(t) < len(string(before)) || strings.ContainsRune("{[,", rune(t[len(t)-1])))
}

// endOfQuotes is the index of the mark that ends the text in quotes which begins at index i; -1 where it does not end on this line.
func endOfQuotes(r []rune, i int) int {
	for j := i + 1; j < len(r); j++ {
		switch {
		case r[i] == '"' && r[j] == '\\', r[i] == '\'' && r[j] == '\'' && j+1 < len(r) && r[j+1] == '\'':
			j++
		case r[j] == r[i]:
			return j
		}
	}
	return -1
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
		if !isEvidence(l, v.Path) {
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

// isEvidence tells a comment that Put wrote for a field, or for the whole stop that it is a field of.
func isEvidence(line string, path []string) bool {
	line = strings.TrimLeft(line, " ")
	return strings.HasPrefix(line, evidence(path)) || len(path) == 3 && strings.HasPrefix(line, evidence(path[:2])) && path[0] == "stops"
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
		inner = p.key + ": " + InBraces(p.value.text) + ", " + inner
	}
	if !braces && !slices.ContainsFunc(old.pairs, func(p *pair) bool { return !slices.Contains(lawFields, p.key) && p.key != "as" }) {
		return text
	}
	return "{" + inner
}
