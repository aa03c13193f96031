package scenarios

import "strings"

const (
	mostBytes  = 1 << 20
	mostLevels = 64
	mostHints  = 100    // faults of one file for which a likeness is looked for
	mostColons = 10_000 // the YAML parser takes time with the square of the fields
)

// tooDeep finds the first place that lies more than mostLevels deep, by indentation and brackets together. It is told
// before the file is parsed, so that no parser is ever handed a file that is only nesting.
func tooDeep(lines []string) (line, column int, deep bool) {
	var indents []int
	open := 0
	for i, l := range lines {
		body := strings.TrimLeft(l, " ")
		if body == "" || body[0] == '#' {
			continue
		}
		indent := len(l) - len(body)
		if open == 0 {
			for len(indents) > 0 && indents[len(indents)-1] >= indent {
				indents = indents[:len(indents)-1]
			}
			indents = append(indents, indent)
			for strings.HasPrefix(body, "- ") || strings.HasPrefix(body, "? ") {
				body = strings.TrimLeft(body[2:], " ")
				indents = append(indents, len(l)-len(body))
			}
		}
		at := len(indents)
		col, o := scanBrackets(l, len(l)-len(body), open, mostLevels-at)
		if at > mostLevels {
			return i + 1, indent + 1, true
		}
		if col > 0 {
			return i + 1, col, true
		}
		open = o
	}
	return 0, 0, false
}

// scanBrackets counts brackets from byte i of a line on, leaving out comments and quoted text; column is where they
// first outnumber most.
func scanBrackets(l string, i, open, most int) (column, after int) {
	var quoted byte
	for ; i < len(l); i++ {
		c := l[i]
		before := byte(' ')
		if i > 0 {
			before = l[i-1]
		}
		switch {
		case quoted != 0:
			if c == quoted && !(c == '"' && before == '\\') {
				quoted = 0
			}
		case (c == '"' || c == '\'') && strings.IndexByte(" [{,:-", before) >= 0:
			quoted = c
		case c == '#' && (before == ' ' || before == '\t'):
			return 0, open
		case c == '[' || c == '{':
			if open++; open > most {
				return len([]rune(l[:i])) + 1, open
			}
		case c == ']' || c == '}':
			open = max(0, open-1)
		}
	}
	return 0, open
}
