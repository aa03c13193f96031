package scenarios

import (
	"regexp"
	"strings"
	"unicode"
)

var (
	variable    = regexp.MustCompile(`%[\pL_][^%]*%`) // the Windows prompt puts a value in its place
	lastStrokes = regexp.MustCompile(`\\(\\|$)`)      // of two, or of one before the closing quote, a shell makes something else
)

// Pasted tells whether a name means itself, and nothing else, between double quotes in a command, whichever of PowerShell, the Windows prompt and the
// Unix shells reads it. The page shows such commands, to be copied.
func Pasted(name string) bool {
	return !strings.ContainsAny(name, "`$!\"“”„") && strings.IndexFunc(name, Breaks) < 0 && !variable.MatchString(name) && !lastStrokes.MatchString(name)
}

// Breaks tells the characters that end a line or cannot be seen.
func Breaks(r rune) bool { return unicode.IsControl(r) || r == '\u2028' || r == '\u2029' }
