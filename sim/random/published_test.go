package random

import (
	"encoding/csv"
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"

	"pascaline/scenarios"
)

// TestPublishedValues compares with testdata/triangular_pert.csv: textbook moments and quantiles; each row says where
// its value comes from and how it was verified.
func TestPublishedValues(t *testing.T) {
	f, err := os.Open("testdata/triangular_pert.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) != 22 {
		t.Fatal(len(rows), err)
	}
	for _, row := range rows[1:] {
		id, model, quantity := row[0], row[1], row[3]
		t.Run(id, func(t *testing.T) {
			var low, likely, high float64
			if _, err := fmt.Sscanf(row[2], "a=%g mode=%g b=%g", &low, &likely, &high); err != nil {
				t.Fatal(err)
			}
			want, err := strconv.ParseFloat(row[4], 64)
			if err != nil {
				t.Fatal(err)
			}
			shape := scenarios.Triangular
			if strings.Contains(model, "PERT") {
				shape = scenarios.PERT
			}
			l, err := NewLaw(scenarios.Law{Shape: shape, Low: low, Likely: likely, High: high})
			if err != nil {
				t.Fatal(err)
			}
			switch q, isQuantile := strings.CutPrefix(quantity, "quantile "); {
			case isQuantile:
				u, err := strconv.ParseFloat(q, 64)
				if err != nil {
					t.Fatal(err)
				}
				within(t, quantity, l.Quantile(u), want, 1e-11)
			case strings.HasPrefix(quantity, "mean"):
				within(t, quantity, l.Mean(), want, 1e-11)
			case strings.HasPrefix(quantity, "variance"):
				within(t, quantity, l.SD()*l.SD(), want, 1e-11)
			default:
				t.Errorf("unknown quantity %q", quantity)
			}
		})
	}
}
