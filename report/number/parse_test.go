package number_test

import (
	"strconv"
	"strings"

	"pgregory.net/rapid"
)

// parse reads a printed figure back.
func parse(t *rapid.T, s string) float64 {
	v, err := strconv.ParseFloat(strings.ReplaceAll(s, ",", ""), 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
