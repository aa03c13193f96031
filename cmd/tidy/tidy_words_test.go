package tidy

import (
	"go/ast"
	"go/token"
	"path"
	"regexp"
	"strings"
	"testing"
)

// A stain may stand in no file. The patterns are put together from halves, so that this file is clean itself.
var stains = []struct {
	what   *regexp.Regexp
	remedy string
}{
	{regexp.MustCompile(`\b(TO` + `DO|FIX` + `ME|XX` + `X)\b`), "do it now or file it; a note in the code is forgotten"},
	{regexp.MustCompile(`(?:^|[^\w.~/-])/(?:ro` + `ot|ho` + `me|wo` + `rk|tm` + `p|Us` + `ers)/\w`), "no path of one machine: use t.TempDir, os.MkdirTemp or a path from the root of the project"},
	{regexp.MustCompile(`(?i)\b[a-z]:\\+us` + `ers\\`), "no path of one machine"},
	{regexp.MustCompile(`proxy\.gol` + `ang|registry\.npm` + `js|deb\.deb` + `ian`), "no host of a package registry: name packages, and let their clients find them"},
}

func TestStains(t *testing.T) {
	for _, p := range files(t) {
		if strings.HasSuffix(p, ".min.js") {
			continue // the library, as it was published
		}
		for i, line := range strings.Split(read(t, p), "\n") {
			for _, s := range stains {
				if m := s.what.FindString(line); m != "" {
					t.Errorf("%s:%d: %q: %s", p, i+1, strings.TrimSpace(m), s.remedy)
				}
			}
		}
	}
}

// foreign are words of modelling programs, not of the trade.
var foreign = regexp.MustCompile(`(?i)\b(?:entity|entities|agents?|sinks?|queues?|processors?|combiners?|splitters?|transporters?|work cent(?:re|er)s?|seize[sd]?|` +
	`delays?|dispose[sd]?|tool ?box|palettes?|model explorer|property grid|experimenter|scenario manager|optimi[sz]ers?|run control|` +
	`dashboards?|digital twin|drag.and.drop)\b`)

const foreignRemedy = "say it in the trade's words: buffer, places, station, time, wait, line"

// TestWords looks where people read: texts in the code of cmd, report and scenarios, the page, the examples, the README.
func TestWords(t *testing.T) {
	for _, s := range sources(t) {
		if s.test || !under(s.dir, "cmd", "report", "scenarios") {
			continue
		}
		ast.Inspect(s.tree, func(n ast.Node) bool {
			lit, ok := n.(*ast.BasicLit)
			if m := ""; ok && lit.Kind == token.STRING {
				if m = foreign.FindString(lit.Value); m != "" {
					s.errorf(t, lit.Pos(), "the word %q: %s", m, foreignRemedy)
				}
			}
			return true
		})
	}
	for _, p := range files(t) {
		if p != "README.md" && !under(p, "scenarios/examples") && !(under(p, "report") && path.Ext(p) == ".html") {
			continue
		}
		for i, line := range strings.Split(read(t, p), "\n") {
			if m := foreign.FindString(line); m != "" {
				t.Errorf("%s:%d: the word %q: %s", p, i+1, m, foreignRemedy)
			}
		}
	}
}
