package export

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"pascaline/report/internal/fixture"
	"pascaline/report/office"
)

// Every formula has a value beside it: a number as a number, a word as a word; and the same results give the same bytes.
func TestWorkbookStoresEveryValue(t *testing.T) {
	r := fixture.Payback()
	data, err := workbook(r)
	if err != nil {
		t.Fatal(err)
	}
	again, err := workbook(r)
	if err != nil || !bytes.Equal(data, again) {
		t.Errorf("not the same bytes, %v", err)
	}
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	formulas := office.EachFormula(t, f, func(sheet, at, formula, value string) {
		if value == "" {
			t.Errorf("%s %s: no value beside %s", sheet, at, formula)
		}
		if strings.ContainsAny(formula, "{}") {
			t.Errorf("%s %s: a name was left in %s", sheet, at, formula)
		}
	})
	if formulas < 100 {
		t.Errorf("only %d formulas", formulas)
	}
}

// A name that looks like a formula stays words, also as the name of a sheet and within the formulas of others.
func TestWorkbookWithHostileNames(t *testing.T) {
	r := fixture.Payback()
	r.Options[1].Name = `=1+1'!A1 "x" <b>`
	r.Base.Side.People[0].Pool = "=cmd"
	data, err := workbook(r)
	if err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range []string{"A1", "D2"} {
		for _, sheet := range f.GetSheetList() {
			if formula, _ := f.GetCellFormula(sheet, at); strings.Contains(formula, "1+1") {
				t.Errorf("%s %s is the formula %q", sheet, at, formula)
			}
		}
	}
	formula, err := f.GetCellFormula("Summary", "B8")
	if err != nil || !regexp.MustCompile(`^(IF\(ISNUMBER\()?'[^']*'!\$C\$2`).MatchString(formula) {
		t.Errorf("%q, %v", formula, err)
	}
}

func TestNumbersAndWordsStored(t *testing.T) {
	for _, c := range []struct{ name, in, want string }{
		{"a number", `<c r="A1" t="str"><f>1+1</f><v>2</v></c>`, `<c r="A1"><f>1+1</f><v>2</v></c>`},
		{"a small number", `<c r="A1" t="str"><f>1+1</f><v>-2.5e-07</v></c>`, `<c r="A1"><f>1+1</f><v>-2.5e-07</v></c>`},
		{"a word", `<c r="A1" s="3" t="str"><f>IF(B1,1,"not unique")</f></c>`, `<c r="A1" s="3" t="str"><f>IF(B1,1,"not unique")</f><v>not unique</v></c>`},
		{"the last of two words", `<c r="A1" t="str"><f>IF(B1="yes",1,&#34;-&#34;)</f></c>`, `<c r="A1" t="str"><f>IF(B1="yes",1,&#34;-&#34;)</f><v>-</v></c>`},
		{"words without a formula", `<c r="A1" t="s"><v>3</v></c>`, `<c r="A1" t="s"><v>3</v></c>`},
	} {
		if got := string(storedIn([]byte(c.in))); got != c.want {
			t.Errorf("%s: %s", c.name, got)
		}
	}
}
