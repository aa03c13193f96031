//go:build independent

package export_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pascaline/report/export"
	"pascaline/report/internal/fixture"
	"pascaline/report/office"
)

// TestOpensInLibreOffice lets another program read the spreadsheet and write it as CSV: all its sheets, with numbers that it can count on and no formula.
func TestOpensInLibreOffice(t *testing.T) {
	r, dir := fixture.Run(), t.TempDir()
	r.Stations[0].Name = "=1+1"
	if err := export.XLSX(filepath.Join(dir, "tables.xlsx"), r, ""); err != nil {
		t.Fatal(err)
	}
	// 44,34,76: comma, quotes, UTF-8; the seventh field keeps text as it is; the last, -1, asks for every sheet.
	office.Convert(t, filepath.Join(dir, "tables.xlsx"), "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1", dir)
	files, err := filepath.Glob(filepath.Join(dir, "tables-*.csv"))
	if err != nil || len(files) < 20 {
		t.Fatalf("%d sheets came back, %v", len(files), err)
	}
	data, err := os.ReadFile(filepath.Join(dir, "tables-What went through each station.csv"))
	if err != nil {
		t.Fatalf("%v; there are %q", err, files)
	}
	rows, err := csv.NewReader(strings.NewReader(string(data))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if rows[2][0] != "=1+1" {
		t.Errorf("the name came back as %q", rows[2][0])
	}
	if rows[2][1] == "" || strings.Trim(rows[2][1], "0123456789.") != "" {
		t.Errorf("the figure came back as %q", rows[2][1])
	}
}
