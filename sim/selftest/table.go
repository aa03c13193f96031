package selftest

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"
)

// valueRow is one line of a CSV file of testdata/published, by the names of its columns.
type valueRow map[string]string

// valueRows reads a CSV file of testdata/published.
func valueRows(name string) ([]valueRow, error) {
	b, err := publishedFile(name)
	if err != nil {
		return nil, err
	}
	all, err := csv.NewReader(bytes.NewReader(b)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	var list []valueRow
	for _, line := range all[1:] {
		x := valueRow{}
		for i, column := range all[0] {
			x[column] = line[i]
		}
		list = append(list, x)
	}
	return list, nil
}

// number reads a column as a number; an empty one is 0.
func (x valueRow) number(column string) (float64, error) {
	if x[column] == "" {
		return 0, nil
	}
	v, err := strconv.ParseFloat(x[column], 64)
	if err != nil {
		return 0, fmt.Errorf("%s of %s: %w", column, x["id"], err)
	}
	return v, nil
}
