package scenarios

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"pascaline/scenarios/units"
)

const tableScenario = "scenario: x\nproducts: {juice: {}, puree: {}}\nlots: TABLE\nweek_of: 2026-03-18\nlabeller: {time: 1 s}\nrun: {starts: Mon 06:00}\n"

// readTable reads a scenario whose lots stand in a table beside it.
func readTable(t *testing.T, name string, table []byte, src string) (*Scenario, []Fault) {
	t.Helper()
	dir := t.TempDir()
	file := filepath.Join(dir, "x.yaml")
	for path, b := range map[string][]byte{file: []byte(strings.Replace(src, "TABLE", name, 1)), filepath.Join(dir, name): table} {
		if err := os.WriteFile(path, b, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	s, faults, err := Read(file, "")
	if err != nil {
		t.Fatal(err)
	}
	for i := range faults {
		faults[i].File = filepath.Base(faults[i].File)
	}
	return s, faults
}

// hoursAfter is a time of a lot in hours after the start.
func hoursAfter(s *Scenario, w *units.When) float64 {
	return w.After(s.Run.Starts.At.At).Seconds() / 3600
}

func checkWeek(t *testing.T, s *Scenario, faults []Fault) {
	t.Helper()
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if len(s.Lots) != 2 || s.Lots[0].Lot != "4468" || s.Lots[1].Product != "puree" || s.Lots[0].Quantity != 22000 || s.Lots[1].Group != "nuts" {
		t.Fatalf("lots: %+v", s.Lots)
	}
	if d := hoursAfter(s, s.Lots[0].Due); d != 35 { // Tuesday 17:00, from Monday 06:00 of the week of Wednesday the 18th
		t.Errorf("first lot due %g h after the start, want 35", d)
	}
	if d := hoursAfter(s, &s.Lots[1].Ready); d != 8 {
		t.Errorf("second lot ready %g h after the start, want 8", d)
	}
	if d := hoursAfter(s, s.Lots[1].Due); d != 7*24+3 {
		t.Errorf("second lot due %g h after the start, want a week and 3 h", d)
	}
}

func TestLotsFromCSV(t *testing.T) {
	s, faults := readTable(t, "w.csv", []byte("\ufeffLot;Product;Packs;Ready;Due;Allergen group\r\n4468;juice;22000;;17.3.2026 17:00;\r\n\r\n4469;puree;9600;Mon 14:00;week 2 Mon 09:00;nuts\r\n"), tableScenario)
	checkWeek(t, s, faults)
	var b strings.Builder
	if err := s.Explain(&b); err != nil || !strings.Contains(b.String(), "w.csv line 4") {
		t.Errorf("explain does not say where a lot was written (%v):\n%s", err, b.String())
	}
	other, _ := readTable(t, "w.csv", []byte("Lot;Product;Packs\n4468;juice;22001\n"), tableScenario)
	if s.Hash() == other.Hash() {
		t.Error("the table is no part of what the scenario is made from")
	}
}

func TestLotsFromXLSX(t *testing.T) {
	f := excelize.NewFile()
	defer f.Close()
	for at, v := range map[string]any{
		"A1": "Lot", "B1": "Product", "C1": "Quantity (packs)", "D1": "Ready", "E1": "Due", "F1": "Group",
		"A2": 4468, "B2": "juice", "C2": 22000, "E2": "2026-03-17 17:00",
		"A3": "4469", "B3": "puree", "C3": 9600, "D3": "Mon 14:00", "E3": "week 2 Mon 09:00", "F3": "nuts",
	} {
		if err := f.SetCellValue("Sheet1", at, v); err != nil {
			t.Fatal(err)
		}
	}
	b, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	s, faults := readTable(t, "w.xlsx", b.Bytes(), tableScenario)
	checkWeek(t, s, faults)
}

// Spreadsheets put decimals behind whole numbers; the mark under a faulty line stands under the cell, whatever letters come before.
func TestLotQuantitiesAndPlaces(t *testing.T) {
	s, faults := readTable(t, "w.csv", []byte("Lot;Product;Packs\na;juice;6300,0\nb;juice;12.00\n"), tableScenario)
	if len(faults) > 0 || s.Lots[0].Quantity != 6300 || s.Lots[1].Quantity != 12 {
		t.Errorf("%v", faults)
	}
	_, faults = readTable(t, "w.csv", []byte("\ufeffLot;Product;Packs\r\n\"Grün; ä\";juice;many\r\n"), tableScenario)
	if len(faults) != 1 || !strings.HasSuffix(faults[0].Error(), "\n   2 | \"Grün; ä\";juice;many\n     |                 ^") {
		t.Errorf("%v", faults)
	}
}

// What is wrong in a table is told at its cell; nothing is dropped.
func TestLotTableFaults(t *testing.T) {
	for name, c := range map[string]struct{ table, src, want string }{
		"unknown product":  {"Lot,Product,Packs\na,juice,10\nb,jam,10\n", tableScenario, `w.csv:3:3: lots[2].product: found "jam"`},
		"half a pack":      {"Lot,Product,Packs\na,juice,10.5\n", tableScenario, `w.csv:2:9: lots[1].quantity: found "10.5"`},
		"thousands or not": {"Lot;Product;Packs\na;juice;12.600\n", tableScenario, `w.csv:2:9: lots[1].quantity: found "12.600", want a whole number, such as "5" (only whole ones can be counted; if the point parts thousands, write 12600)`},
		"no quantity":      {"Lot,Product,Packs\na,juice,\n", tableScenario, `w.csv:2:1: lots[1]: found no quantity`},
		"no such column":   {"Lot,Product\na,juice\n", tableScenario, `w.csv:1:1: lots: found no column quantity`},
		"nothing in it":    {"Lot,Product,Packs\n", tableScenario, `w.csv:1:1: lots: found no lots`},
		"a row too long":   {"Lot,Product,Packs\na,juice,10,x,y\n", tableScenario, `w.csv`},
		"a date unplaced":  {"Lot,Product,Packs,Due\na,juice,10,2026-03-17 17:00\n", strings.Replace(tableScenario, "week_of: 2026-03-18\n", "", 1), `w.csv:2:12: lots[1].due: found "2026-03-17 17:00", want a time of the week`},
		"cases":            {"Lot;Product;Quantity (cases)\na;juice;2000\n", tableScenario, `w.csv:1:13: lots: found "Quantity (cases)", want packs, under a heading such as "quantity" or "quantity (packs)" (write packs: cases times packs_per_case`},
		"cases in a cell":  {"Lot;Product;Quantity\na;juice;2000 cases\n", tableScenario, `w.csv:2:9: lots[1].quantity: found "2000 cases"`},
		"hours till due":   {"Lot;Product;Packs;Due (h)\na;juice;2000;30\n", tableScenario, `w.csv:1:19: lots: found "Due (h)", want moments, under the heading "due"`},
		"due on a day":     {"Lot;Product;Packs;Due\na;juice;2000;17.03.2026\n", tableScenario, `w.csv:2:14: lots[1].due: found "17.03.2026", want a time of the week`},
		"ready on a day":   {"Lot;Product;Packs;Ready\na;juice;2000;2026-03-17\n", tableScenario, `w.csv:2:14: lots[1].ready: found "2026-03-17", want a time of the week`},
		"no lots anywhere": {"Lot,Product,Packs\na,juice,10\n", "scenario: x\nweek_of: 2026-03-18\nlabeller: {time: 1 s}\n", `x.yaml:2:10: week_of: found week_of without lots`},
		"a file not there": {"", strings.Replace(tableScenario, "TABLE", "other.csv", 1), `x.yaml:3:7: lots: found "other.csv"`},
	} {
		t.Run(name, func(t *testing.T) {
			_, faults := readTable(t, "w.csv", []byte(c.table), c.src)
			if len(faults) == 0 || !strings.HasPrefix(faults[0].Headline(), c.want) {
				t.Errorf("faults %v, want one that begins with %s", faults, c.want)
			}
		})
	}
}

// A cell of a workbook that shows a day alone is a day, not the moment at which it begins; one that shows midnight is midnight.
func TestDaysInLotsFromXLSX(t *testing.T) {
	for style, c := range map[int]struct{ want, fault string }{
		14: {"", `lots[1].due: found "2026-03-17", want a time of the week`},
		22: {"2026-03-17 00:00", ""},
	} {
		f := excelize.NewFile()
		defer f.Close()
		id, err := f.NewStyle(&excelize.Style{NumFmt: style})
		for at, v := range map[string]any{"A1": "Lot", "B1": "Product", "C1": "Quantity", "D1": "Due", "A2": 1, "B2": "juice", "C2": 10, "D2": 46098} {
			err = errors.Join(err, f.SetCellValue("Sheet1", at, v))
		}
		b, more := new(bytes.Buffer), f.SetCellStyle("Sheet1", "D2", "D2", id)
		if err = errors.Join(err, more, f.Write(b)); err != nil {
			t.Fatal(err)
		}
		s, faults := readTable(t, "w.xlsx", b.Bytes(), tableScenario)
		switch {
		case c.fault == "" && (len(faults) > 0 || s.Lots[0].Due.String() != c.want):
			t.Errorf("format %d: %v", style, faults)
		case c.fault != "" && (len(faults) != 1 || !strings.Contains(faults[0].Headline(), c.fault)):
			t.Errorf("format %d: %v, want %s", style, faults, c.fault)
		}
	}
}
