// Package testdata holds scenarios and values that more than one package reads, as part of the program.
package testdata

import "embed"

// Files are the lines that others have published, the hand-worked cases and the whole-line cases: published/*.yaml and so on.
//
//go:embed published hand lines
var Files embed.FS
