package line

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"pascaline/sim/clock"
)

// All times twice or three times as long, and the run too: the same happens, later by that factor, to the last microsecond.
func TestScaledTimesScaleTheRate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFixed(t)
		f.wet, f.rejects, f.missed = rapid.IntRange(0, 30).Draw(t, "wet"), rapid.IntRange(0, 20).Draw(t, "leakers"), rapid.IntRange(0, 30).Draw(t, "missed")
		f.shakerGap, f.dryerGap = rapid.SampledFrom([]int{1, 2, 5, 6}).Draw(t, "gap"), rapid.SampledFrom([]int{2, 3, 4, 10}).Draw(t, "gap") // whole rates per hour
		seed, k := rapid.Uint64().Draw(t, "seed"), rapid.SampledFrom([]int{2, 3}).Draw(t, "k")
		a, b := recordOf(t, f.text(1, 3600), seed), recordOf(t, f.text(k, 3600), seed)
		if a.Packs != b.Packs || a.Aside != b.Aside || a.Vessel.Cycles != b.Vessel.Cycles || !slices.Equal(a.Steps, b.Steps) {
			t.Fatalf("%d packs and %d, steps %v and %v\n%s", a.Packs, b.Packs, a.Steps, b.Steps, f.text(1, 3600))
		}
		for i, s := range a.Stations {
			for j, x := range s.Servers {
				for state, d := range x.Times {
					if y := b.Stations[i].Servers[j].Times[state]; y != d*clock.Tick(k) {
						t.Fatalf("%s, state %d: %d us and %d us, want %d times as much\n%s", x.Name, state, d, y, k, f.text(1, 3600))
					}
				}
			}
		}
	})
}

// One more place, carrier, person, bench or head never lowers what is finished by any moment: with fixed times, a pool for each station, and no part
// loads (with them it can: TestOneCarrierMoreLowersTheRateOfPartLoads). One more lane can put a pack off by a few seconds: of lanes with as few
// packs the lowest number is taken, and two packs on one lane leave it no closer than travel / places.
func TestOneMoreNeverLowersTheRate(t *testing.T) {
	more := []struct {
		what string
		add  func(*fixedLine)
	}{
		{"place at the infeed", func(f *fixedLine) { f.infeed++ }},
		{"place of the drain", func(f *fixedLine) { f.drain++ }},
		{"place before the shaker", func(f *fixedLine) { f.shakerBefore++ }},
		{"place before the dryer", func(f *fixedLine) { f.dryerBefore++ }},
		{"place on a lane", func(f *fixedLine) { f.beltPlaces++ }},
		{"place before the labeller", func(f *fixedLine) { f.labellerBefore++ }},
		{"place on the table", func(f *fixedLine) { f.table++ }},
		{"place before the sealer", func(f *fixedLine) { f.sealer++ }},
		{"carrier", func(f *fixedLine) { f.carriers++ }},
		{"loader", func(f *fixedLine) { f.loaders++ }},
		{"packer", func(f *fixedLine) { f.packers++ }},
		{"bench", func(f *fixedLine) { f.benches++ }},
		{"head", func(f *fixedLine) { f.labellers++ }},
	}
	rapid.Check(t, func(t *rapid.T) {
		f := drawFixed(t)
		a := recordOf(t, f.text(1, 3600), 1)
		g := *f
		x := rapid.SampledFrom(more).Draw(t, "more")
		x.add(&g)
		b := recordOf(t, g.text(1, 3600), 1)
		var sumA, sumB int64
		for i := range a.Steps {
			sumA += a.Steps[i]
			sumB += b.Steps[i]
			if sumB < sumA {
				t.Fatalf("one %s more: %d packs finished after %d min, %d without\n%s", x.what, sumB, i+1, sumA, f.text(1, 3600))
			}
		}
	})
}

// reordered is a scenario with its sections, and the lines of each, in another order.
func reordered(t *rapid.T, text string) string {
	var blocks []string
	for line := range strings.Lines(text) {
		if strings.HasPrefix(line, " ") {
			blocks[len(blocks)-1] += line
		} else {
			blocks = append(blocks, line)
		}
	}
	for i, b := range blocks {
		lines := strings.SplitAfter(strings.TrimSuffix(b, "\n"), "\n")
		if len(lines) > 2 && allAt(lines[1:]) {
			head, rest := lines[0], lines[1:]
			rest[len(rest)-1] += "\n"
			blocks[i] = head + strings.Join(rapid.Permutation(rest).Draw(t, "lines"), "")
		}
	}
	return strings.Join(rapid.Permutation(blocks).Draw(t, "sections"), "")
}

// allAt tells whether all lines begin at the same column.
func allAt(lines []string) bool {
	for _, l := range lines {
		if strings.Index(l, strings.TrimSpace(l)) != strings.Index(lines[0], strings.TrimSpace(lines[0])) {
			return false
		}
	}
	return true
}

// The order of sections, pools, and stops in the file changes nothing.
func TestOrderInTheFileChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := &writer{t: t}
		text := w.scenario()
		seed := rapid.Uint64().Draw(t, "seed")
		if !valid(text) {
			t.Skip("not valid")
		}
		other := reordered(t, text)
		a, b := recordOf(t, text, seed), recordOf(t, other, seed)
		for _, r := range []*Record{a, b} { // listed as they stand in the file
			slices.SortFunc(r.Stops, func(x, y StopRecord) int { return strings.Compare(x.Station+x.Name, y.Station+y.Name) })
			slices.SortFunc(r.Pools, func(x, y PoolRecord) int { return strings.Compare(x.Name, y.Name) })
		}
		if !reflect.DeepEqual(a, b) {
			t.Fatalf("%d and %d packs, %d and %d entries\n%s\n%s", a.Packs, b.Packs, a.Fired, b.Fired, text, other)
		}
	})
}
