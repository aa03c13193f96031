package grid_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pascaline/report/grid"
)

func TestFiguresBecomeNumbers(t *testing.T) {
	for _, c := range []struct{ name, head, want string }{
		{"a unit goes into the heading", "rate\n5,631 ± 38 packs/h\n12 packs/h", "rate (packs/h),rate ± (packs/h)\r\n5631,38\r\n12,\r\n"},
		{"a unit that is there already is not said twice", "length, h\n3 h\n1.50 h", "\"length, h\"\r\n3\r\n1.50\r\n"},
		{"times come to one unit", "wait\n41 s\n6 min 56 s\n2 h", "wait (s)\r\n41\r\n416\r\n7200\r\n"},
		{"times of one unit keep it", "wait\n6 min\n12 min", "wait (min)\r\n6\r\n12\r\n"},
		{"rows of several units get a column for them", "value\n421 s\n97.4 %\n89.9", "value,unit\r\n421,s\r\n97.4,%\r\n89.9,\r\n"},
		{"ranges part", "P10 to P90\n32,549 to 36,910", "P10 to P90,\"P10 to P90, up to\"\r\n32549,36910\r\n"},
		{"what is no figure stays", "places\n40\nno limit\n–\n<0.1 %", "places\r\n40\r\nno limit\r\n–\r\n<0.1\r\n"},
		{"a column of words stays", "kind\nplanned\n=1+1", "kind\r\nplanned\r\n'=1+1\r\n"},
		{"parts of a text after a semicolon", "kind\nplant;=1+1;x; @SUM(A1)\na; b", "kind\r\nplant;'=1+1;x;' @SUM(A1)\r\na; b\r\n"},
		{"a formula after a blank", "kind\n =1+1", "kind\r\n' =1+1\r\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var texts [][]string
			lines := strings.Split(c.head, "\n")
			for _, l := range lines[1:] {
				texts = append(texts, []string{l})
			}
			g := grid.Of(lines[:1], []bool{true}, texts)
			got, err := g.CSV()
			if err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff("\ufeff"+c.want, string(got)); d != "" {
				t.Errorf("-want +got:\n%s", d)
			}
		})
	}
}
