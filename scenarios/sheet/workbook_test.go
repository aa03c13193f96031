package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"
)

// book makes a workbook; fill sets its cells.
func book(t *testing.T, fill func(f *excelize.File) error) []byte {
	t.Helper()
	f := excelize.NewFile()
	if err := fill(f); err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func cells(f *excelize.File, values map[string]any) error {
	for ref, v := range values {
		if err := f.SetCellValue("Sheet1", ref, v); err != nil {
			return err
		}
	}
	return nil
}

func TestWorkbookGivesStoredValues(t *testing.T) {
	b := book(t, func(f *excelize.File) error {
		short, err := f.NewStyle(&excelize.Style{NumFmt: 1}) // shown without decimals
		if err != nil {
			return err
		}
		clock, err := f.NewStyle(&excelize.Style{NumFmt: 20}) // h:mm
		if err != nil {
			return err
		}
		own := `dd/mm/yy "at" hh:mm`
		day, err := f.NewStyle(&excelize.Style{CustomNumFmt: &own})
		if err != nil {
			return err
		}
		err = cells(f, map[string]any{"A1": "task", "B1": "time (s)", "C1": "took", "D1": "when", "A3": "tip", "B3": 4.4567, "C3": 65.25 / 86400, "D3": 46083.25})
		for ref, style := range map[string]int{"B3": short, "C3": clock, "D3": day} {
			if e := f.SetCellStyle("Sheet1", ref, ref, style); e != nil {
				return e
			}
		}
		return err
	})
	got, faults, err := ReadBytes("t.xlsx", b, Options{})
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	want := [][]string{{"task", "time (s)", "took", "when"}, {"tip", "4.4567", "0:01:05.25", "2026-03-02 06:00:00"}}
	if d := cmp.Diff(want, texts(got)); d != "" {
		t.Error(d)
	}
	if got.Rows[0].Number != 3 || got.Rows[0].Cells[1].Place() != "t.xlsx:Sheet1!B3" {
		t.Errorf("row %d, place %s", got.Rows[0].Number, got.Rows[0].Cells[1].Place())
	}
}

func TestFormulaWithoutValueIsRefused(t *testing.T) {
	b := book(t, func(f *excelize.File) error {
		if err := cells(f, map[string]any{"A1": "task", "B1": "time (s)", "A2": "tip", "A3": "tip", "B3": 7}); err != nil {
			return err
		}
		return f.SetCellFormula("Sheet1", "B2", "3+4")
	})
	got, faults, err := ReadBytes("t.xlsx", b, Options{})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"t.xlsx:Sheet1!B2: found a formula without a stored value, want a value (open the file in its own program, let it calculate, and save it again)"}
	if d := cmp.Diff(want, headlines(faults)); d != "" {
		t.Error(d)
	}
	if len(got.Rows) != 1 {
		t.Errorf("%d rows, want the other one", len(got.Rows))
	}
}

func TestSheetByName(t *testing.T) {
	b := book(t, func(f *excelize.File) error {
		if _, err := f.NewSheet("Times"); err != nil {
			return err
		}
		return f.SetCellValue("Times", "A1", "seconds")
	})
	if got, _, err := ReadBytes("t.xlsx", b, Options{Sheet: "times"}); err != nil || got.Head[0].Text != "seconds" {
		t.Errorf("%v %v", got, err)
	}
	if _, _, err := ReadBytes("t.xlsx", b, Options{Sheet: "Stops"}); err == nil || !strings.Contains(err.Error(), "Sheet1, Times") {
		t.Errorf("a missing sheet gave %v", err)
	}
}

// What a spreadsheet's library writes is read back as it was given, cell by cell.
func TestWorkbookReadsBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		rows := rapid.SliceOfN(rapid.SliceOfN(rapid.OneOf(
			rapid.Just[any](nil), rapid.Map(rapid.IntRange(-9999, 9999), func(i int) any { return i }),
			rapid.Map(rapid.StringMatching(`a[a-z&<>"ä_x0-9\n]{1,8}z`), func(s string) any { return s }),
		), 1, 6), 1, 8).Draw(rt, "rows")
		want := [][]string{{"a", "b", "c", "d", "e", "f"}}
		b := book(t, func(f *excelize.File) error {
			err := f.SetSheetRow("Sheet1", "A1", &want[0])
			for i, r := range rows {
				line, filled := make([]string, 6), false
				for k, v := range r {
					if v != nil {
						line[k], filled = fmt.Sprint(v), true
					}
				}
				if filled {
					want = append(want, line)
				}
				err = errors.Join(err, f.SetSheetRow("Sheet1", fmt.Sprintf("A%d", i+2), &r))
			}
			return err
		})
		got, faults, err := ReadBytes("t.xlsx", b, Options{})
		if err != nil || len(faults) > 0 {
			rt.Fatal(err, faults)
		}
		if d := cmp.Diff(want, texts(got)); d != "" {
			rt.Fatal(d)
		}
	})
}
