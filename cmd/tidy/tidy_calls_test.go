package tidy

import (
	"go/ast"
	"regexp"
	"strconv"
	"testing"
)

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
