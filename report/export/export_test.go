package export_test

import (
	"bytes"
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"pascaline/report/export"
	"pascaline/report/internal/fixture"
	"pascaline/sim/result"
)

// folder is an export of r as CSV: rows by the name of the file.
func folder(t *testing.T, r result.Results) map[string][][]string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "tables")
	if err := export.CSV(dir, r, "pascaline run plant.yaml --seed 1"); err != nil {
		t.Fatal(err)
	}
	files, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][][]string{}
	for _, f := range files {
		data, err := os.ReadFile(filepath.Join(dir, f.Name()))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.HasPrefix(data, []byte("\ufeff")) || bytes.Count(data, []byte("\r\n")) != bytes.Count(data, []byte("\n")) {
			t.Errorf("%s: no mark of UTF-8 at its begin, or lines that end otherwise", f.Name())
		}
		rows, err := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(data, []byte("\ufeff")))).ReadAll()
		if err != nil {
			t.Fatalf("%s: %v", f.Name(), err)
		}
		out[f.Name()] = rows
	}
	return out
}

// file is the file of a folder whose table has a caption that begins so.
func file(t *testing.T, all map[string][][]string, caption string) [][]string {
	t.Helper()
	for _, row := range all["contents.csv"][1:] {
		if strings.HasPrefix(row[2], caption) {
			return all[row[0]]
		}
	}
	t.Fatalf("no table %q", caption)
	return nil
}

func workbook(t *testing.T, r result.Results) (*excelize.File, []byte) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "tables.xlsx")
	if err := export.XLSX(path, r, ""); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = f.Close() })
	return f, data
}

func TestCSVHasNumbersWithUnitsInTheHeadings(t *testing.T) {
	r := fixture.Run()
	all := folder(t, r)
	states := file(t, all, "Time of each station")
	if got := strings.Join(states[0][:4], "|"); got != "Station|servers|base, h|processing" {
		t.Errorf("headings %s", got)
	}
	if len(states) != len(r.Stations)+1 {
		t.Errorf("%d rows for %d stations", len(states), len(r.Stations))
	}
	buffers := file(t, all, "What waits where")
	for i, b := range r.Buffers {
		got, err := strconv.ParseFloat(buffers[i+1][3], 64)
		if err != nil || math.Abs(got-b.Mean) > 0.006*math.Max(b.Mean, 1) {
			t.Errorf("%s: mean %q, the results have %v", b.Name, buffers[i+1][3], b.Mean)
		}
	}
	if head := buffers[0]; head[5] != "share of time full (%)" || !strings.HasPrefix(head[6], "wait, mean (") {
		t.Errorf("headings %q", head)
	}
	vessel := file(t, all, "What the vessels did")
	if head := strings.Join(vessel[0], "|"); head != "Figure|value|value ±|unit" || vessel[1][3] != "s" {
		t.Errorf("rows of several units: %q, %q", head, vessel[1])
	}
}

func TestAllValuesAreInFull(t *testing.T) {
	r := fixture.Run()
	all := map[string]string{}
	for _, row := range file(t, folder(t, r), "Every value") {
		all[row[0]] = row[1]
	}
	for name, want := range map[string]float64{
		"headline.finished_packs_per_h.mean": r.Headline.PacksPerH.Mean, "stations[4].each[1].shares[0]": r.Stations[4].Each[1].Shares[0],
		"per_replication[2].packs": float64(r.PerReplication[2].Packs), "profile.p90[3]": r.Profile.P90[3],
	} {
		if got, err := strconv.ParseFloat(all[name], 64); err != nil || got != want {
			t.Errorf("%s is %q, want %v", name, all[name], want)
		}
	}
	if all["kind"] != "run" || all["seed"] != "20260301" {
		t.Errorf("kind %q, seed %q", all["kind"], all["seed"])
	}
}

func TestTextCannotBecomeAFormula(t *testing.T) {
	r := fixture.Run()
	names := []string{"=1+1", "+1", "-1+1", "@SUM(A1)", "\t=1+1", "=HYPERLINK(\"http://x\",\"y\")", "plant;=1+1;x"}
	for i, n := range names {
		r.Stations[i].Name = n
	}
	for name, rows := range folder(t, r) {
		for _, row := range rows {
			for _, c := range row {
				for _, part := range strings.Split(c, ";") { // as a program whose lists have semicolons reads it
					if _, err := strconv.ParseFloat(c, 64); err != nil && part != "" && strings.ContainsAny(part[:1], "=+-@\t") {
						t.Errorf("%s has %q", name, c)
					}
				}
			}
		}
	}
	f, _ := workbook(t, r)
	seen := 0
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		for y, row := range rows {
			for x, c := range row {
				at, _ := excelize.CoordinatesToCellName(x+1, y+1)
				if formula, err := f.GetCellFormula(sheet, at); err != nil || formula != "" {
					t.Errorf("%s %s holds the formula %q", sheet, at, formula)
				}
				if strings.HasPrefix(c, "=1+1") {
					seen++
				}
			}
		}
	}
	if seen == 0 {
		t.Error("the name that looks like a formula is nowhere")
	}
}

func TestWorkbookHasEveryTable(t *testing.T) {
	for name, r := range map[string]*result.Run{"full": fixture.Run(), "bare": fixture.Bare(), "hostile": fixture.Hostile(), "crowded": fixture.Crowded()} {
		f, first := workbook(t, r)
		sheets := f.GetSheetList()
		if want := len(folder(t, r)) - 4; len(sheets)-2 < want-2 { // the assumptions share a sheet
			t.Errorf("%s: %d sheets for %d tables", name, len(sheets), want)
		}
		if sheets[0] != "Answer" || sheets[1] != "Assumptions and seed" || sheets[len(sheets)-1] != "All values" {
			t.Errorf("%s: sheets %q", name, sheets)
		}
		if _, again := workbook(t, r); !bytes.Equal(first, again) {
			t.Errorf("%s: two files of the same results differ", name)
		}
	}
	f, _ := workbook(t, fixture.Run())
	kind, err := f.GetCellType("What the vessels did", "B3")
	if value, _ := f.GetCellValue("What the vessels did", "B3", excelize.Options{RawCellValue: true}); err != nil || kind == excelize.CellTypeSharedString {
		t.Errorf("a figure is kept as %v: %q", kind, value)
	}
}

func TestExportSaysWhatIsWrong(t *testing.T) {
	r := fixture.Run()
	nowhere := filepath.Join(t.TempDir(), "none", "tables.xlsx")
	if err := export.XLSX(nowhere, r, ""); err == nil || !strings.Contains(err.Error(), "make it first") {
		t.Errorf("no folder: %v", err)
	}
	taken := filepath.Join(t.TempDir(), "taken")
	if err := os.WriteFile(taken, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := export.CSV(taken, r, ""); err == nil || !strings.Contains(err.Error(), "a file of this name is there") {
		t.Errorf("a file in the way: %v", err)
	}
	r.Stations[0].BaseH = math.NaN()
	if err := export.CSV(filepath.Join(t.TempDir(), "nan"), r, ""); err == nil || !strings.Contains(err.Error(), "stations[0].base_h") {
		t.Errorf("no number: %v", err)
	}
}

// A text longer than the 32,767 characters of a spreadsheet's cell goes on in rows below; put together again it is whole.
func TestLongTextIsInFull(t *testing.T) {
	r := fixture.Run()
	r.Warnings[0].Text = strings.Repeat("😀 two ", 7000) + "end"
	f, _ := workbook(t, r)
	rows, err := f.GetRows("All values")
	if err != nil {
		t.Fatal(err)
	}
	whole, parts := "", 0
	for _, row := range rows {
		if strings.HasPrefix(row[0], "warnings[0].text (part ") {
			whole, parts = whole+row[1], parts+1
		}
	}
	if parts != 2 || whole != r.Warnings[0].Text {
		t.Errorf("%d parts with %d of %d bytes", parts, len(whole), len(r.Warnings[0].Text))
	}
}

// A folder holds the tables of the last export alone, and what somebody else has put there.
func TestCSVTakesAnEarlierExportAway(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "tables")
	if err := export.CSV(dir, fixture.Run(), ""); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"own.csv": "a,b\r\n", "notes.txt": "mine"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := export.CSV(dir, fixture.Payback(), ""); err != nil {
		t.Fatal(err)
	}
	fresh := folder(t, fixture.Payback())
	left, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	own := 0
	for _, f := range left {
		if f.Name() == "own.csv" || f.Name() == "notes.txt" {
			own++
		} else if fresh[f.Name()] == nil {
			t.Errorf("%s is of the earlier results", f.Name())
		}
	}
	if own != 2 || len(left) != len(fresh)+own {
		t.Errorf("%d files, %d of them not of an export; want %d and 2", len(left), own, len(fresh)+2)
	}
}

// A contents.csv that somebody has changed takes nothing else away.
func TestCSVTakesOnlyItsOwnAway(t *testing.T) {
	top := t.TempDir()
	dir := filepath.Join(top, "tables")
	if err := os.Mkdir(dir, 0o777); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{
		filepath.Join(top, "kept.csv"): "kept", filepath.Join(dir, "kept.yaml"): "kept",
		filepath.Join(dir, "contents.csv"): "file,section,table,remark\r\n../kept.csv,,,\r\nkept.yaml,,,\r\n",
	} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := export.CSV(dir, fixture.Bare(), ""); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{filepath.Join(top, "kept.csv"), filepath.Join(dir, "kept.yaml")} {
		if _, err := os.Stat(name); err != nil {
			t.Error(err)
		}
	}
}
