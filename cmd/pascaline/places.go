package main

import (
	"crypto/sha256"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"pascaline/report/store"
	"pascaline/scenarios"
)

// placeFor is the folder for results: the one asked for, or else one of this name below results. What could not be written there, or where the exports are
// to go, is told before anything is simulated. more are files of the command beside results.json and report.html.
func placeFor(cmd *cobra.Command, asked, otherwise string, more ...string) (string, error) {
	out := asked
	if out == "" {
		out = filepath.Join("results", otherwise)
	}
	folders, files := []string{out}, []string{}
	for _, name := range append([]string{"results.json", "report.html"}, more...) {
		files = append(files, filepath.Join(out, name))
	}
	if folder := valueOf(cmd, "csv"); folder != "" {
		folders, files = append(folders, folder), append(files, filepath.Join(folder, "contents.csv"))
	}
	if file := valueOf(cmd, "xlsx"); file != "" {
		files = append(files, file)
	}
	if err := store.Rehearse(folders, files); err != nil {
		return "", &exitError{exitFailed, err}
	}
	return out, nil
}

// valueOf is the value of a flag; "" where the command has none of this name.
func valueOf(cmd *cobra.Command, flag string) string {
	if f := cmd.Flags().Lookup(flag); f != nil {
		return f.Value.String()
	}
	return ""
}

// ends are the last words of the folders of commands other than a plain run.
var ends = []string{"steady", "compared", "payback", "counted", "cycle", "size", "order", "fit"}

// folderName is the name of a folder for results: the scenario's file, its variant, and what the command adds, so that one command never writes into the
// folder of another.
func folderName(path, variant string, added ...string) string {
	words := []string{stem(path)}
	if variant != "" {
		if last := variant[strings.LastIndex(variant, ", ")+1:]; slices.Contains(ends, strings.ToLower(strings.TrimSpace(last))) || strings.Contains(variant, "cycle of ") {
			variant += " (variant)"
		}
		words = append(words, variant)
	}
	return folderOf(append(words, added...))
}

// folderOf joins words to a name that every system takes.
func folderOf(words []string) string { return scenarios.FileName(shortened(strings.Join(words, ", "))) }

// stem is a file's name without its folder and ending.
func stem(path string) string {
	if s := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path)); s != "" {
		return s
	}
	return "scenario"
}

// longestFolder is how many bytes a folder's name may have: some systems allow 255, and Windows not many more for a whole path.
const longestFolder = 120

// shortened cuts a long name and ends it in a mark of what was cut, so that two that begin alike have folders of their own.
func shortened(name string) string {
	if len(name) <= longestFolder {
		return name
	}
	mark := fmt.Sprintf("… %x", sha256.Sum256([]byte(name)))[:len("… ")+8]
	cut := name[:longestFolder-len(mark)]
	for !utf8.ValidString(cut) {
		cut = cut[:len(cut)-1]
	}
	return strings.TrimRight(cut, " ") + mark
}
