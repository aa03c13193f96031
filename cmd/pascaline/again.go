package main

import (
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"pascaline/scenarios"
)

// notAgain are the flags that the command for the same results leaves out: where they went, how they were shown, and what its caller adds itself.
var notAgain = []string{"out", "xlsx", "csv", "json", "into", "show-only", "workers", "seed", "replications", "variant"}

// namesFile are the flags whose value is a file that is read; like the other files it is named without its folder.
var namesFile = []string{"roster"}

// asCalled is how to get the same results: the command with its files and the flags that were set, but for those of notAgain. It is the same wherever
// the files lie and the results go.
func asCalled(cmd *cobra.Command, files ...string) string {
	words := []string{cmd.CommandPath()}
	for _, f := range files {
		words = append(words, quotedFile(f))
	}
	cmd.Flags().Visit(func(f *pflag.Flag) {
		switch {
		case slices.Contains(notAgain, f.Name):
		case f.Value.Type() == "bool":
			words = append(words, "--"+f.Name)
		case f.Value.Type() == "stringArray":
			for _, v := range f.Value.(pflag.SliceValue).GetSlice() {
				words = append(words, "--"+f.Name, quoted(v))
			}
		case slices.Contains(namesFile, f.Name):
			words = append(words, "--"+f.Name, quotedFile(f.Value.String()))
		default:
			words = append(words, "--"+f.Name, quoted(f.Value.String()))
		}
	})
	return strings.Join(words, " ")
}

// quotedFile is a file's name, without its folder, as it stands in a command.
func quotedFile(path string) string { return quoted(filepath.ToSlash(filepath.Base(path))) }

// plainWord has nothing in it that a shell takes for anything but itself.
var plainWord = regexp.MustCompile(`^[\pL\pN._/+:-]+$`)

// quoted makes a name one word of a command that a reader may paste into PowerShell, the Windows prompt or a Unix shell, so that none of them takes any of it
// for a command of its own. Names of variants and products can always stand between double quotes (check sees to it). A file's name may hold signs that
// cannot: it stands between single quotes, which PowerShell and Unix know, and where not even that is safe, such signs are shown as question marks.
func quoted(s string) string {
	switch {
	case plainWord.MatchString(s):
		return s
	case scenarios.Pasted(s):
		return `"` + s + `"`
	case !strings.ContainsAny(s, "'‘’‚‛\"&|<>^%") && strings.IndexFunc(s, scenarios.Breaks) < 0:
		return "'" + s + "'"
	}
	return `"` + strings.Map(func(r rune) rune {
		if scenarios.Breaks(r) || strings.ContainsRune("`$!\"“”„%\\", r) {
			return '?'
		}
		return r
	}, s) + `"`
}
