package line

import (
	"path/filepath"
	"testing"
)

// BenchmarkReplication is one replication with all accounts on: states, levels, waits, cold-chain times, balances. The figure that counts is
// ns/pack, and only ratios taken in one run: machines are noisy.
func BenchmarkReplication(b *testing.B) {
	const examples, others = "../../scenarios/examples/", "../../testdata/lines/"
	for _, file := range []string{examples + "yardstick", others + "yardstick-shifts", examples + "plain", examples + "small-line", examples + "toll-week"} {
		b.Run(filepath.Base(file), func(b *testing.B) {
			m := modelOf(b, file+".yaml", "")
			packs, fired := int64(0), uint64(0)
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				l, err := m.Line(Options{Seed: 1, Replication: i})
				if err != nil {
					b.Fatal(err)
				}
				if err := l.Run(); err != nil {
					b.Fatal(err)
				}
				packs += l.finished
				fired += l.cal.Fired()
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(packs), "ns/pack")
			b.ReportMetric(float64(fired)/float64(packs), "entries/pack")
		})
	}
}
