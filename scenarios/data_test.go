package scenarios

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
)

// readReadings reads a packing time from a table beside a scenario.
func readReadings(t *testing.T, name string, table []byte, column string) ([]float64, []Fault) {
	t.Helper()
	src := "scenario: x\npacking: {time: {file: " + name + "}}\n"
	if column != "" {
		src = strings.Replace(src, "}}", ", column: "+quoteYAML(column)+"}}", 1)
	}
	dir := t.TempDir()
	for path, b := range map[string][]byte{"x.yaml": []byte(src), name: table} {
		if err := os.WriteFile(filepath.Join(dir, path), b, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	s, faults, err := Read(filepath.Join(dir, "x.yaml"), "")
	if err != nil {
		t.Fatal(err)
	}
	for i := range faults {
		faults[i].File = filepath.Base(faults[i].File)
	}
	if s == nil {
		return nil, faults
	}
	return s.Packing.Time.Law().Values, faults
}

// A table of readings is found and read by the same headings, units and habits as one that is given to fit.
func TestReadings(t *testing.T) {
	want := []float64{15, 30}
	for _, c := range []struct{ name, table, column string }{
		{"seconds alone", "seconds\n30\n15\n", ""},
		{"unit as the heading", "s\n30\n15\n", ""},
		{"its column by name", "order,hand time (min)\n1,0.5\n2,0.25\n", "hand time"},
		{"its column with the unit", "order,hand time (min)\n1,0.5\n2,0.25\n", "hand time (min)"},
		{"the first of two of a name", "hand time (s),hand time (min)\n30,1\n15,1\n", "hand time"},
		{"as it was written before any case", "Hand Time (min),hand time (s)\n9,30\n9,15\n", "hand time"},
		{"milliseconds", "milliseconds\n30000\n15000\n", ""},
		{"hours", "hours\n0.008333333333333333\n0.004166666666666667\n", ""},
		{"numbers of all kinds", "x,seconds\na,+30.\nb,.15e2\n", "seconds"},
		{"notes in an old code page", "gr\xf6\xdfe,note,note,time (s)\n\xe4,,,30\n,\xe4,,15\n", "time"},
		{"a short word", "Task,sec\na,30\nb,15\n", "sec"},
		{"in any case", "Order,Time (Sec)\n1,30\n2,15\n", "time"},
		{"square brackets", "Time [s]\n30\n15\n", ""},
		{"with colons", "time (m:ss)\n0:30\n0:15\n", ""},
		{"own units", "time (min)\n30 s\n0.25\n", ""},
		{"semicolons", "order;time (s)\n1;30\n2;15\n", "time"},
		{"separator said", "sep=\t\norder\ttime (s)\n1\t30\n2\t15\n", "time"},
		{"UTF-16", "\xff\xfes\x00\n\x003\x000\x00\n\x001\x005\x00", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, faults := readReadings(t, "w.csv", []byte(c.table), c.column)
			if len(faults) > 0 {
				t.Fatal(faults)
			}
			if d := cmp.Diff(want, got); d != "" {
				t.Error(d)
			}
		})
	}
}

func TestReadingsFromXLSX(t *testing.T) {
	f := excelize.NewFile()
	defer f.Close()
	for at, v := range map[string]any{"A1": "order", "B1": "Time (s)", "A2": 1, "B2": 30, "A3": 2, "B3": 15, "C3": nil} {
		if err := f.SetCellValue("Sheet1", at, v); err != nil {
			t.Fatal(err)
		}
	}
	b, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	got, faults := readReadings(t, "w.xlsx", b.Bytes(), "time")
	if d := cmp.Diff([]float64{15, 30}, got); d != "" || len(faults) > 0 {
		t.Error(faults, d)
	}
}

func TestReadingsAreRefusedByCell(t *testing.T) {
	for _, c := range []struct{ name, table, want string }{
		{"empty", "n,time (s)\n1,\n", `w.csv:2:2: packing.time: found an empty cell, want a time`},
		{"below zero", "n,time (s)\n1,-1\n", `w.csv:2:3: packing.time: found "-1", want a time of 0 or more`},
		{"not a number", "n,time (s)\n1,NaN\n", `w.csv:2:3: packing.time: found "NaN", want a time`},
		{"beyond a year", "n,time (h)\n1,8785\n", `w.csv:2:3: packing.time: found "8785", want at most a year`},
		{"beyond all years", "n,time (s)\n1,1e99\n", `w.csv:2:3: packing.time: found "1e99", want at most a year`},
		{"to base sixteen", "n,time (s)\n1,0x1p-2\n", `w.csv:2:3: packing.time: found "0x1p-2", want a time`},
		{"decimal comma", "n;time (s)\nä;1,5\n", `w.csv:2:3: packing.time: found "1,5", want a time (a decimal comma; write 1.5)`},
		{"no readings", "n,time (s)\n", `w.csv:1:1: packing.time: found no readings`},
		{"no unit", "n,time\n1,2\n", `w.csv:1:3: packing.time: found "time", want a heading with its unit`},
		{"a unit of something else", "n,time (kg)\n1,2\n", `w.csv:1:3: packing.time: found "time (kg)", want a heading with its unit`},
		{"plain under colons", "n,time (m:ss)\n1,2\n", `w.csv:2:3: packing.time: found "2", want a time with colons`},
		{"cells beyond the headings", "n,time (s)\n1,2,3\n", `w.csv:2:5: packing.time: found a cell "3" beyond the last heading`},
		{"nothing", "", `x.yaml:2:24: packing.time: found "w.csv", want a CSV or XLSX table of readings (`},
		{"no workbook", "PK\x03\x04", `x.yaml:2:24: packing.time: found "w.csv", want a CSV or XLSX table of readings (`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, faults := readReadings(t, "w.csv", []byte(c.table), "time")
			if len(faults) == 0 || !strings.HasPrefix(faults[0].Headline(), c.want) {
				t.Errorf("%v, want %s", faults, c.want)
			}
		})
	}
}

// A file is read whole or not at all.
func TestTooLargeFilesAreRefused(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"big.csv": "seconds\n1\n", "x.yaml": "scenario: x\npacking: {time: {file: big.csv}}\n", "big.yaml": "scenario: x\n"} {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if strings.HasPrefix(name, "big") && os.Truncate(path, mostData+1) != nil {
			t.Fatal("no room")
		}
	}
	_, faults, err := Read(filepath.Join(dir, "x.yaml"), "")
	if err != nil || len(faults) != 1 || !strings.Contains(faults[0].Headline(), `packing.time.file: found "big.csv"`) ||
		!strings.Contains(faults[0].Hint, "it is larger than 32 MiB; keep only the rows and columns that are needed") {
		t.Error(faults, err)
	}
	if _, _, err := Read(filepath.Join(dir, "big.yaml"), ""); err == nil || !strings.Contains(err.Error(), "big.yaml is larger than 32 MiB") {
		t.Error(err)
	}
}
