package page_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"html"
	"math"
	"regexp"
	"strings"
	"testing"

	"pascaline/report/internal/fixture"
	"pascaline/report/page"
	"pascaline/sim/result"
)

var variants = map[string]func() *result.Run{"full": fixture.Run, "bare": fixture.Bare, "crowded": fixture.Crowded, "hostile": fixture.Hostile}

func TestPageIsWellMade(t *testing.T) {
	for name, build := range variants {
		t.Run(name, func(t *testing.T) {
			p := draw(t, build())
			if fault := unbalanced(p); fault != "" {
				t.Error(fault)
			}
			m := markup(p)
			for _, want := range []string{`<html lang="en">`, `<meta charset="utf-8">`, "<header>", "<main>", "<footer>", `class="skip" href="#answer"`, `name="viewport"`} {
				if strings.Count(m, want) != 1 {
					t.Errorf("%s is there %d times", want, strings.Count(m, want))
				}
			}
			checkHeadings(t, m)
			checkIDs(t, m)
			if n := len(p); n > 3_000_000 {
				t.Errorf("%d bytes", n)
			}
		})
	}
}

// checkHeadings wants one h1 and no level left out.
func checkHeadings(t *testing.T, m string) {
	t.Helper()
	level := 0
	for i, h := range regexp.MustCompile(`<h([1-6])`).FindAllStringSubmatch(m, -1) {
		now := int(h[1][0] - '0')
		if now > level+1 || (now == 1) != (i == 0) {
			t.Errorf("heading %d of level %d after level %d", i+1, now, level)
		}
		level = now
	}
}

// checkIDs wants every id once, and every reference to one that exists.
func checkIDs(t *testing.T, m string) {
	t.Helper()
	have := map[string]int{}
	for _, id := range regexp.MustCompile(` id="([^"]*)"`).FindAllStringSubmatch(m, -1) {
		have[id[1]]++
	}
	for id, n := range have {
		if n > 1 {
			t.Errorf("id %q is there %d times", id, n)
		}
	}
	for _, ref := range regexp.MustCompile(`(?:href="#|aria-labelledby="|data-options=")([^"]*)"`).FindAllStringSubmatch(m, -1) {
		if have[ref[1]] == 0 {
			t.Errorf("nothing has the id %q", ref[1])
		}
	}
}

func TestPageLoadsNothing(t *testing.T) {
	p := draw(t, fixture.Hostile())
	m := markup(p)
	loads := regexp.MustCompile(`^<(?:link|iframe|object|embed|img|base|form|audio|video)\b|\s(?:src|srcset|action|style|on[a-z]+)=|=["']\s*(?:https?|ftp|javascript|//)`)
	for _, tag := range tagPattern.FindAllString(m, -1) {
		if loads.MatchString(tag) {
			t.Errorf("%s loads or runs something", tag)
		}
	}
	style := stylePattern.FindStringSubmatch(p)[1]
	if strings.Contains(style, "url(") || strings.Contains(style, "@import") || strings.Contains(style, "http") {
		t.Error("the style loads something")
	}
}

func TestPolicyAllowsTheScriptsOfThePageOnly(t *testing.T) {
	p := draw(t, fixture.Run())
	policy := html.UnescapeString(regexp.MustCompile(`Content-Security-Policy" content="([^"]*)"`).FindStringSubmatch(p)[1])
	var hashes []string
	for _, s := range scriptPattern.FindAllStringSubmatch(p, -1) {
		if s[1] == "" {
			hashes = append(hashes, hash(s[2]))
		} else if !strings.HasPrefix(s[1], ` type="application/json"`) {
			t.Errorf("a script %s", s[1])
		}
	}
	if len(hashes) != 2 {
		t.Fatalf("%d scripts", len(hashes))
	}
	want := "default-src 'none'; script-src " + strings.Join(hashes, " ") + "; style-src " + hash(stylePattern.FindStringSubmatch(p)[1]) +
		"; img-src data:; base-uri 'none'; form-action 'none'"
	if policy != want {
		t.Errorf("policy\n%s\nwant\n%s", policy, want)
	}
}

func hash(s string) string {
	sum := sha256.Sum256([]byte(s))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

func TestChartOptionsAreInertJSON(t *testing.T) {
	for name, build := range variants {
		p := draw(t, build())
		for _, s := range scriptPattern.FindAllStringSubmatch(p, -1) {
			if s[1] == "" {
				continue
			}
			if strings.Contains(s[1], `"tables-data"`) {
				if strings.ContainsAny(s[2], "<>&\u2028") || !json.Valid([]byte(s[2])) {
					t.Errorf("%s%s is not inert", name, s[1])
				}
				continue
			}
			var options map[string]any
			if err := json.Unmarshal([]byte(s[2]), &options); err != nil {
				t.Errorf("%s%s: %v", name, s[1], err)
			}
			if strings.ContainsAny(s[2], "<>&\u2028") {
				t.Errorf("%s%s has letters that could end it", name, s[1])
			}
			list, ok := options["series"].([]any)
			if strings.Contains(s[1], `"replay-data"`) {
				list, ok = options["replays"].([]any)
			}
			if !ok || len(list) == 0 {
				t.Errorf("%s%s has no series", name, s[1])
			}
		}
	}
}

func TestHostileNamesAreText(t *testing.T) {
	p := draw(t, fixture.Hostile())
	if n := len(regexp.MustCompile(`(?i)<script`).FindAllString(markup(p), -1)); n != strings.Count(markup(p), `<script type="application/json"`)+2 {
		t.Errorf("%d script tags", n)
	}
	if strings.ContainsAny(markup(p), "\u202e\x1b\x07") {
		t.Error("a control character is in the page")
	}
	for _, name := range []string{`</script><script>document.title="broken"</script>`, `<img onerror=document.title="broken" src=x>`, "🧃🥑 packer", "قارب الضغط"} {
		if !strings.Contains(words(markup(p)), name) {
			t.Errorf("%q cannot be read on the page", name)
		}
	}
}

func TestSameResultsGiveTheSameBytes(t *testing.T) {
	for name, build := range variants {
		first, second := draw(t, build()), draw(t, build())
		if first != second {
			t.Errorf("%s: two pages differ", name)
		}
	}
}

func TestWhatIsNoNumberIsRefused(t *testing.T) {
	r := fixture.Run()
	r.Buffers[2].Steps[5] = math.NaN()
	var b bytes.Buffer
	err := page.Write(&b, r, page.Options{})
	if err == nil || !strings.Contains(err.Error(), "buffers[2].steps[5] is NaN") || b.Len() > 0 {
		t.Errorf("got %v and %d bytes", err, b.Len())
	}
}

func TestAbsentPartsLeaveNoEmptyChart(t *testing.T) {
	p := markup(draw(t, fixture.Bare()))
	if strings.Contains(p, `class="chart"`) || strings.Contains(p, "<tbody>\n</tbody>") {
		t.Error("an empty chart or table is drawn")
	}
	for _, want := range []string{`id="cautions"`, `id="again"`, `id="balance"`, "One replication says nothing about chance", "<p>None.</p>"} {
		if !strings.Contains(p, want) {
			t.Errorf("%s is missing", want)
		}
	}
	r := fixture.Run()
	r.Stations, r.Bottleneck.Rows = r.Stations[:1], r.Bottleneck.Rows[:1]
	r.Buffers, r.Waterfall, r.Vessel = nil, nil, nil
	if fault := unbalanced(draw(t, r)); fault != "" {
		t.Error("one station: " + fault)
	}
}

func TestDoubtTravelsWithTheAnswer(t *testing.T) {
	r := fixture.Run()
	p := markup(draw(t, r))
	for i := range r.Warnings {
		mark := string(rune('1' + i))
		if !strings.Contains(p, `<a href="#note-`+mark+`"`) || !strings.Contains(p, `<li id="note-`+mark+`">`) {
			t.Errorf("warning %s is not a footnote of the answer", mark)
		}
	}
	text := words(p)
	for _, want := range []string{r.Answer, "± 31", "95 % interval", r.Warnings[0].Text, r.Cautions[0], "--seed 20260301", "early (06:00 to 14:00): loading crew 3,", r.ScenarioHash} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not on the page", want)
		}
	}
}
