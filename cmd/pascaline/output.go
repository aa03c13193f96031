package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/spf13/cobra"

	"pascaline/report/page"
	"pascaline/report/store"
	"pascaline/report/text"
	"pascaline/sim/result"
)

// conclude puts results.json and report.html into a folder, then what else was asked for and what also writes, prints the screen, or the results where JSON
// is asked for, and fails where they were interrupted. command is how to get the same again. A file that cannot be written keeps nothing else from being
// written or shown; the error says where the results are.
func conclude(cmd *cobra.Command, r result.Results, out, command string, asJSON, incomplete bool, also ...func() error) error {
	if err := store.Folder(out); err != nil {
		return &exitError{exitFailed, err}
	}
	if err := store.Save(filepath.Join(out, "results.json"), r); err != nil {
		return &exitError{exitFailed, err}
	}
	drawn := filepath.Join(out, "report.html")
	failed := writePage(drawn, r, command)
	for _, write := range append(also, func() error { return writeExports(cmd, r, command) }) {
		failed = errors.Join(failed, write())
	}
	if err := show(cmd, r, asJSON); err != nil {
		return err
	}
	switch {
	case failed != nil:
		return &exitError{exitFailed, fmt.Errorf("%w\nThe results are in %s; \"pascaline report\" draws the page and the exports from there again", failed, filepath.Join(out, "results.json"))}
	case asJSON:
	default:
		if _, err := fmt.Fprintf(cmd.OutOrStdout(), "\nPage: %s\n", drawn); err != nil {
			return err
		}
	}
	if incomplete {
		return &exitError{exitFailed, errors.New("interrupted: what was done is written and marked incomplete")}
	}
	return nil
}

// show prints the screen of results, or the results as they stand in results.json.
func show(cmd *cobra.Command, r result.Results, asJSON bool) error {
	if !asJSON {
		return writeText(cmd.OutOrStdout(), r)
	}
	b, err := store.Encode(r)
	if err != nil {
		return &exitError{exitFailed, err}
	}
	_, err = cmd.OutOrStdout().Write(b)
	return err
}

// writePage draws the page of results into a file.
func writePage(path string, r result.Results, command string) error {
	var b bytes.Buffer
	if err := page.Write(&b, r, page.Options{Command: command}); err != nil {
		return &exitError{exitFailed, err}
	}
	if err := store.Write(path, b.Bytes()); err != nil {
		return &exitError{exitFailed, err}
	}
	return nil
}

// writeText prints the screen of results.
func writeText(w io.Writer, r result.Results) error {
	return text.Write(w, r, text.Options{Colour: isTerminal(w) && speaksColour(), Unicode: speaksUnicode()})
}

// speaksColour tells whether colours are wanted and understood: NO_COLOR is the user's wish, TERM=dumb a terminal that shows them as signs.
func speaksColour() bool { return os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb" }

// isTerminal tells whether a person reads along. The null device is a device of characters, too, but nobody reads there.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	st, err := f.Stat()
	if err != nil || st.Mode()&os.ModeCharDevice == 0 {
		return false
	}
	null, err := os.Stat(os.DevNull)
	return err != nil || !os.SameFile(st, null)
}

// speaksUnicode tells whether ± and the like can be printed: by the locale, and on Windows in its newer terminal.
func speaksUnicode() bool {
	if runtime.GOOS == "windows" {
		return os.Getenv("WT_SESSION") != ""
	}
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := os.Getenv(name); v != "" {
			v = strings.ToUpper(v)
			return strings.Contains(v, "UTF-8") || strings.Contains(v, "UTF8")
		}
	}
	return false
}

// progress shows how far a study is, on a terminal only.
type progress struct{ w io.Writer }

func newProgress(w io.Writer) *progress {
	if !isTerminal(w) {
		return &progress{}
	}
	return &progress{w}
}

func (p *progress) step(done int, half float64) {
	if p.w != nil {
		fmt.Fprintf(p.w, "\r%d replications, +/- %.0f packs/h   ", done, half)
	}
}

func (p *progress) done() {
	if p.w != nil {
		fmt.Fprint(p.w, "\r"+strings.Repeat(" ", 60)+"\r")
	}
}
