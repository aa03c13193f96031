package random

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// oneIn is how seldom a test of chance on a fixed seed may fail by chance.
const oneIn = 1e-6

// TestMixAgainstPublishedValues: the first outputs of SplitMix64 from seed 0, as in Vigna's reference program.
func TestMixAgainstPublishedValues(t *testing.T) {
	for i, want := range []uint64{0xe220a8397b1dcdaf, 0x6e789e6aa1b965f4, 0x06c45d188009454f} {
		if got := mix(uint64(i+1) * golden); got != want {
			t.Errorf("output %d: %x, want %x", i, got, want)
		}
	}
}

func TestUnitIsOpen(t *testing.T) {
	if lowest := unit(0); lowest != math.Ldexp(1, -53) {
		t.Errorf("lowest %g", lowest)
	}
	if highest := unit(math.MaxUint64); highest >= 1 || highest != 1-math.Ldexp(1, -53) {
		t.Errorf("highest %g", highest)
	}
}

func TestStreamsAreNamed(t *testing.T) {
	base := Named(7, 3, "dryer/lane 2/stop jam/duration")
	if base != Named(7, 3, "dryer/lane 2/stop jam/duration") {
		t.Error("the same name is another stream")
	}
	for _, tc := range []struct {
		name  string
		other Stream
	}{
		{"seed", Named(8, 3, "dryer/lane 2/stop jam/duration")},
		{"replication", Named(7, 4, "dryer/lane 2/stop jam/duration")},
		{"seed and replication changed over", Named(3, 7, "dryer/lane 2/stop jam/duration")},
		{"one letter", Named(7, 3, "dryer/lane 3/stop jam/duration")},
		{"last letter", Named(7, 3, "dryer/lane 2/stop jam/duratiom")},
		{"a zero byte more", Named(7, 3, "dryer/lane 2/stop jam/duration\x00")},
		{"letters shifted", Named(7, 3, "\x00dryer/lane 2/stop jam/duration")},
		{"no name", Named(7, 3, "")},
	} {
		for n := range uint64(100) {
			if base.At(n) == tc.other.At(n) {
				t.Errorf("%s: draw %d is the same", tc.name, n)
			}
		}
	}
}

// TestSeedsShareNoReplication: base seeds 7 and 8 (hand case O11), a thousand replications each, no draw in common.
func TestSeedsShareNoReplication(t *testing.T) {
	seen := map[float64]bool{}
	for _, seed := range []uint64{7, 8} {
		for rep := range 1000 {
			s := Named(seed, rep, "loading/pack")
			for n := range uint64(20) {
				if u := s.At(n); seen[u] {
					t.Fatalf("seed %d, replication %d: draw %d was seen before", seed, rep, n)
				} else {
					seen[u] = true
				}
			}
		}
	}
}

func TestOrderOfCallsDoesNotMatter(t *testing.T) {
	s := Named(1, 1, "x")
	var up, down [1000]float64
	for n := range up {
		up[n] = s.At(uint64(n))
	}
	for n := len(down) - 1; n >= 0; n-- {
		other := Named(1, 1, "y").At(uint64(n)) // another stream does not matter
		if down[n] = s.At(uint64(n)); down[n] == other {
			t.Fatal("two streams give the same draw")
		}
	}
	if up != down {
		t.Error("a draw depends on what was drawn before")
	}
}

// pairs are two rows of draws that should have nothing to do with each other.
var pairs = []struct {
	name string
	a, b func(n uint64) float64
}{
	{"neighbours", Named(5, 0, "a").At, func(n uint64) float64 { return Named(5, 0, "a").At(n + 1) }},
	{"far neighbours", Named(5, 0, "a").At, func(n uint64) float64 { return Named(5, 0, "a").At(n + 1<<32) }},
	{"names", Named(5, 0, "packing/1").At, Named(5, 0, "packing/2").At},
	{"replications", Named(5, 1, "packing").At, Named(5, 2, "packing").At},
	{"seeds", Named(5, 1, "packing").At, Named(6, 1, "packing").At},
	{"same number in many replications", func(n uint64) float64 { return Named(5, int(n), "packing").At(9) },
		func(n uint64) float64 { return Named(5, int(n), "packing").At(10) }},
	{"same number under many seeds", func(n uint64) float64 { return Named(n, 0, "packing").At(9) },
		func(n uint64) float64 { return Named(n+1, 0, "packing").At(9) }},
}

func TestPairsAreUniformAndUnrelated(t *testing.T) {
	const draws, side = 400_000, 32
	limit := distuv.ChiSquared{K: side*side - 1}.Quantile(1 - oneIn)
	z := distuv.UnitNormal.Quantile(1 - oneIn/2)
	for _, tc := range pairs {
		t.Run(tc.name, func(t *testing.T) {
			var cells [side][side]float64
			product := 0.0
			for n := range uint64(draws) {
				a, b := tc.a(n), tc.b(n)
				cells[int(a*side)][int(b*side)]++
				product += (a - 0.5) * (b - 0.5)
			}
			chi := 0.0
			for _, row := range cells {
				for _, n := range row {
					const expected = draws / (side * side)
					chi += (n - expected) * (n - expected) / expected
				}
			}
			if chi > limit {
				t.Errorf("chi-square %.0f, limit %.0f", chi, limit)
			}
			if r := product * 12 / draws; math.Abs(r) > z/math.Sqrt(draws) {
				t.Errorf("correlation %.5f, limit %.5f", r, z/math.Sqrt(draws))
			}
		})
	}
}

func TestOneStreamIsUniform(t *testing.T) {
	const draws, bins = 1_000_000, 1000
	s := Named(42, 0, "uniform")
	var count [bins]float64
	for n := range uint64(draws) {
		count[int(s.At(n)*bins)]++
	}
	chi := 0.0
	for _, n := range count {
		chi += (n - draws/bins) * (n - draws/bins) / (draws / bins)
	}
	law := distuv.ChiSquared{K: bins - 1}
	if low, high := law.Quantile(oneIn), law.Quantile(1-oneIn); chi < low || chi > high {
		t.Errorf("chi-square %.0f outside %.0f to %.0f", chi, low, high)
	}
}
