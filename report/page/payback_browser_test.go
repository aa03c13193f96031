//go:build browser

package page_test

import (
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"pascaline/report/internal/fixture"
)

// The page of a case for capital is drawn whole on a desk, on a phone and on paper, and its brief ends the first page of paper.
func TestPaybackInChromium(t *testing.T) {
	tb := open(t, fixture.Payback())
	for _, width := range []int64{1400, 400} {
		tb.do(t, chromedp.EmulateViewport(width, 900), chromedp.Sleep(300*time.Millisecond))
		checkDrawn(t, tb, "payback")
		checkFits(t, tb, width)
	}
	tb.shoot(t, "payback")
	checkPaper(t, tb, "payback")
	// A4 is 1123 px high within 96 px to the inch, less margins of 14 mm above and below: 1017 px.
	call(t, tb, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	tb.do(t, chromedp.EmulateViewport(680, 900))
	ask[bool](t, tb, `window.dispatchEvent(new Event("beforeprint"))`)
	if low := ask[float64](t, tb, `document.getElementById("brief").getBoundingClientRect().bottom + scrollY`); low > 1017 {
		t.Errorf("the brief ends at %v px, beyond the first page of paper", low)
	}
	tb.quiet(t)
}
