package tidy

import (
	"go/ast"
	"strings"
	"testing"
)

// The limits of a function and of a file, in lines.
const (
	maxFunction = 60
	maxFile     = 350
	maxTestFile = 450
)

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
