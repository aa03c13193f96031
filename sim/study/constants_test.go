package study

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// The constants of procedures that select: Kim and Nelson's are the product's own, those of Bechhofer and Rinott are worked out here on the
// normal and chi-square distributions that the product's statistics rest on.
func TestConstantsOfSelection(t *testing.T) {
	f, err := os.Open("testdata/constants.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 100 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	grids := map[int]*rinottGrid{}
	for _, r := range rows[1:] {
		t.Run(r[0], func(t *testing.T) {
			k, first, p, want := int(field(t, r[2])), int(field(t, r[3])), field(t, r[4]), field(t, r[5])
			var got float64
			switch r[1] {
			case "bechhofer d":
				got = solve(p, func(d float64) float64 { return bechhofer(k, d) })
			case "rinott h":
				if grids[first] == nil {
					grids[first] = newRinottGrid(first)
				}
				got = solve(p, func(h float64) float64 { return grids[first].chance(k, h) })
			case "kim-nelson eta":
				got = Eta(p/float64(k-1), first)
			case "kim-nelson h2":
				got = KimNelsonH2(Eta(p/float64(k-1), first), first)
			}
			if math.Abs(got-want) > 2e-7*want {
				t.Errorf("%s: %.10g, want %.10g (%s)", r[1], got, want, r[7])
			}
			if r[6] != "" && math.Abs(got-field(t, r[6])) > 0.51e-4 {
				t.Errorf("%s: %.6g, printed is %s (%s)", r[1], got, r[6], r[7])
			}
		})
	}
}

func field(t *testing.T, s string) float64 {
	t.Helper()
	if s == "" {
		return 0
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// solve finds where a rising function is p, by halving and then secants.
func solve(p float64, f func(float64) float64) float64 {
	low, high := 0.0, 20.0
	for high-low > 1e-3 {
		if mid := (low + high) / 2; f(mid) < p {
			low = mid
		} else {
			high = mid
		}
	}
	fl, fh := f(low)-p, f(high)-p
	for range 6 {
		if fh == fl {
			break
		}
		low, high, fl = high, high-fh*(high-low)/(fh-fl), fh
		fh = f(high) - p
	}
	return high
}

// bechhofer is the chance that the best of k normal means, d standard errors of a mean ahead of all others, shows as the best.
func bechhofer(k int, d float64) float64 {
	sum, step := 0.0, 0.01
	for x := -9.0; x <= 9; x += step {
		sum += math.Pow(distuv.UnitNormal.CDF(x+d), float64(k-1)) * distuv.UnitNormal.Prob(x) * step
	}
	return sum
}

// rinottGrid holds points and weights of a chi-square variable of n-1 degrees of freedom, taken on a logarithmic scale, where sums of equal steps converge fast.
type rinottGrid struct{ x, w, pair []float64 }

func newRinottGrid(first int) *rinottGrid {
	chi := distuv.ChiSquared{K: float64(first - 1)}
	g := &rinottGrid{}
	const points = 140
	from, to := math.Log(chi.Quantile(1e-11)), math.Log(chi.Quantile(1-1e-13))
	for i := range points {
		x := math.Exp(from + (to-from)*float64(i)/(points-1))
		g.x, g.w = append(g.x, x), append(g.w, chi.Prob(x)*x*(to-from)/(points-1))
	}
	for _, y := range g.x {
		for _, x := range g.x {
			g.pair = append(g.pair, 1/math.Sqrt(float64(first-1)*(1/x+1/y)))
		}
	}
	return g
}

// chance is the left side of Rinott's equation.
func (g *rinottGrid) chance(k int, h float64) float64 {
	sum := 0.0
	for j := range g.x {
		inner := 0.0
		for i, w := range g.w {
			inner += w * distuv.UnitNormal.CDF(h*g.pair[j*len(g.x)+i])
		}
		sum += math.Pow(inner, float64(k-1)) * g.w[j]
	}
	return sum
}
