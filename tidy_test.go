// Package tidy looks after what no reviewer should have to: the order of imports, the length of files and functions, words, paths,
// leftovers. Every failure names its place and the remedy. The rules have no list of exceptions: mend the code, or the rule for all.
package tidy

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// The limits of a function and of a file, in lines.
const (
	maxFunction = 60
	maxFile     = 350
	maxTestFile = 450
)

// source is one Go file.
type source struct {
	path string // with slashes, from the root
	dir  string
	test bool
	text string
	fset *token.FileSet
	tree *ast.File
}

func (s *source) errorf(t *testing.T, at token.Pos, format string, a ...any) {
	t.Helper()
	t.Errorf("%s:%d: "+format, append([]any{s.path, s.fset.Position(at).Line}, a...)...)
}

// under tells whether a file or package is in one of the folders.
func under(p string, folders ...string) bool {
	return slices.ContainsFunc(folders, func(f string) bool { return p == f || strings.HasPrefix(p, f+"/") })
}

// files lists all files of the project but those that git leaves out.
func files(t *testing.T) []string {
	t.Helper()
	var list []string
	err := filepath.WalkDir(".", func(p string, d fs.DirEntry, err error) error {
		p = filepath.ToSlash(p)
		switch {
		case err != nil:
			return err
		case d.IsDir() && (p == ".git" || p == "results" || p == "out"), d.Type()&fs.ModeSymlink != 0:
			return skip(d)
		case d.IsDir(), p == "pascaline", slices.Contains([]string{".test", ".prof"}, path.Ext(p)):
			return nil
		}
		list = append(list, p)
		return nil
	})
	if err != nil || len(list) < 50 {
		t.Fatalf("%d files, %v", len(list), err)
	}
	return list
}

func skip(d fs.DirEntry) error {
	if d.IsDir() {
		return filepath.SkipDir
	}
	return nil
}

func read(t *testing.T, p string) string {
	t.Helper()
	b, err := os.ReadFile(filepath.FromSlash(p))
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func sources(t *testing.T) []*source {
	t.Helper()
	var list []*source
	for _, p := range files(t) {
		if path.Ext(p) != ".go" {
			continue
		}
		s := &source{path: p, dir: path.Dir(p), test: strings.HasSuffix(p, "_test.go"), text: read(t, p), fset: token.NewFileSet()}
		tree, err := parser.ParseFile(s.fset, p, s.text, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		s.tree = tree
		list = append(list, s)
	}
	return list
}

func TestLengths(t *testing.T) {
	for _, s := range sources(t) {
		most := maxFile
		if s.test {
			most = maxTestFile
		}
		if n := strings.Count(s.text, "\n"); n > most {
			t.Errorf("%s:%d: %d lines, at most %d: split the file by subject", s.path, most, n, most)
		}
		for _, d := range s.tree.Decls {
			f, ok := d.(*ast.FuncDecl)
			if !ok {
				continue
			}
			if n := s.fset.Position(f.End()).Line - s.fset.Position(f.Pos()).Line + 1; n > maxFunction {
				s.errorf(t, f.Pos(), "%s has %d lines, at most %d: give its parts names of their own", f.Name.Name, n, maxFunction)
			}
		}
	}
}

func TestExportedNamesAreDocumented(t *testing.T) {
	for _, s := range sources(t) {
		if s.test || strings.Contains(s.path, "testdata/") {
			continue
		}
		for _, d := range s.tree.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				if d.Name.IsExported() && d.Doc == nil && (d.Recv == nil || receiver(d).IsExported()) {
					s.errorf(t, d.Pos(), "%s has no comment: say what it gives, in which unit, and when it fails", d.Name.Name)
				}
			case *ast.GenDecl:
				undocumented(t, s, d)
			}
		}
	}
}

func receiver(f *ast.FuncDecl) *ast.Ident {
	x := f.Recv.List[0].Type
	for {
		switch y := x.(type) {
		case *ast.StarExpr:
			x = y.X
		case *ast.IndexExpr:
			x = y.X
		case *ast.IndexListExpr:
			x = y.X
		case *ast.Ident:
			return y
		default:
			return ast.NewIdent("_")
		}
	}
}

// undocumented looks at types, constants and variables; a comment on their group is enough for the latter two.
func undocumented(t *testing.T, s *source, d *ast.GenDecl) {
	for _, spec := range d.Specs {
		switch x := spec.(type) {
		case *ast.TypeSpec:
			if x.Name.IsExported() && x.Doc == nil && (d.Doc == nil || d.Lparen.IsValid()) {
				s.errorf(t, x.Pos(), "type %s has no comment: say what it stands for", x.Name.Name)
			}
		case *ast.ValueSpec:
			for _, n := range x.Names {
				if n.IsExported() && d.Doc == nil && x.Doc == nil && x.Comment == nil {
					s.errorf(t, n.Pos(), "%s has no comment: say what it is, in which unit", n.Name)
				}
			}
		}
	}
}

// An arrow says who may import what: only (if set) are the folders that may, not those that may not; but is allowed all the same.
type arrow struct {
	what      string
	only, not []string
	but       string
	remedy    string
}

var arrows = []arrow{
	{what: "github.com/fschuetz04/simgo", only: []string{"sim/clock"}, remedy: "ask sim/clock for a slot or a task"},
	{what: "github.com/go-echarts", only: []string{"report/page"}, remedy: "build charts in report/page"},
	{what: "pascaline/cmd", only: []string{"cmd"}, remedy: "move what is shared out of cmd"},
	{what: "pascaline/report", not: []string{"sim", "scenarios"}, remedy: "give plain data in sim/result; report puts it into words"},
	{what: "pascaline/scenarios", not: []string{"report"}, remedy: "let sim/study put what is needed into sim/result"},
	{what: "pascaline/sim", not: []string{"report"}, but: "pascaline/sim/result", remedy: "a report reads sim/result only"},
	{what: "pascaline/sim", not: []string{"scenarios"}, remedy: "a scenario knows nothing of its simulation"},
	{what: "math/rand", only: []string{}, remedy: "draw by a named stream of sim/random (math/rand/v2 for names of files)"},
}

func TestImports(t *testing.T) {
	for _, s := range sources(t) {
		for _, i := range s.tree.Imports {
			p, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				t.Fatal(err)
			}
			for _, a := range arrows {
				if !under(p, a.what) || p == "math/rand/v2" || a.but != "" && under(p, a.but) {
					continue
				}
				if a.only != nil && !under(s.dir, a.only...) || under(s.dir, a.not...) {
					s.errorf(t, i.Pos(), "imports %s: %s", p, a.remedy)
				}
			}
		}
	}
}

// A ban is a call that may stand in some folders only. Tests may do as they like.
type ban struct {
	call    *regexp.Regexp
	in      []string // looked for here; everywhere when empty
	allowed []string
	remedy  string
}

// In scenarios a panic means a wrong struct tag, which a test of all fields finds, and the one recover stands around the YAML library's parser.
var bans = []ban{
	{call: regexp.MustCompile(`^time\.(Now|Since|Until|Sleep|After|Tick|NewTimer|NewTicker)$`), in: []string{"sim", "scenarios"}, remedy: "simulated time comes from sim/clock; real time has no place here"},
	{call: regexp.MustCompile(`^(fmt\.Print(f|ln)?|print|println|log\..*)$`), in: []string{"sim", "scenarios", "report"}, remedy: "give the value back; cmd prints"},
	{call: regexp.MustCompile(`^panic$`), allowed: []string{"sim/clock", "sim/measure", "sim/random", "scenarios"}, remedy: "return an error"},
	{call: regexp.MustCompile(`^recover$`), allowed: []string{"sim/clock", "sim/study", "scenarios"}, remedy: "let it fall: sim/study names the run that failed"},
	{call: regexp.MustCompile(`^os\.Exit$`), allowed: []string{"cmd"}, remedy: "return an error"},
}

func TestBannedCalls(t *testing.T) {
	for _, s := range sources(t) {
		if s.test {
			continue
		}
		ast.Inspect(s.tree, func(n ast.Node) bool {
			c, ok := n.(*ast.CallExpr)
			if !ok {
				return true
			}
			name := called(c)
			for _, b := range bans {
				if b.call.MatchString(name) && (len(b.in) == 0 || under(s.dir, b.in...)) && !under(s.dir, b.allowed...) {
					s.errorf(t, c.Pos(), "%s: %s", name, b.remedy)
				}
			}
			return true
		})
	}
}

// called is the name of a function that is called, with its package.
func called(c *ast.CallExpr) string {
	switch f := c.Fun.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		if x, ok := f.X.(*ast.Ident); ok {
			return x.Name + "." + f.Sel.Name
		}
	}
	return ""
}

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

// named tells what a test file says about files: its texts, and whether it reads whole folders.
type named struct {
	texts  []string
	globs  []string
	folder bool
}

func tests(t *testing.T) []named {
	var list []named
	for _, s := range sources(t) {
		if !s.test || s.path == "tidy_test.go" {
			continue
		}
		n := named{folder: regexp.MustCompile(`\b(os\.ReadDir|filepath\.WalkDir|fs\.WalkDir|testscript\.Params|os\.DirFS)\b`).MatchString(s.text)}
		ast.Inspect(s.tree, func(x ast.Node) bool {
			if lit, ok := x.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				if v, err := strconv.Unquote(lit.Value); err == nil && strings.Contains(v, "*.") {
					n.globs = append(n.globs, path.Base(v))
				} else if err == nil {
					n.texts = append(n.texts, v)
				}
			}
			return true
		})
		list = append(list, n)
	}
	return list
}

// names tells whether a test uses a file of a testdata folder: by its name or stem, by a pattern in its folder, or with the whole folder.
func (n *named) names(p string) bool {
	base, folder := path.Base(p), path.Base(path.Dir(p))
	stem := strings.TrimSuffix(base, path.Ext(base))
	here := false
	for _, s := range n.texts {
		if s == stem || s == base || strings.HasSuffix(s, "/"+base) || strings.HasSuffix(s, "/"+stem) {
			return true
		}
		if rest, ok := strings.CutPrefix(stem, path.Base(s)); ok && strings.HasSuffix(s, "-") && slices.Contains(n.texts, rest) {
			return true // "o8-" + rule
		}
		here = here || s == folder || strings.HasSuffix(s, "/"+folder)
	}
	if here && n.folder {
		return true
	}
	for _, g := range n.globs {
		if ok, _ := path.Match(g, base); here && ok {
			return true
		}
	}
	return false
}

func TestTestdataIsUsed(t *testing.T) {
	list := tests(t)
	used := map[string]bool{} // with and without their ending: a golden file stands beside its input
	var unsure []string
	for _, p := range files(t) {
		if !strings.Contains("/"+p, "/testdata/") {
			continue
		}
		if slices.ContainsFunc(list, func(n named) bool { return n.names(p) }) || strings.Contains(p, "/fuzz/Fuzz") {
			used[strings.TrimSuffix(p, path.Ext(p))] = true
		} else {
			unsure = append(unsure, p)
		}
	}
	var readme strings.Builder
	for _, p := range files(t) {
		if path.Base(p) == "README.md" {
			readme.WriteString(read(t, p))
		}
	}
	for _, p := range unsure {
		if !used[strings.TrimSuffix(p, path.Ext(p))] && !strings.Contains(readme.String(), path.Base(p)) && path.Base(p) != "README.md" {
			t.Errorf("%s:1: no test and no README names it: use it or delete it", p)
		}
	}
}

// pathLike is what looks like a path of the project within the backquotes or links of a text.
var pathLike = regexp.MustCompile("[`(]((?:cmd|sim|scenarios|report|testdata|\\.ci)(?:/[\\w.*-]+)*/?|[\\w.]+\\.(?:md|go|mod)|LICENSE)[`)]")

func TestPathsInTextsExist(t *testing.T) {
	for _, p := range []string{"README.md", "DEVELOPERS.md"} {
		found := 0
		for i, line := range strings.Split(read(t, p), "\n") {
			for _, m := range pathLike.FindAllStringSubmatch(line, -1) {
				found++
				if list, err := filepath.Glob(filepath.FromSlash(m[1])); err != nil || len(list) == 0 {
					t.Errorf("%s:%d: %s is not there: mend the text", p, i+1, m[1])
				}
			}
		}
		if found == 0 {
			t.Errorf("%s:1: names no path at all, so this test sees nothing: write paths in backquotes", p)
		}
	}
}
