package sheet

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"errors"
	"fmt"
	"io"
	"runtime"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
)

// packed is a workbook with parts of it as nobody would write them. Its styles 1 to 6 show h:mm, h:mm:ss, a day, a day with its time, minutes beyond the
// hour, and a plain number with words.
func packed(t *testing.T, parts map[string]string) []byte {
	t.Helper()
	plain := book(t, func(f *excelize.File) error {
		err := errors.Join(f.SetSheetName("Sheet1", "S"), f.SetCellValue("S", "A1", "task"), f.SetCellValue("S", "B1", "time (m:ss)"))
		minutes, words := "[mm]:ss", `0 "h d"`
		for _, s := range []excelize.Style{{NumFmt: 20}, {NumFmt: 21}, {NumFmt: 14}, {NumFmt: 22}, {CustomNumFmt: &minutes}, {CustomNumFmt: &words}} {
			_, e := f.NewStyle(&s)
			err = errors.Join(err, e)
		}
		return err
	})
	from, err := zip.NewReader(bytes.NewReader(plain), int64(len(plain)))
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	z.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) { return flate.NewWriter(w, flate.BestSpeed) })
	for _, f := range from.File {
		w, err := z.Create(f.Name)
		text, own := parts[f.Name]
		if err == nil && !own {
			err = copyPart(w, f)
		} else if err == nil {
			_, err = io.WriteString(w, text)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func copyPart(w io.Writer, f *zip.File) error {
	r, err := f.Open()
	if err != nil {
		return err
	}
	defer r.Close()
	_, err = io.Copy(w, r)
	return err
}

const firstSheet = "xl/worksheets/sheet1.xml"

// sheetOfRows is a workbook whose only sheet has these rows as they are stored.
func sheetOfRows(t *testing.T, rows string) []byte {
	return packed(t, map[string]string{firstSheet: `<?xml version="1.0"?><worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>` + rows + `</sheetData></worksheet>`})
}

const packedHead = `<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c></row>`

func inline(text string) string { return `<c t="inlineStr"><is><t>` + text + `</t></is></c>` }

// What is stored comes out, whatever kind of cell it is; a row or cell without its place follows the one before.
func TestStoredCells(t *testing.T) {
	got, faults, err := ReadBytes("t.xlsx", sheetOfRows(t, packedHead+`<row>`+inline("a_x000D_b")+`<c><v>1.50</v></c></row>`+
		`<row r="7"><c r="B7" t="b"><v>1</v></c></row><row><c t="str"><f>A1</f><v> text </v></c><c s="3"><v>46098</v></c></row>`+
		`<row><c s="4"><v>46098</v></c><c s="3"><v>46098.25</v></c></row><row><c s="5"><v>0.0625</v></c><c s="6"><v>0.0625</v></c></row>`+
		`<row><c t="d"><v>2026-03-17T06:00:00</v></c><c t="str"><f>IF(1,"")</f><v></v></c></row>`), Options{})
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	want := [][]string{{"task", "time (m:ss)"}, {"a\rb", "1.50"}, {"", "TRUE"}, {"text", "2026-03-17"}, {"2026-03-17 00:00:00", "2026-03-17 06:00:00"},
		{"1:30:00", "0.0625"}, {"2026-03-17T06:00:00", ""}}
	if d := cmp.Diff(want, texts(got)); d != "" {
		t.Error(d)
	}
	if r := got.Rows[1]; r.Number != 7 || r.At(1).Place() != "t.xlsx:S!B7" || got.Rows[5].At(1).Place() != "t.xlsx:S!B11" {
		t.Errorf("row %d, places %s and %s", r.Number, r.At(1).Place(), got.Rows[5].At(1).Place())
	}
}

// A spreadsheet takes 1:30 as hours and minutes, under whatever heading it is typed; read as they are stored, such times are 60 times too long.
func TestTypedMinutesAndSeconds(t *testing.T) {
	for _, c := range []struct {
		name, unit, style, days string
		want                    float64
		fault                   string
	}{
		{"an hour and a half under m:ss", "m:ss", "1", "0.0625", 0, "type minutes and seconds as 0:01:30"},
		{"three quarters of an hour under m:ss", "m:ss", "1", "0.03125", 0, "type minutes and seconds as 0:01:30"},
		{"shown with seconds, an hour under m:ss", "m:ss", "2", "0.0625", 0, "type minutes and seconds as 0:01:30"},
		{"shown with seconds, 90 s under m:ss", "m:ss", "2", "0.0010416666666666667", 90, ""},
		{"shown without seconds but with some", "m:ss", "1", "0.0010532407407407407", 91, ""},
		{"under seconds", "s", "1", "0.0625", 0, `head the column "time (h:mm)"`},
		{"under no unit", "", "1", "0.0625", 0, `head the column "time (h:mm)"`},
		{"under h:mm", "h:mm", "1", "0.0625", 5400, ""},
		{"shown with seconds under s", "s", "2", "0.0625", 5400, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, faults, err := ReadBytes("t.xlsx", sheetOfRows(t, packedHead+`<row r="2">`+inline("tip")+`<c s="`+c.style+`"><v>`+c.days+`</v></c></row>`), Options{})
			if err != nil || len(faults) > 0 {
				t.Fatal(err, faults)
			}
			s, f := got.Seconds(got.Rows[0].At(1), c.unit)
			if c.fault == "" && (f != nil || s != c.want) || c.fault != "" && (f == nil || !strings.Contains(f.Error(), c.fault)) {
				t.Errorf("%v %v, want %v %s", s, f, c.want, c.fault)
			}
		})
	}
}

// No row with a formula that was never worked out is dropped, however many empty cells come before.
func TestFormulaAfterManyEmptyCells(t *testing.T) {
	var blank strings.Builder
	for n := range 50_000 {
		fmt.Fprintf(&blank, `<row r="%d"><c/><c t="inlineStr"><is><t></t></is></c><c s="1"/></row>`, n+2)
	}
	_, faults, err := ReadBytes("t.xlsx", sheetOfRows(t, packedHead+blank.String()+`<row r="50002">`+inline("tip")+`<c><f>1+1</f><v></v></c></row>`), Options{})
	want := []string{"t.xlsx:S!B50002: found a formula without a stored value, want a value (open the file in its own program, let it calculate, and save it again)"}
	if d := cmp.Diff(want, headlines(faults)); d != "" || err != nil {
		t.Error(d, err)
	}
}

// A small file that unpacks to much is refused before it takes much memory.
func TestPackedFilesAreLimited(t *testing.T) {
	for _, c := range []struct {
		name, want, rows string
		o                Options
	}{
		{"a row of empty cells without end", "more than 16384 in a row", packedHead + `<row r="2">` + strings.Repeat("<c/>", 1_000_000) + `</row>`, Options{}},
		{"far cells in many rows", "has more than 40000 cells", packedHead + strings.Repeat(`<row><c r="SF1"><v>1</v></c></row>`, 81), Options{cells: 40_000}}, // the last column that is read
		{"cells without end", "has more than 1000000 cells", packedHead + strings.Repeat("<row>"+strings.Repeat("<c/>", 10_000)+"</row>", 101), Options{}},
		{"rows without numbers", "is damaged", strings.Repeat("<row/>", 10_001), Options{}},
		{"too many rows", "has more than 1000 rows", packedHead + strings.Repeat(`<row><c><v>1</v></c></row>`, 1_001), Options{Rows: 1_000}},
		{"more than is unpacked", "is larger than 64 MiB when it is unpacked", strings.Repeat("<!--"+strings.Repeat(" ", 1<<20)+"-->", 65), Options{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := sheetOfRows(t, c.rows)
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			_, _, err := ReadBytes("t.xlsx", b, c.o)
			runtime.ReadMemStats(&after)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%v, want %s", err, c.want)
			}
			if mb := (after.TotalAlloc - before.TotalAlloc) >> 20; mb > 200 {
				t.Errorf("%d MiB were taken for a file of %d kB", mb, len(b)>>10)
			}
		})
	}
}

// A cell beyond the last column that is read names its row, as others beyond the last heading do; empty ones there mean nothing.
func TestFarCells(t *testing.T) {
	got, faults, err := ReadBytes("t.xlsx", sheetOfRows(t, packedHead+`<row><c r="SG2"><v>1</v></c></row><row><c><v>1</v></c><c r="XFD3" s="1"/></row>`), Options{})
	if err != nil || len(got.Rows) != 1 {
		t.Fatal(got, err)
	}
	if d := cmp.Diff([]string{`t.xlsx:S!SG2: found "1", want cells in the first 500 columns (keep only the columns that are needed)`}, headlines(faults)); d != "" {
		t.Error(d)
	}
}

func TestBrokenWorkbooks(t *testing.T) {
	for _, c := range []struct{ name, part, text, want string }{
		{"no sheet", "xl/workbook.xml", `<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"/>`, "has no sheet"},
		{"a mark that is not closed", firstSheet, `<worksheet><sheetData><row`, "is damaged"},
		{"a part that ends too early", firstSheet, `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>` + packedHead, "is damaged"},
		{"a row without a number", firstSheet, `<worksheet><sheetData><row r="x"></row></sheetData></worksheet>`, "row 1 cannot be read"},
		{"nothing in it", firstSheet, `<worksheet/>`, "is empty"},
		{"a cell nowhere", firstSheet, `<worksheet><sheetData><row r="1"><c r="ZZZZZZZZZZZZZZ1"/></row></sheetData></worksheet>`, "row 1 cannot be read"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if _, _, err := ReadBytes("t.xlsx", packed(t, map[string]string{c.part: c.text}), Options{}); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%v, want %s", err, c.want)
			}
		})
	}
}
