package text_test

import (
	"bytes"
	"flag"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pascaline/report/internal/fixture"
	"pascaline/report/number"
	"pascaline/report/text"
	"pascaline/sim/result"
)

var update = flag.Bool("update", false, "write the golden files anew")

func screen(t *testing.T, r result.Results, o text.Options) string {
	t.Helper()
	var b bytes.Buffer
	if err := text.Write(&b, r, o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestScreenIsAsAgreed(t *testing.T) {
	for _, c := range []struct {
		name string
		r    result.Results
		o    text.Options
	}{
		{"comparison-unicode", fixture.Comparison(), text.Options{Unicode: true}},
		{"sizing-unicode", fixture.Sizing(), text.Options{Unicode: true}},
		{"sizing-ascii", fixture.Sizing(), text.Options{}},
		{"sizing-nothing", fixture.SizingOfNothing(), text.Options{Unicode: true}},
		{"cycle-unicode", fixture.Cycle(), text.Options{Unicode: true}},
		{"cycle-little", fixture.CycleOfLittle(), text.Options{}},
		{"claim-ascii", fixture.Claim(), text.Options{}},
		{"payback-unicode", fixture.Payback(), text.Options{Unicode: true}},
		{"payback-ascii", fixture.Payback(), text.Options{}},
		{"full-unicode", fixture.Run(), text.Options{Unicode: true}},
		{"full-ascii", fixture.Run(), text.Options{}},
		{"full-colour", fixture.Run(), text.Options{Colour: true, Unicode: true}},
		{"bare-unicode", fixture.Bare(), text.Options{Unicode: true}},
		{"crowded-ascii", fixture.Crowded(), text.Options{}},
		{"hostile-unicode", fixture.Hostile(), text.Options{Unicode: true}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, file := screen(t, c.r, c.o), filepath.Join("testdata", c.name+".golden")
			if *update {
				if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(string(want), got); d != "" {
				t.Errorf("the screen differs (-agreed +now); -update writes it anew:\n%s", d)
			}
		})
	}
}

func TestScreenFits(t *testing.T) {
	many := fixture.Hostile()
	for range 30 {
		many.Warnings = append(many.Warnings, result.Warning{Text: strings.Repeat("word ", 60)})
		many.People = append(many.People, many.People[0])
	}
	for name, r := range map[string]*result.Run{"full": fixture.Run(), "bare": fixture.Bare(), "crowded": fixture.Crowded(), "hostile": many} {
		for _, o := range []text.Options{{}, {Unicode: true}} {
			got := screen(t, r, o)
			lines := strings.Split(strings.TrimSuffix(got, "\n"), "\n")
			if len(lines) > 40 {
				t.Errorf("%s %+v: %d lines", name, o, len(lines))
			}
			for _, l := range lines {
				if w := number.Width(l); w > 80 {
					t.Errorf("%s %+v: %d columns: %q", name, o, w, l)
				}
			}
		}
	}
}

func TestScreenKeepsToWhatTheTerminalHas(t *testing.T) {
	for name, r := range map[string]*result.Run{"full": fixture.Run(), "hostile": fixture.Hostile()} {
		got := screen(t, r, text.Options{})
		for i, c := range []byte(got) {
			if c != '\n' && (c < ' ' || c > '~') {
				t.Fatalf("%s: byte %#x at %d of an ASCII screen", name, c, i)
			}
		}
		if wide := screen(t, r, text.Options{Unicode: true}); strings.ContainsAny(wide, "\x1b\x07\u202e") {
			t.Errorf("%s: a name reaches the terminal's controls", name)
		}
	}
	if !strings.Contains(screen(t, fixture.Run(), text.Options{Colour: true}), "\x1b[1m") {
		t.Error("no colour where it was allowed")
	}
}

func TestScreenOpensWithTheAnswer(t *testing.T) {
	r := fixture.Run()
	got := strings.Join(strings.Fields(screen(t, r, text.Options{Unicode: true})), " ")
	if !strings.HasPrefix(got, r.Answer+" [1][2] ") {
		t.Errorf("it opens with %.120q", got)
	}
}

func TestScreenRefusesWhatIsNoNumber(t *testing.T) {
	r := fixture.Run()
	r.Stations[2].BaseH = math.NaN()
	var b bytes.Buffer
	if err := text.Write(&b, r, text.Options{}); err == nil || !strings.Contains(err.Error(), "stations[2].base_h") || b.Len() > 0 {
		t.Errorf("got %v and %d bytes", err, b.Len())
	}
}

// A seed is for running again: it is never cut short.
func TestSeedIsWhole(t *testing.T) {
	const seed = 18446744073709551615
	run, compared, paid, sized := fixture.Run(), fixture.Comparison(), fixture.Payback(), fixture.Sizing()
	run.Seed, compared.Seed, paid.Seed, sized.Seed = seed, seed, seed, seed
	for _, r := range []result.Results{run, compared, paid, sized} {
		var b bytes.Buffer
		if err := text.Write(&b, r, text.Options{Unicode: true}); err != nil || !strings.Contains(b.String(), "18446744073709551615") {
			t.Errorf("%T: seed not whole (%v):\n%s", r, err, b.String())
		}
	}
}
