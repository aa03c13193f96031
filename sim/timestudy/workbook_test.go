package timestudy

import (
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"pascaline/scenarios/sheet"
)

// The example sheet as a workbook gives the same readings as the CSV file. Its bytes differ from one writing to the next, so that what is
// in it is compared.
func TestExampleWorkbookHoldsTheSameReadings(t *testing.T) {
	path := filepath.Join("..", "..", "testdata", "fit", "times.xlsx")
	if *update {
		writeWorkbook(t, path)
	}
	var all [2][]Task
	for i, file := range []string{path, strings.TrimSuffix(path, ".xlsx") + ".csv"} {
		table, faults, err := sheet.Read(file, sheet.Options{DecimalComma: i == 1})
		if err != nil || len(faults) > 0 {
			t.Fatal(err, faults)
		}
		tasks, faults := Times(table, "", Rules{Rating: 1})
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		all[i] = tasks
	}
	if d := cmp.Diff(secondsOf(all[1]), secondsOf(all[0])); d != "" {
		t.Error(d)
	}
}

func writeWorkbook(t *testing.T, path string) {
	t.Helper()
	f := excelize.NewFile()
	lines := strings.Split(strings.TrimSpace(strings.TrimPrefix(timesExample(), "\ufeff")), "\r\n")
	for i, l := range lines {
		for k, cell := range strings.Split(l, ";") {
			ref, err := excelize.CoordinatesToCellName(k+1, i+1)
			if err != nil {
				t.Fatal(err)
			}
			var v any = cell
			if x, err := strconv.ParseFloat(strings.Replace(cell, ",", ".", 1), 64); err == nil {
				v = x
			}
			if err := f.SetCellValue("Sheet1", ref, v); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := f.SaveAs(path); err != nil {
		t.Fatal(err)
	}
}
