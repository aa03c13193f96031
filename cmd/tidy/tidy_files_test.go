package tidy

import (
	"go/ast"
	"go/token"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// named tells what a test file says about files: its texts, and whether it reads whole folders.
type named struct {
	texts  []string
	globs  []string
	folder bool
}

func tests(t *testing.T) []named {
	var list []named
	for _, s := range sources(t) {
		if !s.test || s.dir == "." {
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
