//go:build browser

package page_test

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"pascaline/report/internal/fixture"
	"pascaline/report/page"
)

// saved presses the n-th button of a kind and gives the name of the file, its size and its first letters.
func (tb *tab) saved(t *testing.T, kind string, n int) (file, text string) {
	t.Helper()
	ask[bool](t, tb, `(function () {
		const real = URL.createObjectURL, click = HTMLAnchorElement.prototype.click;
		let blob;
		window.saved = null;
		URL.createObjectURL = function (b) { blob = b; return real(b); };
		HTMLAnchorElement.prototype.click = function () {
			const name = this.download;
			blob.arrayBuffer().then(function (data) { window.saved = {File: name, Text: new TextDecoder("utf-8", {ignoreBOM: true}).decode(data)}; });
		};
		Array.from(document.querySelectorAll(".save button")).filter(function (b) { return b.textContent === "`+kind+`"; })[`+strconv.Itoa(n)+`].click();
		URL.createObjectURL = real;
		HTMLAnchorElement.prototype.click = click;
		return true;
	})()`)
	for range 50 {
		if ask[bool](t, tb, `window.saved !== null`) {
			break
		}
		tb.do(t, wait(20*time.Millisecond))
	}
	got := ask[struct{ File, Text string }](t, tb, `window.saved`)
	return got.File, got.Text
}

// TestPartsOfThePageAreSaved holds what the buttons save against the export of the same tables, and looks for pictures.
func TestPartsOfThePageAreSaved(t *testing.T) {
	r := fixture.Run()
	tb := open(t, r)
	book, err := page.Contents(r)
	if err != nil {
		t.Fatal(err)
	}
	for n, s := range book.Sheets[:8] {
		want, err := s.CSV()
		if err != nil {
			t.Fatal(err)
		}
		if file, text := tb.saved(t, "CSV", n); text != string(want) || !strings.HasSuffix(file, ".csv") {
			t.Errorf("%s is saved as %s:\n%.200s\nwant\n%.200s", s.Caption, file, text, want)
		}
	}
	charts := ask[int](t, tb, `document.querySelectorAll(".chart").length`)
	if n := ask[int](t, tb, `Array.from(document.querySelectorAll(".save button")).filter(function (b) { return b.textContent === "SVG"; }).length`); n != charts {
		t.Errorf("%d of %d charts can be saved as SVG", n, charts)
	}
	for n := range charts {
		if file, text := tb.saved(t, "SVG", n); !strings.HasPrefix(text, "<svg") || !strings.Contains(text, "</svg>") || !strings.HasSuffix(file, ".svg") {
			t.Errorf("chart %d is saved as %s: %.60s", n, file, text)
		}
	}
	if file, text := tb.saved(t, "PNG", 0); !strings.Contains(text[:8], "PNG") || len(text) < 5000 || !strings.HasSuffix(file, ".png") {
		t.Errorf("a chart is saved as %s of %d bytes", file, len(text))
	}
	if ask[string](t, tb, `document.title`) == "broken" {
		t.Error("a name came to life")
	}
	tb.quiet(t)
}
