package measure

import (
	"strings"
	"testing"

	"pascaline/sim/clock"
)

func TestStatesByHand(t *testing.T) {
	s := NewStates(Starved, 100)
	s.Set(Processing, 110)
	s.Set(Processing, 120) // holds already
	if s.Now() != Processing || s.Since() != 110 || s.So(Processing, 125) != 15 || s.So(Starved, 125) != 10 {
		t.Errorf("now %v since %d, processing %d, starved %d", s.Now(), s.Since(), s.So(Processing, 125), s.So(Starved, 125))
	}
	s.Set(WaitRepair, 130)
	s.Set(UnderRepair, 140) // active states that follow each other: one period
	s.Set(Processing, 160)
	s.Set(Starved, 170)
	s.Set(Processing, 170) // starved for no time: the same period
	s.Set(Blocked, 200)
	s.Set(Processing, 210)
	s.Set(Blocked, 210) // processing for no time: no period
	s.Set(Changeover, 250)
	got := s.Close(300)
	want := [NStates]clock.Tick{Starved: 10, Processing: 60, WaitRepair: 10, UnderRepair: 20, Blocked: 50, Changeover: 50}
	if got != want {
		t.Errorf("times %v, want %v", got, want)
	}
	if total, periods := s.Active(); total != 140 || periods != 2 { // 110-200 and 250-300
		t.Errorf("active %d in %d periods", total, periods)
	}
	if s.Since() != 250 || s.So(Changeover, 310) != 60 { // goes on after Close
		t.Errorf("since %d, changeover %d", s.Since(), s.So(Changeover, 310))
	}
}

func TestStateNames(t *testing.T) {
	var names []string
	for s := range NStates + 1 {
		names = append(names, s.String())
	}
	want := "processing, starved, blocked, waiting for operator, changeover, waiting for repair, under repair, planned stop, off shift, unknown state"
	if got := strings.Join(names, ", "); got != want {
		t.Errorf("got %s", got)
	}
}

func TestLevelByHand(t *testing.T) {
	l := NewLevel(3)
	l.Record(10, 4)
	l.Add(2, 4)
	l.Add(1, 6)   // full from 6
	l.Add(-1, 20) // to 20
	l.Add(1, 25)
	l.Add(-3, 25) // full for no time
	l.Add(1, 33)
	// 0 to 4: 0, to 6: 2, to 20: 3, to 25: 2, to 33: 0, then 1
	if l.Value() != 1 || l.Max() != 3 || l.Full(50) != 14 || l.Mean(50) != float64(4+42+10+17)/50 || l.Err() != nil {
		t.Errorf("value %d, max %d, full %d, mean %g, %v", l.Value(), l.Max(), l.Full(50), l.Mean(50), l.Err())
	}
	mean, most := l.Steps(50) // the last step is 30 to 50
	for i, want := range [][2]float64{{1.6, 3}, {3, 3}, {1, 3}, {17. / 20, 1}} {
		if mean[i] != want[0] || most[i] != want[1] {
			t.Errorf("step %d: mean %g, max %g, want %v", i, mean[i], most[i], want)
		}
	}
	if len(mean) != 4 {
		t.Errorf("%d steps", len(mean))
	}
}

func TestLevelOverManySteps(t *testing.T) {
	l := NewLevel(0)
	l.Record(clock.Hour, 1000)
	l.Add(7, clock.Hour/2)
	l.Add(-7, 10*clock.Hour) // exactly at the begin of a step, which it does not enter
	mean, most := l.Steps(12*clock.Hour + clock.Hour/2)
	if len(mean) != 13 {
		t.Fatalf("%d steps", len(mean))
	}
	for i := range mean {
		want, high := 7., 7.
		if i == 0 {
			want = 3.5
		}
		if i >= 10 {
			want, high = 0, 0
		}
		if mean[i] != want || most[i] != high {
			t.Errorf("step %d: mean %g, max %g", i, mean[i], most[i])
		}
	}
	if l.Full(20*clock.Hour) != 0 {
		t.Error("full without a limit")
	}
}

func TestLevelAtTick0(t *testing.T) {
	l := NewLevel(5)
	l.Record(10, 2)
	l.Add(5, 0) // there from the beginning
	if l.Mean(0) != 5 || l.Mean(8) != 5 || l.Full(8) != 8 {
		t.Errorf("mean %g, full %d", l.Mean(8), l.Full(8))
	}
	if mean, most := l.Steps(0); len(mean) != 0 || len(most) != 0 {
		t.Error("steps before any time")
	}
	if mean, most := l.Steps(10); len(mean) != 1 || mean[0] != 5 || most[0] != 5 {
		t.Error("first step", mean, most)
	}
	if mean, _ := NewLevel(5).Steps(10); mean != nil {
		t.Error("steps without Record")
	}
}

func TestImbalanceIsRemembered(t *testing.T) {
	for _, tc := range []struct {
		name, want string
		do         func(l *Level)
	}{
		{"below nothing", "level of -1 at 2s", func(l *Level) { l.Add(-1, 2*clock.Second); l.Add(9, 3*clock.Second) }},
		{"over the places", "level of 4 in 3 places at 1m0s", func(l *Level) { l.Add(4, clock.Minute); l.Add(-4, clock.Hour) }},
		{"backwards", "level changed at 1s after a change at 2s", func(l *Level) { l.Add(1, 2*clock.Second); l.Add(1, clock.Second) }},
	} {
		l := NewLevel(3)
		tc.do(l)
		if l.Err() == nil || l.Err().Error() != tc.want {
			t.Errorf("%s: got %v", tc.name, l.Err())
		}
	}
	l := NewLevel(3)
	l.Add(-2, 1)
	if l.Value() != -2 {
		t.Error("the content was clipped")
	}
}

func TestCounts(t *testing.T) {
	c := NewCounts(10, 3)
	for _, at := range []clock.Tick{0, 9, 10, 29, 30, 1000} {
		c.Add(2, at)
	}
	c.Add(-1, 5) // taken back
	if v := c.Values(); len(v) != 3 || v[0] != 3 || v[1] != 2 || v[2] != 6 {
		t.Errorf("got %v", v)
	}
}

func TestTallyByHand(t *testing.T) {
	var y Tally
	if y.Mean() != 0 || y.Quantile(0.5) != 0 || y.Max() != 0 || y.Over() != 0 {
		t.Error("empty tally")
	}
	y.SetLimit(100)
	for _, x := range []clock.Tick{100, 0, 101, 50, 127} {
		y.Add(x)
	}
	if y.N() != 5 || y.Sum() != 378 || y.Mean() != 75.6 || y.Max() != 127 || y.Over() != 2 {
		t.Errorf("n %d, sum %d, mean %g, max %d, over %d", y.N(), y.Sum(), y.Mean(), y.Max(), y.Over())
	}
	for _, tc := range []struct {
		p    float64
		want clock.Tick
	}{{-1, 0}, {0, 0}, {0.2, 0}, {0.21, 50}, {0.5, 100}, {0.8, 101}, {0.81, 127}, {1, 127}, {2, 127}} {
		if got := y.Quantile(tc.p); got != tc.want { // exact below 128 ticks
			t.Errorf("quantile %g: %d, want %d", tc.p, got, tc.want)
		}
	}
	y.Add(clock.Never) // the longest there is has a bin too
	if y.Max() != clock.Never {
		t.Error("max", y.Max())
	}
	defer func() {
		if recover() == nil {
			t.Error("a negative time was taken")
		}
	}()
	y.Add(-1)
}
