package text

import (
	"strings"

	"pascaline/report/number"
)

// style is how a line is set off where the terminal has colours.
type style string

const (
	none  style = ""
	bold  style = "\x1b[1m"
	faint style = "\x1b[2m"
	alert style = "\x1b[33m"
	reset       = "\x1b[0m"
)

// screen gathers lines and knows what the terminal can show.
type screen struct {
	o Options
	b strings.Builder
	n int // lines so far
}

// line adds a line, cut to the width of the screen, without blanks at its end.
func (s *screen) line(look style, words string) {
	words = strings.TrimRight(s.cut(s.letters(words), columns), " ")
	if s.o.Colour && look != none && words != "" {
		words = string(look) + words + reset
	}
	s.b.WriteString(words + "\n")
	s.n++
}

// says adds words as lines of the screen's width, so many at most.
func (s *screen) says(look style, words string, most int) {
	for _, l := range s.wrap(words, columns, most) {
		s.line(look, l)
	}
}

// letters puts words in what the terminal can show.
func (s *screen) letters(words string) string {
	if s.o.Unicode {
		return words
	}
	words = ascii.Replace(words)
	return strings.Map(func(r rune) rune {
		if r > '~' {
			return '?'
		}
		return r
	}, words)
}

var ascii = strings.NewReplacer("±", "+/-", "–", "-", "−", "-", "…", "...", "×", "x", "“", `"`, "”", `"`, "’", "'", "‘", "'", "\u00a0", " ")

// tail marks that something was left out.
func (s *screen) tail() string {
	if s.o.Unicode {
		return "…"
	}
	return "..."
}

func (s *screen) cut(words string, width int) string { return number.Cut(words, width, s.tail()) }

// left fills words up to a width, or cuts them to it.
func (s *screen) left(words string, width int) string {
	words = s.cut(s.letters(words), width)
	return words + strings.Repeat(" ", max(0, width-number.Width(words)))
}

// right sets words against the right edge of a width.
func (s *screen) right(words string, width int) string {
	words = s.letters(words)
	return strings.Repeat(" ", max(0, width-number.Width(words))) + words
}

// row is a line of the station table: a name, six figures, and a remark.
func (s *screen) row(name string, cells ...string) string {
	out := s.left(name, nameColumns)
	for i, c := range cells {
		if i == len(cells)-1 {
			return out + "  " + c
		}
		out += s.right(c, []int{8, 11, 8, 8, 8, 6}[i])
	}
	return out
}

// wrap breaks words into lines of a width, at most so many; the last is cut where more was left.
func (s *screen) wrap(words string, width, most int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s.letters(words)) {
		switch {
		case line == "":
			line = word
		case number.Width(line)+1+number.Width(word) <= width:
			line += " " + word
		default:
			lines, line = append(lines, line), word
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	if len(lines) > most {
		lines = lines[:most]
		lines[most-1] += s.tail()
	}
	for i := range lines {
		if number.Width(lines[i]) > width {
			lines[i] = s.cut(strings.TrimSuffix(lines[i], s.tail()), width)
		}
	}
	return lines
}
