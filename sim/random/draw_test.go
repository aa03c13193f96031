package random

import (
	"errors"
	"math"
	"testing"

	"pascaline/scenarios"
	"pascaline/sim/clock"
)

func TestTicks(t *testing.T) {
	for _, tc := range []struct {
		name    string
		seconds float64
		want    clock.Tick
		err     string
	}{
		{"nothing", 0, 0, ""},
		{"a third", 1. / 3, 333333, ""},
		{"two thirds go up", 2. / 3, 666667, ""},
		{"half a tick goes up", 0.5e-6, 1, ""},
		{"less than half a tick", 0.4e-6, 0, ""},
		{"a day", 86400, clock.Day, ""},
		{"just under 35 years", maxSeconds, 1104516000000000, ""},
		{"no number", math.NaN(), 0, "dryer/repair: a time of NaN s is no number"},
		{"infinite", math.Inf(1), 0, "dryer/repair: a time of +Inf s is without bound"},
		{"negative", -1e-9, 0, "dryer/repair: a time of -1e-09 s is negative"},
		{"absurd", 2e9, 0, "dryer/repair: a time of 2e+09 s is more than 35 years"},
	} {
		got, err := Ticks(tc.seconds, "dryer/repair")
		if got != tc.want || (err == nil) != (tc.err == "") || err != nil && err.Error() != tc.err {
			t.Errorf("%s: %d, %v, want %d, %s", tc.name, got, err, tc.want, tc.err)
		}
	}
}

func TestDraw(t *testing.T) {
	l, err := NewLaw(scenarios.Law{Shape: "uniform", Low: 10, High: 20})
	if err != nil {
		t.Fatal(err)
	}
	s := Named(1, 2, "tip/carrier")
	d := NewDraw(l, s, "tip/carrier")
	if _, constant := d.Constant(); constant || d.Mean() != 15 {
		t.Error("constant, or mean", d.Mean())
	}
	for n := range uint64(1000) {
		want := 10 + float64(10*s.At(n)) // the one uniform number of this draw
		if got := d.Seconds(n); got != want {
			t.Fatalf("draw %d: %g, want %g", n, got, want)
		}
		if got := d.At(n); got != clock.Tick(math.Round(want*1e6)) {
			t.Fatalf("draw %d: %d ticks, want %g s", n, got, want)
		}
	}
}

func TestDrawNamesWhatItRefuses(t *testing.T) {
	for _, l := range []Law{exponential{1e12}, constant(1e12)} {
		func() {
			defer func() {
				var e *ValueError
				if err, ok := recover().(error); !ok || !errors.As(err, &e) || e.Name != "vessel/repair" {
					t.Error("no error that names the distribution")
				}
			}()
			d := NewDraw(l, Named(1, 1, "x"), "vessel/repair")
			d.At(1)
		}()
	}
}

func TestDrawDoesNotAllocate(t *testing.T) {
	for _, tc := range lawCases() {
		l, err := NewLaw(tc.law)
		if err != nil {
			t.Fatal(err)
		}
		d, n := NewDraw(l, Named(1, 0, tc.name), tc.name), uint64(0)
		if a := testing.AllocsPerRun(100, func() { d.At(n); n++ }); a != 0 {
			t.Errorf("%s: %g allocations a draw", tc.name, a)
		}
	}
}

func BenchmarkDraw(b *testing.B) {
	for _, tc := range lawCases() {
		l, _ := NewLaw(tc.law)
		d := NewDraw(l, Named(1, 0, tc.name), tc.name)
		b.Run(tc.name, func(b *testing.B) {
			for n := range b.N {
				d.At(uint64(n))
			}
		})
	}
}

func BenchmarkNewLaw(b *testing.B) {
	for _, tc := range lawCases() {
		b.Run(tc.name, func(b *testing.B) {
			for range b.N {
				NewLaw(tc.law)
			}
		})
	}
}

// A sum is the times one by one, also where it is worked out without a call for each.
func TestSumIsTheTimesOneByOne(t *testing.T) {
	for _, law := range []scenarios.Law{
		{Shape: scenarios.Triangular, Low: 1, Likely: 1.4, High: 2.1},
		{Shape: scenarios.Triangular, Low: 1, Likely: 2, High: 2}, // rises only
		{Shape: scenarios.Triangular, Low: 1, Likely: 1, High: 2}, // falls only
		{Shape: scenarios.Uniform, Low: 1, High: 2},
		{Shape: scenarios.Exponential, Mean: 2},
		{Shape: scenarios.Constant, Mean: 3},
	} {
		l, err := NewLaw(law)
		if err != nil {
			t.Fatal(err)
		}
		d := NewDraw(l, Named(7, 1, "sum"), "sum")
		for _, k := range []uint64{0, 1, 148} {
			want := clock.Tick(0)
			for i := range k {
				want += d.At(1000 + i)
			}
			if got := d.Sum(1000, k); got != want {
				t.Errorf("%+v: the sum of %d times is %d, one by one %d", law, k, got, want)
			}
		}
	}
}
