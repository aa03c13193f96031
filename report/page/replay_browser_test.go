//go:build browser

package page_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"pascaline/report/internal/fixture"
	"pascaline/report/number"
)

// press clicks the control of a class.
func (tb *tab) press(t *testing.T, class string) {
	t.Helper()
	ask[bool](t, tb, `document.querySelector(".replay .`+class+`").click() || true`)
}

// text is what stands in the first element of a class within the replay.
func (tb *tab) text(t *testing.T, class string) string {
	t.Helper()
	return ask[string](t, tb, `document.querySelector(".replay .`+class+`").textContent`)
}

// frame is the frame shown.
func (tb *tab) frame(t *testing.T) int {
	t.Helper()
	return ask[int](t, tb, `Number(document.querySelector(".replay .at").value)`)
}

func wait(d time.Duration) chromedp.Action[chromedp.Void] { return chromedp.Sleep(d) }

// TestReplayPlays takes every control in turn and holds the counts at the end against the results.
func TestReplayPlays(t *testing.T) {
	r := fixture.Run()
	tb := open(t, r)
	for i, p := range r.Replays {
		ask[bool](t, tb, fmt.Sprintf(`(function () { const w = document.querySelector(".replay .which"); w.value = "%d"; return w.dispatchEvent(new Event("change")); })()`, i))
		begin := tb.text(t, "clock")
		ask[bool](t, tb, `(function () { const a = document.querySelector(".replay .at"); a.value = a.max; return a.dispatchEvent(new Event("input")); })()`)
		was := r.PerReplication[p.Replication-1]
		want := fmt.Sprintf("%s packs finished, %s cases finished, %s vessel cycles", number.Count(was.Packs), number.Count(was.Cases), number.Count(was.Cycles))
		if got := tb.text(t, "counts"); !strings.HasPrefix(got, want) {
			t.Errorf("replay %d ends with %q, counted was %q", i, got, want)
		}
		if end := tb.text(t, "clock"); end == begin || end != "Mon 22:00:00." {
			t.Errorf("replay %d begins at %s and ends at %s", i, begin, end)
		}
	}
	ask[bool](t, tb, `(function () { const a = document.querySelector(".replay .at"); a.value = 500; return a.dispatchEvent(new Event("input")); })()`)
	tb.press(t, "on")
	tb.press(t, "on")
	tb.press(t, "back")
	if got := tb.frame(t); got != 501 {
		t.Errorf("two steps on and one back from 500 lead to %d", got)
	}
	ask[bool](t, tb, `document.querySelector(".replay .at").focus() || true`)
	tb.do(t, chromedp.KeyEvent(kb.ArrowRight))
	if got := tb.frame(t); got != 502 {
		t.Errorf("the arrow key leads from 501 to %d", got)
	}
	ask[bool](t, tb, `(function () { document.querySelector(".replay .speed").value = "1200"; return document.querySelector(".replay .play").focus() || true; })()`)
	tb.do(t, chromedp.KeyEvent(" "), wait(700*time.Millisecond))
	if got := tb.frame(t); got < 505 || tb.text(t, "play") != "Pause" {
		t.Errorf("after 0.7 s at 1,200 times it stands at %d, the button says %q", got, tb.text(t, "play"))
	}
	tb.press(t, "play")
	stands := tb.frame(t)
	tb.do(t, wait(300*time.Millisecond))
	if got := tb.frame(t); got != stands {
		t.Errorf("it went on from %d to %d after the pause", stands, got)
	}
	tb.quiet(t)
}

// TestReplayKeepsStillWhereAsked: with reduced motion nothing glides; the picture changes once a second.
func TestReplayKeepsStillWhereAsked(t *testing.T) {
	tb := open(t, fixture.Run())
	call(t, tb, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-reduced-motion", Value: "reduce"}}})
	ask[bool](t, tb, `(document.querySelector(".replay .speed").value = "1200") === "1200"`)
	was := tb.frame(t)
	tb.press(t, "play")
	tb.do(t, wait(400*time.Millisecond))
	if got := tb.frame(t); got != was {
		t.Errorf("it moved from %d to %d within 0.4 s", was, got)
	}
	tb.do(t, wait(1100*time.Millisecond))
	if got := tb.frame(t); got != was+40 {
		t.Errorf("after 1.5 s at 1,200 times it stands at %d, not one jump of 40 frames from %d", got, was)
	}
	tb.quiet(t)
}
