package scenarios

import (
	"regexp"
	"strings"
)

// reserved are the names that Windows keeps for devices, whatever follows after a point.
var reserved = regexp.MustCompile(`(?i)^(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])[ ]*(\.|$)`)

// FileName is a name as a file or folder may be called on every system: what one of them has its own use for, or does not allow, becomes a hyphen, and one that
// is kept for a device gets one.
func FileName(name string) string {
	if m := reserved.FindStringSubmatchIndex(name); m != nil {
		name = name[:m[3]] + "-" + name[m[3]:]
	}
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) || r < ' ' {
			return '-'
		}
		return r
	}, name)
}

// oneFile tells names that some system takes for one file: it does not tell capital letters apart, or leaves off a point or blank at the end.
func oneFile(name string) string {
	return strings.ToLower(strings.TrimRight(FileName(name), " ."))
}
