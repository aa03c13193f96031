package number

import (
	"strings"
	"unicode"
)

// Plain makes a name harmless to show where nothing escapes it, in a terminal or on a canvas: control characters and those that
// turn the direction of the text around are taken out, line breaks and tabs become spaces.
func Plain(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\r' || r == '\t' || r == '\u2028' || r == '\u2029':
			return ' '
		case unicode.IsControl(r), turnsText(r), r == unicode.ReplacementChar, r == '\ufeff':
			return -1
		}
		return r
	}, s)
}

// turnsText tells the marks that reorder the text after them.
func turnsText(r rune) bool {
	return r >= '\u202a' && r <= '\u202e' || r >= '\u2066' && r <= '\u2069' || r == '\u200e' || r == '\u200f' || r == '\u061c'
}

// Width is how many columns of a terminal s takes: 2 for wide letters and most emoji, 0 for marks that combine.
func Width(s string) int {
	n := 0
	for _, r := range s {
		n += runeWidth(r)
	}
	return n
}

// Cut shortens s to so many columns and ends it in tail where something was left out.
func Cut(s string, columns int, tail string) string {
	if Width(s) <= columns {
		return s
	}
	room, n := columns-Width(tail), 0
	for i, r := range s {
		if n+runeWidth(r) > room {
			return strings.TrimRight(s[:i], " ") + tail
		}
		n += runeWidth(r)
	}
	return s
}

func runeWidth(r rune) int {
	switch {
	case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		return 0
	case r >= 0x1100 && r <= 0x115f, r >= 0x2e80 && r <= 0xa4cf, r >= 0xac00 && r <= 0xd7a3, r >= 0xf900 && r <= 0xfaff,
		r >= 0xfe30 && r <= 0xfe6f, r >= 0xff00 && r <= 0xff60, r >= 0xffe0 && r <= 0xffe6, r >= 0x1f300 && r <= 0x1faff,
		r >= 0x20000 && r <= 0x3fffd:
		return 2
	}
	return 1
}
