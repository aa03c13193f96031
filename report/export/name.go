package export

import (
	"strings"
	"unicode/utf8"
)

// mainPart is a caption without what stands after its first comma or semicolon, unless too little would be left.
func mainPart(caption string) string {
	for _, end := range []string{", ", "; "} {
		if at := strings.Index(caption, end); at >= 8 {
			caption = caption[:at]
		}
	}
	return caption
}

// cutTo keeps whole words of at most so many characters as spreadsheets count them: two for one beyond the basic plane. A first word that is too
// long is cut.
func cutTo(s string, most int) string {
	n, blank := 0, 0
	for i, r := range s {
		if r == ' ' {
			blank = i
		}
		n += max(1, utf8.RuneLen(r)-2)
		if n <= most {
			continue
		}
		if blank > 0 {
			i = blank
		}
		return strings.TrimSpace(s[:i])
	}
	return strings.TrimSpace(s)
}

// slug is a caption as the name of a file: plain letters only, whole words of at most 40 of them.
func slug(caption string) string {
	plain := strings.FieldsFunc(strings.ToLower(mainPart(caption)), func(r rune) bool { return (r < 'a' || r > 'z') && (r < '0' || r > '9') })
	if s := cutTo(strings.Join(plain, " "), 40); s != "" {
		return strings.ReplaceAll(s, " ", "-")
	}
	return "table"
}
