//go:build browser

package page_test

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	pagedom "github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"pascaline/report/internal/fixture"
	"pascaline/report/number"
	"pascaline/report/page"
	"pascaline/sim/result"
)

// shots is where pictures of the pages go, for a person to look at.
var shots = flag.String("shots", "", "folder for screenshots and print files")

// tab is a page in the browser with what it said and asked for.
type tab struct {
	ctx context.Context
	mu  sync.Mutex
	bad []string
}

// open starts a browser with a new profile on the page of r. There is no skipping: without Chromium the test fails.
func open(t *testing.T, r result.Results) *tab {
	t.Helper()
	var b bytes.Buffer
	if err := page.Write(&b, r, page.Options{Command: "pascaline run plant.yaml"}); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "report.html")
	if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	flags := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.NoSandbox, chromedp.DisableGPU, chromedp.UserDataDir(t.TempDir()),
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-sync", true), chromedp.Flag("font-render-hinting", "none"))
	alloc, stop := chromedp.NewExecAllocator(t.Context(), flags...)
	t.Cleanup(stop)
	ctx, cancel := chromedp.NewContext(alloc)
	t.Cleanup(cancel)
	ctx, late := context.WithTimeout(ctx, 90*time.Second)
	t.Cleanup(late)
	tb := &tab{ctx: ctx}
	if err := chromedp.Listen(ctx, tb.hear); err != nil {
		t.Fatal(err)
	}
	tb.do(t, chromedp.EmulateViewport(1400, 900), chromedp.Navigate("file://"+file), chromedp.Sleep(400*time.Millisecond))
	return tb
}

// hear notes console messages, errors and requests that leave the page.
func (tb *tab) hear(ev any) {
	said := ""
	switch e := ev.(type) {
	case *runtime.EventConsoleAPICalled:
		said = fmt.Sprintf("console: %s", e.Type)
		for _, a := range e.Args {
			said += fmt.Sprintf(" %s%s", a.Value, a.Description)
		}
	case *runtime.EventExceptionThrown:
		said = fmt.Sprintf("exception: %+v", e.ExceptionDetails)
	case *log.EventEntryAdded:
		said = "log: " + e.Entry.Text
	case *network.EventRequestWillBeSent:
		if !strings.HasPrefix(e.Request.URL, "file:") && !strings.HasPrefix(e.Request.URL, "data:") && !strings.HasPrefix(e.Request.URL, "blob:") {
			said = "request: " + e.Request.URL
		}
	}
	if said != "" {
		tb.mu.Lock()
		tb.bad = append(tb.bad, said)
		tb.mu.Unlock()
	}
}

func (tb *tab) do(t *testing.T, steps ...chromedp.Action[chromedp.Void]) {
	t.Helper()
	must(t, tb, chromedp.Steps(steps...))
}

// must runs an action and gives its value.
func must[T any](t *testing.T, tb *tab, a chromedp.Action[T]) T {
	t.Helper()
	v, err := chromedp.Run(tb.ctx, a)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// ask evaluates an expression in the page.
func ask[T any](t *testing.T, tb *tab, expression string) T {
	t.Helper()
	return must(t, tb, chromedp.Evaluate[T](expression))
}

// call sends a command to the browser.
func call[P, R any](t *testing.T, tb *tab, command cdp.Command[P, R], params P) R {
	t.Helper()
	r, err := chromedp.Call(tb.ctx, command, params)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func (tb *tab) quiet(t *testing.T) {
	t.Helper()
	tb.mu.Lock()
	defer tb.mu.Unlock()
	for _, b := range tb.bad {
		t.Error(b)
	}
}

// shoot keeps a picture of the whole page when the person asked for them.
func (tb *tab) shoot(t *testing.T, name string) {
	t.Helper()
	if *shots == "" {
		return
	}
	picture := must(t, tb, chromedp.FullScreenshot(100))
	if err := os.WriteFile(filepath.Join(*shots, name+".png"), picture, 0o644); err != nil {
		t.Fatal(err)
	}
}

// others are results of other kinds than a run.
var others = map[string]func() result.Results{
	"comparison": func() result.Results { return fixture.Comparison() },
	"payback":    func() result.Results { return fixture.Payback() },
	"cycle":      func() result.Results { return fixture.Cycle() },
	"claim":      func() result.Results { return fixture.Claim() },
	"sizing":     func() result.Results { return fixture.Sizing() },
}

func TestPagesInChromium(t *testing.T) {
	for name, build := range variants {
		t.Run(name, func(t *testing.T) {
			r := build()
			tb := open(t, r)
			checkInert(t, tb, r.Answer)
			checkLooks(t, tb, name)
		})
	}
	for name, build := range others {
		t.Run(name, func(t *testing.T) { checkLooks(t, open(t, build()), name) })
	}
	for _, name := range fixture.Kept() {
		t.Run(name, func(t *testing.T) {
			r, err := fixture.Keep(name)
			if err != nil {
				t.Fatal(err)
			}
			checkLooks(t, open(t, r), name)
		})
	}
}

// checkLooks looks at a page wide, on a phone, in the dark and on paper.
func checkLooks(t *testing.T, tb *tab, name string) {
	t.Helper()
	for _, width := range []int64{1400, 400} {
		tb.do(t, chromedp.EmulateViewport(width, 900), chromedp.Sleep(300*time.Millisecond))
		checkDrawn(t, tb, fmt.Sprintf("at %d px", width))
		checkFits(t, tb, width)
		checkWords(t, tb, fmt.Sprintf("at %d px", width))
		checkScales(t, tb, fmt.Sprintf("at %d px", width))
		tb.shoot(t, fmt.Sprintf("%s-%d", name, width))
	}
	call(t, tb, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: "dark"}}})
	tb.do(t, chromedp.EmulateViewport(1400, 900), chromedp.Sleep(300*time.Millisecond))
	checkDrawn(t, tb, "in the dark")
	tb.shoot(t, name+"-dark")
	checkPaper(t, tb, name)
	tb.quiet(t)
}

// checkDrawn looks for a canvas with ink of several colours in every chart.
func checkDrawn(t *testing.T, tb *tab, when string) {
	t.Helper()
	blank := ask[[]string](t, tb, `Array.from(document.querySelectorAll(".chart, .replay canvas")).filter(function (box) {
		const c = box.tagName === "CANVAS" ? box : box.querySelector("canvas");
		if (!c || c.width < 50 || c.height < 50) return true;
		const copy = document.createElement("canvas"), pen = copy.getContext("2d", {willReadFrequently: true});
		copy.width = c.width; copy.height = c.height;
		pen.drawImage(c, 0, 0);
		const data = pen.getImageData(0, 0, c.width, c.height).data, seen = new Set();
		for (let i = 0; i < data.length && seen.size < 4; i += 4) seen.add(data[i] + "," + data[i + 1] + "," + data[i + 2] + "," + data[i + 3]);
		return seen.size < 4;
	}).map(function (box) { return box.id || box.className; })`)
	if len(blank) > 0 {
		t.Errorf("%s, not drawn: %s", when, blank)
	}
}

// checkFits makes sure that the page is no wider than the window and no canvas wider than its box.
func checkFits(t *testing.T, tb *tab, width int64) {
	t.Helper()
	got := ask[struct {
		Page float64
		Out  []string
	}](t, tb, `({Page: document.documentElement.scrollWidth, Out: Array.from(document.querySelectorAll("main *, header *, footer *")).filter(function (e) {
		return !e.closest(".scroll > *") && e.getBoundingClientRect().right > innerWidth + 0.5;
	}).map(function (e) { return e.tagName + "#" + e.id + "." + e.className; })})`)
	if got.Page > float64(width) || len(got.Out) > 0 {
		t.Errorf("at %d px the page is %v px wide; over the edge: %v", width, got.Page, got.Out)
	}
}

// checkWords makes sure that no word of a chart is cut off at its edge.
func checkWords(t *testing.T, tb *tab, when string) {
	t.Helper()
	cut := ask[[]string](t, tb, `Array.from(document.querySelectorAll(".chart")).flatMap(function (box) {
		const chart = echarts.getInstanceByDom(box);
		if (!chart) return [];
		return chart.getZr().storage.getDisplayList(true).filter(function (e) {
			if (!e.style || !e.style.text || e.ignore || e.invisible) return false;
			const r = e.getBoundingRect().clone();
			if (e.transform) r.applyTransform(e.transform);
			return r.x < -1 || r.y < -1 || r.x + r.width > chart.getWidth() + 1 || r.y + r.height > chart.getHeight() + 1;
		}).map(function (e) { return box.id + ": " + e.style.text.slice(0, 60); });
	})`)
	if len(cut) > 0 {
		t.Errorf("%s, cut off at the edge of its chart: %q", when, cut)
	}
}

// checkScales makes sure that no two marks of a scale read the same.
func checkScales(t *testing.T, tb *tab, when string) {
	t.Helper()
	same := ask[[]string](t, tb, `Array.from(document.querySelectorAll(".chart")).flatMap(function (box) {
		const chart = echarts.getInstanceByDom(box);
		if (!chart) return [];
		return ["xAxis", "yAxis"].flatMap(function (name) {
			return (chart.getModel().queryComponents({mainType: name}) || []).filter(function (a) { return a.axis.type === "value"; }).flatMap(function (a) {
				const words = a.axis.getViewLabels().map(function (l) { return l.formattedLabel; }).filter(Boolean);
				return new Set(words).size < words.length ? [box.id + " " + name + ": " + words.join(" | ")] : [];
			});
		});
	})`)
	if len(same) > 0 {
		t.Errorf("%s, marks that read the same: %q", when, same)
	}
}

// checkInert makes sure that no name of the scenario became markup or was run.
func checkInert(t *testing.T, tb *tab, answer string) {
	t.Helper()
	got := ask[struct {
		Title           string
		Images, Scripts int
		Text            string
	}](t, tb, `({Title: document.title, Images: document.images.length, Scripts: document.querySelectorAll("script:not([type])").length,
		Text: document.querySelector(".answer").firstChild.nodeValue})`)
	if got.Title == "broken" || got.Images != 0 || got.Scripts != 2 {
		t.Errorf("title %q, %d images, %d scripts: a name came to life", got.Title, got.Images, got.Scripts)
	}
	if want := number.Plain(answer); got.Text != want {
		t.Errorf("the answer reads %q, not %q", got.Text, want)
	}
}

// checkPaper prints the page and looks that nothing is folded or wider than the paper.
func checkPaper(t *testing.T, tb *tab, name string) {
	t.Helper()
	call(t, tb, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	tb.do(t, chromedp.EmulateViewport(680, 900)) // A4 within its margins: what is wider makes the browser shrink the whole page
	ask[bool](t, tb, `window.dispatchEvent(new Event("beforeprint"))`)
	if wide := ask[float64](t, tb, `document.documentElement.scrollWidth`); wide > 680 {
		t.Errorf("on paper the page is %v px wide, A4 has 680", wide)
	}
	folded := ask[int](t, tb, `document.querySelectorAll("details:not([open]):not(.long)").length`)
	widest := ask[float64](t, tb, `Math.max(0, ...Array.from(document.querySelectorAll("canvas")).map(function (c) { return parseFloat(c.style.width); }))`)
	highest := ask[float64](t, tb, `Math.max(0, ...Array.from(document.querySelectorAll("canvas")).map(function (c) { return c.getBoundingClientRect().height; }))`)
	if folded > 0 || widest > 680 || highest > 940 { // Letter has 949 px of height
		t.Errorf("on paper: %d tables folded, the widest chart %v px, the highest %v px", folded, widest, highest)
	}
	ask[bool](t, tb, `window.dispatchEvent(new Event("afterprint"))`)
	call(t, tb, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{})
	tb.do(t, chromedp.EmulateViewport(1400, 900))
	for _, size := range []struct {
		name string
		w, h float64
	}{{"a4", 8.27, 11.69}, {"letter", 8.5, 11}} {
		ground := true
		file := call(t, tb, pagedom.PrintToPDF, pagedom.PrintToPDFParams{PaperWidth: size.w, PaperHeight: size.h, PrintBackground: &ground}).Data
		if !bytes.HasPrefix(file, []byte("%PDF-")) || len(file) < 20000 {
			t.Errorf("%s: the print is %d bytes of no PDF", size.name, len(file))
		}
		if *shots != "" {
			if err := os.WriteFile(filepath.Join(*shots, name+"-"+size.name+".pdf"), file, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// TestPageTablesInChromium reads the tables as the reader sees them and sets them against the results.
func TestPageTablesInChromium(t *testing.T) {
	r := fixture.Run()
	tb := open(t, r)
	rows := ask[int](t, tb, `document.querySelectorAll("#limits table")[0].tBodies[0].rows.length`)
	if rows != len(r.Stations) {
		t.Errorf("%d stations in the table, %d in the results", rows, len(r.Stations))
	}
	tb.quiet(t)
}
