package measure_test

import (
	"cmp"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

type span struct{ from, to clock.Tick }

// play gives a Moving the starts and ends of periods in order of time.
func play(servers [][]span, group []int, end clock.Tick) (sole, shifting []clock.Tick, all clock.Tick) {
	type change struct {
		at     clock.Tick
		server int
		active bool
	}
	var list []change
	for k, spans := range servers {
		for _, s := range spans {
			list = append(list, change{s.from, k, true}, change{s.to, k, false})
		}
	}
	slices.SortStableFunc(list, func(a, b change) int { return cmp.Compare(a.at, b.at) })
	m := measure.NewMoving(group, nil)
	for _, c := range list {
		m.Set(c.server, c.active, c.at, false)
	}
	return m.Close(end)
}

// The shifting example of the check values (constructed; the definition is of Roser, Nakano and Tanaka 2002, from memory).
func TestMovingBottleneckByHand(t *testing.T) {
	sole, shifting, all := play([][]span{
		{{0, 10}, {12, 15}, {18, 30}}, {{0, 4}, {6, 20}, {22, 24}}, {{1, 3}, {5, 8}, {14, 17}, {26, 34}},
	}, []int{0, 1, 2}, 34)
	if !slices.Equal(sole, []clock.Tick{12, 8, 4}) || !slices.Equal(shifting, []clock.Tick{10, 6, 4}) || all != 34 {
		t.Errorf("sole %v, shifting %v, in all %d; want 12 8 4, 10 6 4, 34", sole, shifting, all)
	}
}

func TestMovingBottleneckCases(t *testing.T) {
	for _, c := range []struct {
		name           string
		servers        [][]span
		group          []int
		sole, shifting []clock.Tick
		all            clock.Tick
	}{
		{"one alone", [][]span{{{2, 9}}}, []int{0}, []clock.Tick{7}, []clock.Tick{0}, 7},
		{"a gap of nobody", [][]span{{{0, 3}}, {{5, 9}}}, []int{0, 1}, []clock.Tick{3, 4}, []clock.Tick{0, 0}, 7},
		{"inside a longer one", [][]span{{{0, 10}}, {{2, 5}, {6, 9}}}, []int{0, 1}, []clock.Tick{10, 0}, []clock.Tick{0, 0}, 10},
		{"left and begun again at one tick is no pause", [][]span{{{0, 4}, {4, 10}}, {{3, 10}}}, []int{0, 1}, []clock.Tick{10, 0}, []clock.Tick{0, 0}, 10},
		{"active for no time is not active", [][]span{{{1, 4}, {6, 6}, {9, 12}}, {{8, 9}}}, []int{0, 1}, []clock.Tick{6, 1}, []clock.Tick{0, 0}, 7},
		{"two places of one station do not shift", [][]span{{{0, 10}}, {{5, 18}}}, []int{0, 0}, []clock.Tick{18}, []clock.Tick{0}, 18},
		{"the shorter first goes on", [][]span{{{0, 6}}, {{4, 20}}, {{18, 21}}}, []int{0, 1, 2}, []clock.Tick{4, 12, 1}, []clock.Tick{2, 4, 2}, 21},
	} {
		t.Run(c.name, func(t *testing.T) {
			sole, shifting, all := play(c.servers, c.group, 40)
			if !slices.Equal(sole, c.sole) || !slices.Equal(shifting, c.shifting) || all != c.all {
				t.Errorf("sole %v, shifting %v, in all %d; want %v, %v, %d", sole, shifting, all, c.sole, c.shifting, c.all)
			}
		})
	}
}

// slow judges every tick with all periods known.
func slow(servers [][]span, end clock.Tick) (sole, shifting []clock.Tick) {
	type holder struct {
		server int
		span
	}
	sole, shifting = make([]clock.Tick, len(servers)), make([]clock.Tick, len(servers))
	var chain []holder
	for at := clock.Tick(0); at < end; at++ {
		best := holder{server: -1}
		for k, spans := range servers {
			for _, s := range spans {
				if s.from <= at && at < s.to && (best.server < 0 || s.to-s.from > best.to-best.from || s.to-s.from == best.to-best.from && s.from < best.from) {
					best = holder{k, s}
				}
			}
		}
		if best.server >= 0 && (len(chain) == 0 || chain[len(chain)-1] != best) {
			chain = append(chain, best)
		}
	}
	for i, h := range chain {
		for at := h.from; at < h.to; at++ {
			if i > 0 && at < chain[i-1].to || i+1 < len(chain) && at >= chain[i+1].from {
				shifting[h.server]++
			} else {
				sole[h.server]++
			}
		}
	}
	return sole, shifting
}

// Streaming gives what a look at all periods gives.
func TestMovingIsTheOfflineMethod(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 5).Draw(t, "servers")
		servers, group := make([][]span, n), make([]int, n)
		for k := range servers {
			group[k] = k
			at := clock.Tick(0)
			for range rapid.IntRange(0, 8).Draw(t, "periods") {
				from := at + clock.Tick(rapid.IntRange(1, 9).Draw(t, "pause"))
				at = from + clock.Tick(rapid.IntRange(1, 20).Draw(t, "length"))
				servers[k] = append(servers[k], span{from, at})
			}
		}
		const end = 300
		sole, shifting, _ := play(servers, group, end)
		wantSole, wantShifting := slow(servers, end)
		if !slices.Equal(sole, wantSole) || !slices.Equal(shifting, wantShifting) {
			t.Fatalf("%v\nsole %v, shifting %v\nwant %v, %v", servers, sole, shifting, wantSole, wantShifting)
		}
	})
}
