package sheet

import (
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// texts is a table as plain text, rows first.
func texts(t *Table) [][]string {
	all := [][]string{{}}
	for _, h := range t.Head {
		all[0] = append(all[0], h.Text)
	}
	for _, r := range t.Rows {
		row := []string{}
		for i := range t.Head {
			row = append(row, r.At(i).Text)
		}
		all = append(all, row)
	}
	return all
}

func headlines(faults []Fault) []string {
	var all []string
	for _, f := range faults {
		all = append(all, f.Error())
	}
	return all
}

func TestCSV(t *testing.T) {
	want := [][]string{{"task", "time (s)"}, {"tip", "4.5"}, {"fill", "110"}}
	for _, c := range []struct {
		name, text string
		want       [][]string
	}{
		{"plain", "task,time (s)\ntip,4.5\nfill,110\n", want},
		{"mark of byte order", "\ufefftask,time (s)\ntip,4.5\nfill,110", want},
		{"semicolons", "task;time (s)\ntip;4.5\nfill;110", want},
		{"tabs", "task\ttime (s)\ntip\t4.5\nfill\t110", want},
		{"separator said", "sep=;\ntask;time (s)\ntip;4.5\nfill;110", want},
		{"separator said to be a tab", "sep=\t\ntask\ttime (s)\ntip\t4.5\nfill\t110", want},
		{"separator said to be a stroke", " sep=|\r\ntask|time (s)\r\ntip|4.5\r\nfill|110", want},
		{"mixed line ends", "task,time (s)\r\ntip,4.5\rfill,110\n", want},
		{"blank lines", "\n\ntask,time (s)\n,\n\ntip,4.5\n  \nfill,110\n\n", want},
		{"quotes", "\"task\",\"time (s)\"\n\"tip\",\"4.5\"\nfill,110", want},
		{"blanks around", " task , time (s) \n tip, 4.5\nfill ,\u00a0110", want},
		{"empty cells at the end", "task,time (s),,\ntip,4.5,,\nfill,110,,", want},
		{"short row", "task,time (s)\ntip", [][]string{{"task", "time (s)"}, {"tip", ""}}},
		{"comma and quote inside", "a,b\n\"x, \"\"y\"\"\",2", [][]string{{"a", "b"}, {`x, "y"`, "2"}}},
		{"line end inside quotes", "a,b\n\"x\r\ny\",2", [][]string{{"a", "b"}, {"x\ny", "2"}}},
		{"decimal comma by semicolons", "a;b\n1,5;2", [][]string{{"a", "b"}, {"1,5", "2"}}},
		{"UTF-16", "\xff\xfea\x00\t\x00b\x00\n\x001\x00\t\x002\x00", [][]string{{"a", "b"}, {"1", "2"}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, faults, err := ReadBytes("t.csv", []byte(c.text), Options{})
			if err != nil || len(faults) > 0 {
				t.Fatalf("refused: %v %v", err, faults)
			}
			if d := cmp.Diff(c.want, texts(got)); d != "" {
				t.Error(d)
			}
		})
	}
}

func TestRefusedRowsAreNamed(t *testing.T) {
	for _, c := range []struct {
		name, text string
		rows       int
		want       []string
	}{
		{"too many cells", "a,b\n1,5,2\n3,4", 1, []string{`t.csv:2:3: found a cell "2" beyond the last heading, want at most 2 cells, as there are headings ` +
			`(a number with a comma is two cells here unless it stands in quotes; or the heading is missing)`}},
		{"quote inside a bare cell", "a,b\nx\"y,2\n3,4", 1, []string{`t.csv:2:1: found a quote mark that does not fit, want quote marks around a whole cell, doubled ("") inside it`}},
		{"quote never closed", "a,b\n1,2\n\"3,4\n5,6\n", 1, []string{`t.csv:3:1: found a quote mark that is not closed, so that nothing after it can be read, want quote marks around a whole cell, doubled ("") inside it`}},
		{"heading twice", "a,A\n1,2", 1, []string{`t.csv:1:2: found "A", want each heading once (first at t.csv:1:1)`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, faults, err := ReadBytes("t.csv", []byte(c.text), Options{})
			if err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(c.want, headlines(faults)); d != "" {
				t.Error(d)
			}
			if len(got.Rows) != c.rows {
				t.Errorf("%d rows, want %d", len(got.Rows), c.rows)
			}
		})
	}
}

func TestFilesThatAreNoTable(t *testing.T) {
	for _, c := range []struct{ name, bytes, want string }{
		{"empty", "", "is empty"},
		{"blank", "\n \n;;\n", "is empty"},
		{"old workbook", "\xd0\xcf\x11\xe0rest", ".xls"},
		{"PDF", "%PDF-1.7", "PDF"},
		{"not UTF-8", "a,b\n1,gr\xf6n", "line 2"},
		{"zeros", "a\x00b", "no text file"},
		{"broken workbook", "PK\x03\x04rubbish", "cannot be read as a workbook"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, _, err := ReadBytes("t.csv", []byte(c.bytes), Options{})
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want one with %q", err, c.want)
			}
		})
	}
	if _, _, err := Read(filepath.Join(t.TempDir(), "none.csv"), Options{}); err == nil || !strings.Contains(err.Error(), "is not there") {
		t.Errorf("a missing file gave %v", err)
	}
}

func TestSeconds(t *testing.T) {
	for _, c := range []struct {
		name, cell, unit string
		comma            bool
		want             float64
		fault            string
	}{
		{"seconds", "12.5", "s", false, 12.5, ""},
		{"minutes", "1.5", "min", false, 90, ""},
		{"own unit", "2 min", "s", false, 120, ""},
		{"decimal comma", "12,5", "s", true, 12.5, ""},
		{"decimal comma not declared", "12,5", "s", false, 0, "--decimal-comma"},
		{"thousands point", "1.234", "s", true, 0, "thousands"},
		{"clock with hours", "0:02:05", "s", false, 125, ""},
		{"clock with fractions", "0:02:05.5", "", false, 125.5, ""},
		{"minutes and seconds", "2:05", "m:ss", false, 125, ""},
		{"hours and minutes", "2:05", "h:mm", false, 7500, ""},
		{"one colon and no unit", "2:05", "s", false, 0, "m:ss"},
		{"no unit", "12", "", false, 0, "unit"},
		{"below zero", "-3", "s", false, 0, "0 or more"},
		{"empty", "", "s", false, 0, "an empty cell"},
		{"words", "about 20", "s", false, 0, "found"},
		{"infinite", "1e999", "s", false, 0, "found"},
		{"milliseconds", "250", "milliseconds", false, 0.25, ""},
		{"a year", "8784:00:00", "h:mm:ss", false, 366 * 86400, ""},
		{"more than a year with hours", "8784:00:01", "h:mm:ss", false, 0, "at most a year"},
		{"more than a year in minutes", "527040:01", "m:ss", false, 0, "at most a year"},
		{"hours beyond all numbers", strings.Repeat("9", 400) + ":00", "h:mm", false, 0, "at most a year"},
		{"three parts beyond all numbers", strings.Repeat("9", 400) + ":00:00", "h:mm:ss", false, 0, "at most a year"},
		{"minutes and seconds, to the second", "0:01:30", "m:ss", false, 90, ""},
		{"hours under minutes and seconds", "1:30:00", "m:ss", false, 0, "type minutes and seconds as 0:01:30"},
		{"plain number under m:ss", "45", "m:ss", false, 0, `Write "45 s" or "45 min"`},
		{"plain number under h:mm", "45", "h:mm", false, 0, `Write "45 s" or "45 min"`},
		{"plain number under h:mm:ss", "45", "h:mm:ss", false, 0, `Write "45 s" or "45 min"`},
		{"number with its unit under m:ss", "45 min", "m:ss", false, 2700, ""},
		{"no cell carries a way of writing", "45 m:ss", "s", false, 0, "found"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, f := (&Table{DecimalComma: c.comma}).Seconds(Cell{Text: c.cell}, c.unit)
			if c.fault == "" && (f != nil || got != c.want) {
				t.Errorf("%v %v, want %v", got, f, c.want)
			}
			if c.fault != "" && (f == nil || !strings.Contains(f.Error(), c.fault)) {
				t.Errorf("fault %v, want one with %q", f, c.fault)
			}
		})
	}
}

func TestMoment(t *testing.T) {
	for _, text := range []string{"2026-03-02 06:05", "2.3.2026 06:05", "02.03.2026 06:05:00", "2026-03-02T06:05"} {
		got, f := (&Table{}).Moment(Cell{Text: text})
		if f != nil || got.Format("2006-01-02 15:04") != "2026-03-02 06:05" {
			t.Errorf("%s: %v %v", text, got, f)
		}
	}
	if _, f := (&Table{}).Moment(Cell{Text: "03/02/2026 06:05"}); f == nil || !strings.Contains(f.Error(), "two ways") {
		t.Errorf("strokes gave %v", f)
	}
}

func TestHeadings(t *testing.T) {
	c := Cell{Text: "Hand  Time [min]"}
	if c.Name() != "hand time" || c.Unit() != "min" || c.TimeUnit() != "min" {
		t.Errorf("%q %q", c.Name(), c.Unit())
	}
	if u := (Cell{Text: "Seconds"}).TimeUnit(); u != "seconds" {
		t.Errorf("unit %q", u)
	}
}

// Every row is read or named: for any cells, as many rows come out as went in and were not blank.
func TestNoRowIsLost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := rapid.SliceOfN(rapid.SliceOfN(rapid.StringMatching(`[a-z0-9 ,.]{0,6}`), 1, 4), 1, 12).Draw(t, "rows")
		var b strings.Builder
		b.WriteString("p;q;r\n")
		filled := 0
		for _, r := range rows {
			line := strings.Join(r, ";")
			if strings.Trim(line, "; ") != "" {
				filled++
			}
			b.WriteString(line + rapid.SampledFrom([]string{"\n", "\r\n", "\r", "\n\n"}).Draw(t, "end"))
		}
		got, faults, err := ReadBytes("t.csv", []byte(b.String()), Options{})
		if err != nil {
			t.Fatal(err)
		}
		if len(got.Rows)+len(faults) != filled {
			t.Fatalf("%d rows and %d faults of %d", len(got.Rows), len(faults), filled)
		}
	})
}

func FuzzRead(f *testing.F) {
	f.Add([]byte("task,time (s)\ntip,4.5\n"))
	f.Add([]byte("sep=;\n\"a\";b\r1;2"))
	f.Fuzz(func(t *testing.T, b []byte) {
		if got, _, err := ReadBytes("t", b, Options{}); err == nil && got == nil {
			t.Error("neither a table nor an error")
		}
	})
}

func TestSizeIsLimited(t *testing.T) {
	path := filepath.Join(t.TempDir(), "large.csv")
	if err := os.WriteFile(path, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(path, mostBytes+1); err != nil {
		t.Fatal(err)
	}
	if _, _, err := Read(path, Options{}); err == nil || !strings.Contains(err.Error(), "larger than 32 MiB") {
		t.Errorf("a large file gave %v", err)
	}
}

// What would take far more memory than the file is refused or costs nothing.
func TestCSVIsLimited(t *testing.T) {
	for _, c := range []struct {
		name, text, want string
		o                Options
	}{
		{"a line of separators without end", "a,b\n" + strings.Repeat(",", 1<<20), "has a line of more than 16384 cells", Options{}},
		{"far cells in many rows", strings.Repeat(strings.Repeat(";", 499)+"1\n", 81), "has more than 40000 cells", Options{cells: 40_000}},
		{"too many rows", "a\n1\n2\n3", "has more than 2 rows", Options{Rows: 2}},
		{"just so many rows", "a\n1\n2", "", Options{Rows: 2}},
		{"a wide heading over short rows", columnsOf(500) + "\n" + strings.Repeat("1\n", 10_000), "", Options{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			_, faults, err := ReadBytes("t.csv", []byte(c.text), c.o)
			runtime.ReadMemStats(&after)
			if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) || len(faults) > 0 {
				t.Errorf("%v %v, want %s", err, faults, c.want)
			}
			if mb := (after.TotalAlloc - before.TotalAlloc) >> 20; mb > 50 {
				t.Errorf("%d MiB were taken for a file of %d kB", mb, len(c.text)>>10)
			}
		})
	}
}

func columnsOf(n int) string {
	var all []string
	for i := range n {
		all = append(all, "c"+strconv.Itoa(i))
	}
	return strings.Join(all, ";")
}

// What a file says is shown, and does nothing to the terminal that shows it.
func TestQuoteIsHarmless(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"plain", "Grün 25 µL, 日本", `"Grün 25 µL, 日本"`},
		{"line break and tab", "a\nb\tc", "\"a⏎b\tc\""},
		{"colours and title", "a\x1b[31mred\x1b]0;owned\x07", `"a�[31mred�]0;owned�"`},
		{"eight-bit controls", "a\u009b31mred", `"a�31mred"`},
		{"back over what stands there", "real\rfake\b", `"real�fake�"`},
		{"turned round", "a\u202ecba", `"a�cba"`},
		{"no letters", "a\xffb", `"a�b"`},
		{"blank that does not break", "1\u00a0000", "\"1\u00a0000\""},
		{"long", strings.Repeat("ä", 61), `"` + strings.Repeat("ä", 60) + `…"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := Quote(c.text); got != c.want {
				t.Errorf("%q, want %q", got, c.want)
			}
		})
	}
}
