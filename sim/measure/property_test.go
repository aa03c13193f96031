package measure

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"pascaline/sim/clock"
)

// gap draws the time between events; many are 0.
func gap(t *rapid.T) clock.Tick {
	return rapid.OneOf(rapid.Just(clock.Tick(0)), rapid.Int64Range(0, 5), rapid.Int64Range(0, 300)).Draw(t, "gap")
}

// TestStatesAgainstTickByTick: times and active periods as by asking for the state of every tick.
func TestStatesAgainstTickByTick(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		begin := rapid.Int64Range(0, 50).Draw(t, "begin")
		now, state := begin, State(rapid.IntRange(0, int(NStates)-1).Draw(t, "first"))
		s := NewStates(state, now)
		var want [NStates]clock.Tick
		var active clock.Tick
		var periods int64
		was := false
		pass := func(d clock.Tick) {
			for range d {
				want[state]++
				is := state == Processing || state == Changeover || state == WaitRepair || state == UnderRepair
				if is {
					active++
				}
				if is && !was {
					periods++
				}
				was = is
			}
			now += d
		}
		for range rapid.IntRange(0, 30).Draw(t, "changes") {
			pass(gap(t))
			state = State(rapid.IntRange(0, int(NStates)-1).Draw(t, "state"))
			s.Set(state, now)
		}
		pass(gap(t))
		for x := range NStates {
			if got := s.So(x, now); got != want[x] {
				t.Fatalf("so far %v: %d, want %d", x, got, want[x])
			}
		}
		got, sum := s.Close(now), clock.Tick(0)
		for _, d := range got {
			sum += d
		}
		if got != want || sum != now-begin {
			t.Fatalf("times %v, want %v over %d", got, want, now-begin)
		}
		if a, p := s.Active(); a != active || p != periods {
			t.Fatalf("active %d in %d periods, want %d in %d", a, p, active, periods)
		}
	})
}

// TestLevelAgainstTickByTick: every figure as by adding up the content of every tick.
func TestLevelAgainstTickByTick(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const places = 6
		step, n := rapid.Int64Range(1, 40).Draw(t, "step"), rapid.IntRange(1, 20).Draw(t, "steps")
		l := NewLevel(places)
		l.Record(step, n)
		var now, content, area, full, most int64
		areas, highs, lengths := make([]int64, n), make([]int64, n), make([]int64, n)
		at := func(tick int64) int { return min(int(tick/step), n-1) }
		pass := func(d int64) {
			for range d {
				i := at(now)
				area += content
				areas[i] += content
				lengths[i]++
				highs[i] = max(highs[i], content)
				if content == places {
					full++
				}
				now++
			}
		}
		for range rapid.IntRange(0, 30).Draw(t, "changes") {
			pass(gap(t))
			d := rapid.Int64Range(-content, places-content).Draw(t, "change")
			content += d
			l.Add(d, now)
			most = max(most, content)
			highs[at(now)] = max(highs[at(now)], content)
		}
		pass(gap(t))
		if now == 0 {
			return
		}
		if l.Value() != content || l.Max() != most || l.Full(now) != full || l.Err() != nil ||
			l.Mean(now) != float64(area)/float64(now) {
			t.Fatalf("value %d, max %d, full %d, mean %g, %v; want %d, %d, %d, %g", l.Value(), l.Max(), l.Full(now), l.Mean(now),
				l.Err(), content, most, full, float64(area)/float64(now))
		}
		means, maxima := l.Steps(now)
		for i := range means {
			if means[i] != float64(areas[i])/float64(lengths[i]) || maxima[i] != float64(highs[i]) {
				t.Fatalf("step %d: mean %g, max %g, want %d/%d, %d", i, means[i], maxima[i], areas[i], lengths[i], highs[i])
			}
		}
		if want := at(now-1) + 1; len(means) != want {
			t.Fatalf("%d steps, want %d", len(means), want)
		}
	})
}

// TestTallyAgainstTheList: all exact but the quantiles, and those to 1/64.
func TestTallyOfTheSameTimeManyTimes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var one, many Tally
		limit := rapid.Int64Range(0, 300).Draw(t, "limit")
		one.SetLimit(limit)
		many.SetLimit(limit)
		for range rapid.IntRange(0, 10).Draw(t, "values") {
			x, k := rapid.Int64Range(0, 300).Draw(t, "value"), rapid.Int64Range(0, 5).Draw(t, "times")
			for range k {
				one.Add(x)
			}
			many.AddTimes(x, k)
		}
		if !reflect.DeepEqual(one, many) {
			t.Fatalf("%+v, want %+v", many, one)
		}
	})
}

func TestTallyAgainstTheList(t *testing.T) {
	value := rapid.OneOf(rapid.Int64Range(0, 300), rapid.Int64Range(0, 20*clock.Hour), rapid.Int64Range(0, 1<<50))
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(value, 1, 60).Draw(t, "values")
		limit := value.Draw(t, "limit")
		var whole, a, b Tally
		for _, y := range []*Tally{&whole, &a, &b} {
			y.SetLimit(limit)
		}
		var sum, over int64
		for i, x := range values {
			whole.Add(x)
			[]*Tally{&a, &b}[i%2].Add(x)
			sum += x
			if x > limit {
				over++
			}
		}
		a.Merge(&b)
		slices.Sort(values)
		n := len(values)
		for _, y := range []*Tally{&whole, &a} {
			if y.N() != int64(n) || y.Sum() != sum || y.Mean() != float64(sum)/float64(n) || y.Max() != values[n-1] || y.Over() != over {
				t.Fatalf("n %d, sum %d, mean %g, max %d, over %d", y.N(), y.Sum(), y.Mean(), y.Max(), y.Over())
			}
			for _, p := range []float64{0, 0.05, 0.5, 0.9, 0.95, 1} {
				exact := values[max(int(math.Ceil(p*float64(n))), 1)-1]
				if got := y.Quantile(p); math.Abs(float64(got-exact)) > float64(exact)/64 {
					t.Fatalf("quantile %g: %d, exactly %d", p, got, exact)
				}
			}
		}
	})
}

// TestBinsAreInOrder: each value lies in a bin whose middle is at most 1/64 off, and bins rise with values.
func TestBinsAreInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Int64Min(0).Draw(t, "x")
		i := bin(x)
		if i < 0 || i >= nBins || x > 0 && bin(x-1) > i || bin(middle(i)) != i {
			t.Fatalf("%d is in bin %d of %d, with middle %d", x, i, nBins, middle(i))
		}
		if d := math.Abs(float64(middle(i) - x)); d > float64(x)/64 {
			t.Fatalf("%d is %g off the middle of its bin", x, d)
		}
	})
}

func TestHotPathDoesNotAllocate(t *testing.T) {
	s, l, now := NewStates(Starved, 0), NewLevel(0), clock.Tick(0)
	l.Record(clock.Second, 100)
	c := NewCounts(clock.Second, 100)
	var y Tally
	y.Add(1)
	if n := testing.AllocsPerRun(1000, func() {
		now += 12345
		s.Set(State(now%3), now)
		l.Add(1, now)
		y.Add(now)
		c.Add(1, now)
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

func BenchmarkStatesSet(b *testing.B) {
	s := NewStates(Starved, 0)
	for i := range b.N {
		s.Set(State(i&1), clock.Tick(i)*7)
	}
}

func BenchmarkLevelAdd(b *testing.B) {
	l := NewLevel(10)
	for i := range b.N {
		l.Add(int64(1-i&1*2), clock.Tick(i)*7)
	}
}

func BenchmarkLevelAddRecorded(b *testing.B) {
	l := NewLevel(10)
	l.Record(clock.Minute, 10000)
	for i := range b.N {
		l.Add(int64(1-i&1*2), clock.Tick(i)*70000)
	}
}

func BenchmarkTallyAdd(b *testing.B) {
	var y Tally
	for i := range b.N {
		y.Add(clock.Tick(i&1023) * 7919)
	}
}
