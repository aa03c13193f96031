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
	"slices"
	"strings"
	"testing"
)

// TestMain lets all tests look from the root of the project.
func TestMain(m *testing.M) {
	if err := os.Chdir("../.."); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}

// Code is in these folders and nowhere else; what somebody makes beside them is left alone.
func TestCodeIsInItsFolders(t *testing.T) {
	for _, p := range files(t) {
		if path.Ext(p) == ".go" && !under(p, "cmd", "report", "scenarios", "sim", "testdata") {
			t.Errorf("%s: code outside cmd, report, scenarios, sim and testdata; move it there", p)
		}
	}
}

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
