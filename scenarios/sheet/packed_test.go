package sheet

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"io"
	"runtime"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// packed makes a workbook of raw parts, as no library would write it.
func packed(t *testing.T, parts map[string]string) []byte {
	t.Helper()
	all := map[string]string{
		"_rels/.rels":      `<Relationships><Relationship Id="r1" Type="x/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
		"xl/workbook.xml":  `<workbook><sheets><sheet name="S" sheetId="1" r:id="rId1"/></sheets></workbook>`,
		"xl/sharedStrings": "",
		"xl/_rels/workbook.xml.rels": `<Relationships><Relationship Id="rId1" Type="x/worksheet" Target="worksheets/sheet1.xml"/>` +
			`<Relationship Id="rId2" Type="x/styles" Target="/xl/styles.xml"/><Relationship Id="rId3" Type="x/sharedStrings" Target="sharedStrings.xml"/></Relationships>`,
		"xl/styles.xml": `<styleSheet><numFmts><numFmt numFmtId="164" formatCode="[mm]:ss"/><numFmt numFmtId="165" formatCode="0 &quot;h d&quot;"/></numFmts><cellStyleXfs><xf numFmtId="14"/></cellStyleXfs>` +
			`<cellXfs><xf/><xf numFmtId="20"/><xf numFmtId="21"/><xf numFmtId="14"/><xf numFmtId="22"/><xf numFmtId="164"/><xf numFmtId="165"/></cellXfs></styleSheet>`,
		"xl/sharedStrings.xml": `<sst><si><t>task</t></si><si><r><t>time </t></r><rPh><t>spoken</t></rPh><r><t xml:space="preserve">(m:ss)</t></r></si></sst>`,
	}
	for name, text := range parts {
		all[name] = text
	}
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	z.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) { return flate.NewWriter(w, flate.BestSpeed) })
	for name, text := range all {
		w, err := z.Create(name)
		if err == nil {
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

// sheetOfRows is a workbook whose only sheet has these rows as they are stored.
func sheetOfRows(t *testing.T, rows string) []byte {
	return packed(t, map[string]string{"xl/worksheets/sheet1.xml": `<?xml version="1.0"?><worksheet><cols><c/></cols><sheetData>` + rows + `</sheetData><f>no cell</f></worksheet>`})
}

const packedHead = `<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c></row>`

func inline(text string) string { return `<c t="inlineStr"><is><t>` + text + `</t></is></c>` }

// What is stored comes out, whatever kind of cell it is; a row or cell without its place follows the one before.
func TestStoredCells(t *testing.T) {
	got, faults, err := ReadBytes("t.xlsx", sheetOfRows(t, packedHead+`<row>`+inline("a_x000D_b")+`<c><v>1.50</v></c></row>`+
		`<row r="7"><c r="B7" t="b"><v>1</v></c></row><row><c t="str"><f>A1</f><v> text </v></c><c s="3"><v>46098</v></c></row>`+
		`<row><c s="4"><v>46098</v></c><c s="3"><v>46098.25</v></c></row><row><c s="5"><v>0.0625</v></c><c s="6"><v>0.0625</v></c></row>`+
		`<row><c t="d"><v>2026-03-17T06:00:00Z</v></c><c t="str"><f>IF(1,"")</f><v></v></c></row>`), Options{})
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
	blank := strings.Repeat(`<row><c/><c t="inlineStr"><is><t></t></is></c><c s="1"/></row>`, 50_000)
	_, faults, err := ReadBytes("t.xlsx", sheetOfRows(t, packedHead+blank+`<row>`+inline("tip")+`<c><f>1+1</f><v></v></c></row>`), Options{})
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
		{"a row of empty cells without end", "row 2 has a cell outside of any sheet", packedHead + `<row r="2">` + strings.Repeat("<c/>", 1_000_000) + `</row>`, Options{}},
		{"far cells in many rows", "has more than 40000 cells", packedHead + strings.Repeat(`<row><c r="SF1"><v>1</v></c></row>`, 81), Options{cells: 40_000}}, // the last column that is read
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
			if mb := (after.TotalAlloc - before.TotalAlloc) >> 20; mb > 50 {
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
		{"no such part", "xl/_rels/workbook.xml.rels", `<Relationships><Relationship Id="rId1" Type="x/worksheet" Target="none.xml"/></Relationships>`, "there is no xl/none.xml in it"},
		{"no sheet", "xl/workbook.xml", `<workbook/>`, "has no sheet"},
		{"a mark that is not closed", "xl/worksheets/sheet1.xml", `<worksheet><sheetData><row`, "cannot be read as a workbook"},
		{"a row without a number", "xl/worksheets/sheet1.xml", `<worksheet><sheetData><row r="x">`, `a row has the number "x"`},
		{"nothing in it", "xl/worksheets/sheet1.xml", `<worksheet/>`, "is empty"},
		{"a cell nowhere", "xl/worksheets/sheet1.xml", `<worksheet><sheetData><row r="1"><c r="ZZZZZZZZZZZZZZ1"/>`, "outside of any sheet"},
		{"a text that is not there", "xl/worksheets/sheet1.xml", `<worksheet><sheetData><row r="1"><c t="s"><v>9</v></c></row></sheetData></worksheet>`, "a text that is not in it"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if _, _, err := ReadBytes("t.xlsx", packed(t, map[string]string{c.part: c.text}), Options{}); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%v, want %s", err, c.want)
			}
		})
	}
}
