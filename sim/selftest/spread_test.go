package selftest

import (
	"math"
	"testing"
	"time"

	"pascaline/sim/clock"
)

// birthDeath is a queue of which only the number in it matters: rates up and down, for 0 to most in it.
type birthDeath struct {
	most     int
	up, down func(n int) float64
}

// variance is the limit of t times the variance of the mean of f over a time t. With F(k) the sum of p(i)(f(i) - mean) up to k it is
// 2 sum F(k)^2 / (up(k) p(k)) (Whitt 1992, Asymptotic formulas for Markov processes with applications to simulation, Oper. Res. 40, 279-291:
// from memory; for the number in M/M/1 it gives 2r(1+r)/(1-r)^4, as in Whitt 1989, Management Sci. 35, 1341-1366, from memory).
func (q *birthDeath) variance(f func(n int) float64) (mean, variance float64) {
	p, sum := make([]float64, q.most+1), 0.0
	for n := range p {
		p[n] = 1
		if n > 0 {
			p[n] = p[n-1] * q.up(n-1) / q.down(n)
		}
		sum += p[n]
	}
	for n := range p {
		p[n] /= sum
		mean += p[n] * f(n)
	}
	beyond := 0.0 // -F, summed from the far end, where all terms are small
	for n := q.most - 1; n >= 0; n-- {
		beyond += p[n+1] * (f(n+1) - mean)
		if p[n] > 0 {
			variance += 2 * beyond * beyond / (q.up(n) * p[n])
		}
	}
	return mean, variance
}

// open is a queue before c servers, with arrivals at a rate in units of the mean service, up to so many in it.
func open(rate float64, c, most int) *birthDeath {
	return &birthDeath{most, func(int) float64 { return rate }, func(n int) float64 { return float64(min(n, c)) }}
}

// repair is n machines that fail at a rate each while they run, with so many menders; the unit is the mean repair.
func repair(rate float64, n, menders int) *birthDeath {
	return &birthDeath{n, func(k int) float64 { return rate * float64(n-k) }, func(k int) float64 { return float64(min(k, menders)) }}
}

func TestVarianceOfBirthDeath(t *testing.T) {
	for r, want := range map[float64]float64{0.5: 24, 0.8: 1800, 0.9: 34200} {
		mean, v := open(r, 1, 1000).variance(func(n int) float64 { return float64(n) })
		if math.Abs(mean-r/(1-r)) > 1e-9 || math.Abs(v-want) > 1e-6*want {
			t.Errorf("load %g: mean %g, variance %g, want %g", r, mean, v, want)
		}
	}
}

// The standard deviations in the table are those of theory, wherever a queue is a birth and death process and the figure a mean over time: to
// 15 %, since those of the table were found from 300 runs.
func TestSpreadIsThatOfTheory(t *testing.T) {
	in := func(n int) float64 { return float64(n) }
	waiting := func(c int) func(int) float64 { return func(n int) float64 { return float64(max(0, n-c)) } }
	at := func(k int) func(int) float64 {
		return func(n int) float64 { return map[bool]float64{true: 1}[n == k] }
	}
	scaled := func(f func(int) float64, by float64) func(int) float64 {
		return func(n int) float64 { return by * f(n) }
	}
	for _, c := range []struct {
		id   string
		q    *birthDeath
		f    func(int) float64
		unit time.Duration
		runs time.Duration
	}{
		{"mm1_0.5_L", open(0.5, 1, 500), in, time.Second, 10 * time.Hour},
		{"mm1_0.5_Lq", open(0.5, 1, 500), waiting(1), time.Second, 10 * time.Hour},
		{"mmc_1.6_2_Lq", open(1.6, 2, 800), waiting(2), time.Second, 10 * time.Hour},
		{"mmc_2.4_3_Lq", open(2.4, 3, 800), waiting(3), time.Second, 10 * time.Hour},
		{"mmc_4_5_Lq", open(4, 5, 800), waiting(5), time.Second, 6 * time.Hour},
		{"mmc_9_10_Lq", open(9, 10, 900), waiting(10), time.Second, 8 * time.Hour},
		{"hosp_s1_p0", open(2.0/3, 1, 500), at(0), 20 * time.Minute, 2000 * time.Hour},
		{"mmck_0.9_1_4_PK", open(0.9, 1, 4), at(4), time.Second, 5 * time.Hour},
		{"mmck_0.9_1_4_L", open(0.9, 1, 4), in, time.Second, 5 * time.Hour},
		{"mmck_2_2_4_PK", open(2, 2, 4), at(4), time.Second, 5 * time.Hour},
		{"mmck_3_3_10_L", open(3, 3, 10), in, time.Second, 5 * time.Hour},
		{"feller6_1_run", repair(0.1, 6, 1), in, time.Second, 3 * time.Hour},
		{"feller6_1_lossm", repair(0.1, 6, 1), scaled(waiting(1), 1.0/6), time.Second, 3 * time.Hour},
		{"feller6_1_idle", repair(0.1, 6, 1), at(0), time.Second, 3 * time.Hour},
		{"winston5_2_run", repair(0.1, 5, 2), in, 3 * time.Second, 15 * time.Hour},
		{"winston5_2_Lq", repair(0.1, 5, 2), waiting(2), 3 * time.Second, 15 * time.Hour},
	} {
		t.Run(c.id, func(t *testing.T) {
			x := rowNamed(t, "queues.csv", c.id)
			m, err := (&Runner{ctx: t.Context()}).File(x["scenario"]+".yaml", 0)
			if err != nil {
				t.Fatal(err)
			}
			if got := clock.Tick(m.Scenario().Run.OneReplication.For); got != c.runs.Microseconds() {
				t.Fatalf("a run is %d us, not %v", got, c.runs)
			}
			sd, err := x.number("sd")
			if err != nil {
				t.Fatal(err)
			}
			_, variance := c.q.variance(c.f)
			if want := math.Sqrt(variance * c.unit.Seconds() / c.runs.Seconds()); math.Abs(sd/want-1) > 0.15 {
				t.Errorf("standard deviation of one run %.3g, by theory %.3g", sd, want)
			}
		})
	}
}

func rowNamed(t *testing.T, file, id string) valueRow {
	t.Helper()
	rows, err := valueRows(file)
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range rows {
		if x["id"] == id {
			return x
		}
	}
	t.Fatal("no row", id)
	return nil
}
