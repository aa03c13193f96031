//go:build independent

package main

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"pascaline/report/office"
	"pascaline/sim/result"
)

// TestWorkbookInLibreOffice lets another program work the workbook out: from its formulas alone, all stored values taken away, every cell comes to what
// the program stored; and with other inputs, to what the program says when it is asked about these.
func TestWorkbookInLibreOffice(t *testing.T) {
	dir := t.TempDir()
	plain := example(t, "plain.yaml")
	write(t, filepath.Join(dir, "plain.yaml"), plain)
	text := example(t, "payback.yaml")
	text = strings.Replace(text, "    packers: {cost: 22", "    packers: {saved_hours: not paid, cost: 22", 1)
	write(t, filepath.Join(dir, "first.yaml"), text)
	other := strings.NewReplacer("likely: 0.16 EUR", "likely: 0.175 EUR", "likely: 385000", "likely: 340000", "likely: 170000", "likely: 205000",
		"discount_rate: 9 %", "discount_rate: 12 %", "tax: 25 %", "tax: 30 %", "depreciation: 8 years", "depreciation: 12 years",
		"price_rise: 2 %", "price_rise: 3 %", "line_stands: 24 h", "line_stands: 60 h", "fitter: 34", "fitter: 40").Replace(text)
	write(t, filepath.Join(dir, "second.yaml"), other)
	first, second := asked(t, dir, "first"), asked(t, dir, "second")

	stored := filepath.Join(dir, "first", "payback.xlsx")
	again := workedOut(t, dir, "same", stored, nil)
	compareCells(t, stored, again)

	changed := workedOut(t, dir, "changed", stored, func(f *excelize.File) { putInputs(t, f, first, second) })
	compareFigures(t, changed, second)
}

func example(t *testing.T, name string) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "scenarios", "examples", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func write(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

func asked(t *testing.T, dir, name string) *result.Payback {
	t.Helper()
	if out, talk, err := pascaline(dir, "payback", name+".yaml", "--replications", "4", "--draws", "100", "--out", name); err != nil {
		t.Fatalf("%v\n%s%s", err, out, talk)
	}
	b, err := os.ReadFile(filepath.Join(dir, name, "results.json"))
	if err != nil {
		t.Fatal(err)
	}
	r := new(result.Payback)
	if err := json.Unmarshal(b, r); err != nil {
		t.Fatal(err)
	}
	return r
}

var storedValue = regexp.MustCompile(`(</f>)<v>[^<]*</v>`)

// workedOut takes all stored values out of a workbook, changes it, and gives what LibreOffice makes of it.
func workedOut(t *testing.T, dir, name, path string, change func(*excelize.File)) *excelize.File {
	t.Helper()
	bare := filepath.Join(dir, name+".xlsx")
	if change != nil {
		f, err := excelize.OpenFile(path)
		if err != nil {
			t.Fatal(err)
		}
		change(f)
		if err := f.SaveAs(bare); err != nil {
			t.Fatal(err)
		}
		path = bare
	}
	strip(t, path, bare)
	out := filepath.Join(dir, "out-"+name)
	office.Convert(t, bare, "xlsx", out)
	f, err := excelize.OpenFile(filepath.Join(out, name+".xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func strip(t *testing.T, from, to string) {
	t.Helper()
	data, err := os.ReadFile(from)
	if err != nil {
		t.Fatal(err)
	}
	in, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, f := range in.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		b, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		if strings.HasPrefix(f.Name, "xl/worksheets/") {
			b = storedValue.ReplaceAll(b, []byte("$1"))
		}
		part, err := z.Create(f.Name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := part.Write(b); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	write(t, to, out.String())
}

func compareCells(t *testing.T, path string, again *excelize.File) {
	t.Helper()
	f, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	n := office.EachFormula(t, f, func(sheet, at, formula, want string) {
		if got := raw(again, sheet, at); !sameCell(want, got) {
			t.Errorf("%s %s: stored %q, worked out %q from %s", sheet, at, want, got, formula)
		}
	})
	if n < 500 {
		t.Errorf("only %d formulas", n)
	}
}

func raw(f *excelize.File, sheet, at string) string {
	v, err := f.GetCellValue(sheet, at, excelize.Options{RawCellValue: true})
	if err != nil {
		return err.Error()
	}
	return v
}

func sameCell(a, b string) bool {
	x, errX := strconv.ParseFloat(a, 64)
	y, errY := strconv.ParseFloat(b, 64)
	if errX != nil || errY != nil {
		return a == b && a != ""
	}
	return math.Abs(x-y) <= 1e-9*math.Max(1, math.Max(math.Abs(x), math.Abs(y)))
}

// putInputs changes the figures on the sheet of inputs from those of one answer to those of another, by their labels, in every column.
func putInputs(t *testing.T, f *excelize.File, from, to *result.Payback) {
	t.Helper()
	rows, err := f.GetRows("Inputs", excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	options := to.Options[1:]
	set := map[string]func(column int) float64{
		"contribution or fee of a pack":                       func(int) float64 { return to.Base.Side.PerPack },
		"demand in a week of the first year":                  func(int) float64 { return to.Base.Side.Demand },
		"discount rate in a year":                             func(int) float64 { return to.Base.Side.Rate },
		"tax on the gain":                                     func(int) float64 { return to.Base.Side.Tax },
		"years of straight-line depreciation":                 func(int) float64 { return float64(to.Base.Side.WriteOff) },
		"rise of prices and wages in a year":                  func(int) float64 { return to.Base.Side.Rise },
		"fitter early: an hour costs":                         func(int) float64 { return 40 },
		"fitter late: an hour costs":                          func(int) float64 { return 40 },
		"purchase":                                            func(c int) float64 { return options[c].Buy.Price },
		"rostered hours without output while it is installed": func(c int) float64 { return options[c].Buy.StandsH },
	}
	for y, row := range rows {
		value, ok := set[row[0]]
		if !ok {
			continue
		}
		delete(set, row[0])
		for x := 2; x < len(row); x++ {
			if row[x] == "" {
				continue
			}
			at, _ := excelize.CoordinatesToCellName(x+1, y+1)
			if err := f.SetCellValue("Inputs", at, value(max(0, x-3))); err != nil {
				t.Fatal(err)
			}
		}
	}
	if len(set) > 0 {
		t.Fatalf("no inputs %v", set)
	}
}

func compareFigures(t *testing.T, f *excelize.File, want *result.Payback) {
	t.Helper()
	for _, o := range want.Options[1:] {
		rate := "none"
		if len(o.Central.Rates) == 1 {
			rate = strconv.FormatFloat(o.Central.Rates[0], 'g', -1, 64)
		}
		for at, w := range map[string]string{"C2": number(&o.Central.NPV), "C3": number(o.Central.Payback), "C4": number(o.Central.Discounted), "C5": rate, "C6": number(&o.Central.Annual)} {
			if got := raw(f, o.Name, at); !sameCell(got, w) && !(at == "C5" && (len(o.Central.Rates) > 1 || got == "not unique")) {
				t.Errorf("%s %s: %q, the program says %q", o.Name, at, got, w)
			}
		}
	}
}

func number(v *float64) string {
	if v == nil {
		return "never"
	}
	return strconv.FormatFloat(*v, 'g', -1, 64)
}
