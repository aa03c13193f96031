// Package office helps tests of spreadsheets: it walks through their formulas, and lets LibreOffice read them as a reader's program would.
package office

import (
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/xuri/excelize/v2"
)

// Convert lets LibreOffice turn a file into a format (as its --convert-to takes it) in a folder, where it keeps its name. There is no skipping:
// without LibreOffice the test fails.
func Convert(t testing.TB, path, format, folder string) {
	t.Helper()
	c := exec.Command("soffice", "--headless", "-env:UserInstallation=file://"+filepath.ToSlash(t.TempDir()), "--convert-to", format, "--outdir", folder, path)
	if said, err := c.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
}

// EachFormula gives every cell with a formula, sheet by sheet, with the value stored beside it ("" for none), and says how many there are.
func EachFormula(t testing.TB, f *excelize.File, give func(sheet, at, formula, value string)) int {
	t.Helper()
	n := 0
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
		if err != nil {
			t.Fatal(err)
		}
		for y := range rows {
			for x, value := range rows[y] {
				at, err := excelize.CoordinatesToCellName(x+1, y+1)
				if err != nil {
					t.Fatal(err)
				}
				formula, err := f.GetCellFormula(sheet, at)
				if err != nil {
					t.Fatal(err)
				}
				if formula != "" {
					n++
					give(sheet, at, formula, value)
				}
			}
		}
	}
	return n
}
