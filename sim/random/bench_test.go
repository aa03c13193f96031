package random

import "testing"

// BenchmarkSum is the draws of a carrier's packs, the most of any line.
func BenchmarkSum(b *testing.B) {
	l, err := newTriangular(1, 1.4, 2.1)
	if err != nil {
		b.Fatal(err)
	}
	d := NewDraw(l, Named(1, 0, "hand time"), "hand time")
	for n := uint64(0); b.Loop(); n++ {
		d.Sum(n*148, 148)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/148, "ns/draw")
}
