package scenarios

import "testing"

// What PowerShell, the Windows prompt and Unix shells make of text between double quotes, by their manuals: ` $ and quote marks (PowerShell takes curly ones,
// too), ! (bash's history), %NAME% (the prompt), \\ twice or before the closing quote.
func TestPasted(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       bool
	}{
		{"words", "hire instead, one station", true},
		{"signs that quotes hold", "A & B (5 | 6) <7> ^8; it's #1 @ 9 {x} [y] *?~=+", true},
		{"percentages", "10 % faster, 5 % wetter", true},
		{"one stroke", `a\b c`, true},
		{"another script", "упаковка, 2-я линия", true},
		{"backtick", "a`touch a`", false},
		{"dollar", "b$(touch b)", false},
		{"inches", `12" belt`, false},
		{"curly quotes", "12” belt", false},
		{"history", "faster!", false},
		{"variable of the prompt", "for %PATH%", false},
		{"stroke before the closing quote", `ends in \`, false},
		{"two strokes", `a\\b`, false},
		{"line break", "two\nlines", false},
		{"line separator", "two\u2028lines", false},
		{"escape", "\x1b[2J", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := Pasted(c.text); got != c.want {
				t.Errorf("%q: %t, want %t", c.text, got, c.want)
			}
		})
	}
}
