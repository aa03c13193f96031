package export

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"path/filepath"
	"strconv"
	"strings"

	"pascaline/report/store"
	"pascaline/sim/result"
)

// full is the number of decimals of a value that is written in full.
const full = -1

// CSV writes results as a folder of CSV files, which is made unless it is there: one file for each table, the answer, the assumptions with
// the seed, every value in full, and contents.csv, which says what each holds. The files are UTF-8 with a mark at the begin, their lines end as RFC 4180 has it.
// command is how to run it again; "" leaves it out. Errors name the file and say what to do.
func CSV(folder string, r result.Results, command string) error {
	b, err := bookOf(r, command)
	if err != nil {
		return err
	}
	if err := store.Folder(folder); err != nil {
		return err
	}
	contents := [][]string{{"file", "section", "table", "remark"}}
	put := func(name, section, caption, foot string, rows [][]string) error {
		contents = append(contents, []string{name, section, caption, foot})
		return writeCSV(filepath.Join(folder, name), rows)
	}
	if err := put("answer.csv", answerName, "The answer, how sure it is, warnings and cautions", "", pairRows(b.answer)); err != nil {
		return err
	}
	if err := put("seed.csv", assumptionsName, "What is needed to get the same again", "", pairRows(b.grounds)); err != nil {
		return err
	}
	all := append(append([]table{}, b.assumptions...), b.tables...)
	for i, t := range all {
		name := fmt.Sprintf("%02d-%s.csv", i+1, slug(t.caption))
		if err := put(name, t.title, t.caption, t.foot, tableRows(t)); err != nil {
			return err
		}
	}
	if err := put("values.csv", valuesName, b.values.caption, "", tableRows(b.values)); err != nil {
		return err
	}
	return writeCSV(filepath.Join(folder, "contents.csv"), contents)
}

func pairRows(all []pair) [][]string {
	rows := [][]string{{"what", "value"}}
	for _, p := range all {
		rows = append(rows, []string{inert(p.name), inert(p.value)})
	}
	return rows
}

func tableRows(t table) [][]string {
	rows := [][]string{make([]string, len(t.head))}
	for i, h := range t.head {
		rows[0][i] = inert(h)
	}
	for _, cells := range t.rows {
		row := make([]string, len(cells))
		for i, c := range cells {
			row[i] = inert(c.text)
			if c.number {
				row[i] = strconv.FormatFloat(c.value, 'f', c.decimals, 64)
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// inert keeps a text from being taken for a formula by a program that opens the file.
func inert(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) || strings.HasPrefix(s, "＝") || strings.HasPrefix(s, "＋") || strings.HasPrefix(s, "－") || strings.HasPrefix(s, "＠") {
		return "'" + s
	}
	return s
}

func writeCSV(path string, rows [][]string) error {
	var b bytes.Buffer
	b.WriteString("\ufeff")
	w := csv.NewWriter(&b)
	w.UseCRLF = true
	if err := w.WriteAll(rows); err != nil {
		return fmt.Errorf("cannot write %s: %w", path, err)
	}
	return store.Write(path, b.Bytes())
}
