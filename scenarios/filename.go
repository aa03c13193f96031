package scenarios

import "strings"

// FileName is a name as a file or folder may be called on every system: what one of them has its own use for, or does not allow, becomes a hyphen.
func FileName(name string) string {
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
