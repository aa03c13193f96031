package main

import (
	"strings"
	"testing"
	"unicode/utf8"
)

func TestFolderName(t *testing.T) {
	for _, c := range []struct {
		name, path, variant string
		added               []string
		want                string
	}{
		{"a run", "x/line.yaml", "", nil, "line"},
		{"a variant", "line.yaml", "two benches", nil, "line, two benches"},
		{"another command", "line.yaml", "two benches", []string{"size"}, "line, two benches, size"},
		{"a variant that ends as a command's folder does", "line.yaml", "two benches, Size", nil, "line, two benches, Size (variant)"},
		{"a variant called as a product's cycle", "line.yaml", "cycle of juice", nil, "line, cycle of juice (variant)"},
		{"a file without a name", ".yaml", "", nil, "scenario"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := folderName(c.path, c.variant, c.added...); got != c.want {
				t.Errorf("%q, want %q", got, c.want)
			}
		})
	}
}

// A name too long for a folder is cut between letters, and two that begin alike are told apart.
func TestLongFolderName(t *testing.T) {
	a := folderName("line.yaml", strings.Repeat("ж", 200)+" one")
	b := folderName("line.yaml", strings.Repeat("ж", 200)+" two")
	if a == b || len(a) > longestFolder || !utf8.ValidString(a) || !strings.HasPrefix(a, "line, жжж") {
		t.Errorf("%q and %q", a, b)
	}
}
