package units

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// reads holds one text for one type; err is a piece of what is said of it, or empty where it is read.
type reads struct {
	text string
	into Quantity
	want any // the value, where it is read
	err  string
}

func (c reads) run(t *testing.T) {
	t.Run(fmt.Sprintf("%T %s", c.into, c.text), func(t *testing.T) {
		err := c.into.Parse(c.text)
		switch {
		case c.err == "" && err != nil:
			t.Fatal(err)
		case c.err != "" && err == nil:
			t.Fatalf("%q was read as %v", c.text, c.into)
		case c.err != "" && !strings.Contains(err.Error(), c.err):
			t.Fatalf("got %q, want %q in it", err, c.err)
		case c.err == "":
			if d := cmp.Diff(c.want, c.into); d != "" {
				t.Fatal(d)
			}
		}
		if c.into.Wants() == "" {
			t.Error("it does not say what it wants")
		}
	})
}

func ptr[T any](v T) *T { return &v }

func TestTimes(t *testing.T) {
	for _, c := range []reads{
		{"25 s", new(Duration), ptr(25 * Second), ""},
		{"25s", new(Duration), ptr(25 * Second), ""},
		{"3 min", new(Duration), ptr(3 * Minute), ""},
		{"1.5 h", new(Duration), ptr(90 * Minute), ""},
		{"2 days", new(Duration), ptr(2 * Day), ""},
		{"0 s", new(Duration), ptr(Duration(0)), ""},
		{"0.1 s", new(Duration), ptr(100 * Millisecond), ""},
		{"0.0000004 s", new(Duration), nil, "shorter than a microsecond"},
		{"400 days", new(Duration), nil, "longer than a year"},
		{"25", new(Duration), nil, "unit is missing"},
		{"s", new(Duration), nil, "not a plain number"},
		{"25 hours", new(Duration), nil, "write h"},
		{"25 Min", new(Duration), nil, "write min"},
		{"01 s", new(Duration), nil, "leading zero"},
		{"1e3 s", new(Duration), nil, "powers of ten"},
		{"Infinity s", new(Duration), nil, "finite"},
		{"0x10 s", new(Duration), nil, "decimal"},
		{"1:30", new(Duration), nil, "clock time"},
		{"3,000 s", new(Duration), nil, "thousands comma; write 3000"},
		{"1,5 s", new(Duration), nil, "decimal comma; write 1.5"},
		{"-1 s", new(Duration), nil, "below zero"},
		{"1. s", new(Duration), nil, "decimal point"},
		{"123456789012345678 s", new(Duration), nil, "more digits"},
		{"", new(Duration), nil, "missing"},

		{"06:00", new(Moment), &Moment{6 * Hour, true}, ""},
		{"Mon 06:00", new(Moment), &Moment{6 * Hour, false}, ""},
		{"Sun 23:59", new(Moment), &Moment{6*Day + 23*Hour + 59*Minute, false}, ""},
		{"24:00", new(Moment), nil, "next day"},
		{"25:00", new(Moment), nil, "time of day"},
		{"06:60", new(Moment), nil, "time of day"},
		{"mon 06:00", new(Moment), nil, "write Mon"},
		{"Mon", new(Moment), nil, "time of day"},

		{"06:00 to 14:00", new(Hours), &Hours{6 * Hour, 14 * Hour}, ""},
		{"22:00 to 06:00", new(Hours), &Hours{22 * Hour, 30 * Hour}, ""},
		{"00:00 to 24:00", new(Hours), &Hours{0, 24 * Hour}, ""},
		{"06:00-14:00", new(Hours), nil, "word to"},
		{"24:00 to 06:00", new(Hours), nil, "next day"},

		{"every day", new(Days), &Days{true, true, true, true, true, true, true}, ""},
		{"Mon to Fri", new(Days), &Days{true, true, true, true, true, false, false}, ""},
		{"Sat to Mon", new(Days), &Days{true, false, false, false, false, true, true}, ""},
		{"Mon, Wed", new(Days), &Days{true, false, true, false, false, false, false}, ""},
		{"Mon, Mon to Tue", new(Days), nil, "twice"},
		{"weekdays", new(Days), nil, "not a day"},
	} {
		c.run(t)
	}
}

func TestSpans(t *testing.T) {
	for _, c := range []reads{
		{"500 h running", new(Span), &Span{1_800_000, Running}, ""},
		{"60 h on shift", new(Span), &Span{216_000, OnShift}, ""},
		{"90 days calendar time", new(Span), &Span{7_776_000, Calendar}, ""},
		{"3000 cycles", new(Span), &Span{3000, Cycles}, ""},
		{"20000 packs", new(Span), &Span{20000, Packs}, ""},
		{"170 h", new(Span), &Span{612_000, ""}, ""},
		{"new", new(Span), &Span{}, ""},
		{"2.5 cycles", new(Span), nil, "whole"},
		{"500 h run", new(Span), nil, `unknown clock "run"`},
		{"500 running", new(Span), nil, "unit"},
		{"3,000 cycles", new(Span), nil, "thousands comma"},
	} {
		c.run(t)
	}
}

func TestQuantities(t *testing.T) {
	for _, c := range []reads{
		{"420 L", new(Volume), ptr(Volume(420)), ""},
		{"300 mL", new(Volume), ptr(Volume(0.3)), ""},
		{"0 L", new(Volume), nil, "more than 0"},
		{"3 gal", new(Volume), nil, "unknown unit"},
		{"1.2 kg", new(Mass), ptr(Mass(1.2)), ""},
		{"2 lb", new(Mass), ptr(Mass(0.90718474)), ""},
		{"600 MPa", new(Pressure), ptr(Pressure(600)), ""},
		{"6000 bar", new(Pressure), ptr(Pressure(600)), ""},
		{"600 mpa", new(Pressure), nil, "write MPa"},
		{"180/min", new(Rate), ptr(Rate(3)), ""},
		{"25 cases/min", new(Rate), ptr(Rate(25.0 / 60)), ""},
		{"4500 packs/h", new(Rate), ptr(Rate(1.25)), ""},
		{"2/s", new(Rate), ptr(Rate(2)), ""},
		{"0/s", new(Rate), nil, "more than 0"},
		{"1000000/s", new(Rate), ptr(Rate(1e6)), ""},
		{"60000001/min", new(Rate), nil, "more than one in a microsecond"},
		{"180", new(Rate), nil, "per s, min or h"},
		{"180/day", new(Rate), nil, "unknown unit of time"},
		{"180 cats/min", new(Rate), nil, "unknown noun"},
		{"1,5/s", new(Rate), nil, "decimal comma"},

		{"5", new(Count), ptr(Count(5)), ""},
		{"5 carriers", new(Count), ptr(Count(5)), ""},
		{"1 time", new(Count), ptr(Count(1)), ""},
		{"5 cats", new(Count), nil, "unknown noun"},
		{"5.0", new(Count), nil, "whole"},
		{"2000000000", new(Count), nil, "thousand million"},

		{"8 %", new(Share), ptr(Share(0.08)), ""},
		{"8%", new(Share), ptr(Share(0.08)), ""},
		{"1 in 100", new(Share), ptr(Share(0.01)), ""},
		{"1 in 100 cycles", new(Share), ptr(Share(0.01)), ""},
		{"3 in 2", new(Share), nil, "more than all"},
		{"1 in 0", new(Share), nil, "none"},
		{"0.08", new(Share), nil, "percent sign"},
		{"8 ppm", new(Share), nil, "unknown unit"},

		{"2 loaders", new(Crew), &Crew{2, 2, "loaders"}, ""},
		{"2 to 3 loaders", new(Crew), &Crew{2, 3, "loaders"}, ""},
		{"loaders", new(Crew), &Crew{1, 1, "loaders"}, ""},
		{"2 night packers", new(Crew), &Crew{2, 2, "night packers"}, ""},
		{"machine", new(Crew), &Crew{}, ""},
		{"1 machine", new(Crew), nil, "only"},
		{"1.5 loaders", new(Crew), nil, "whole persons"},
		{"3 to 2 loaders", new(Crew), nil, "backwards"},
		{"0 loaders", new(Crew), nil, "at least one"},
		{"2", new(Crew), nil, "pool is missing"},
		{" ", new(Crew), nil, "nobody"},
		{"2 load.ers", new(Crew), nil, "cannot be the name"},

		{"a bell \a", new(Text), nil, "printed"},
		{strings.Repeat("x", 2001), new(Text), nil, "2000"},
	} {
		c.run(t)
	}
}

// 87,000 psi is what the trade calls 600 MPa: it is 599.84.
func TestPoundsPerSquareInch(t *testing.T) {
	var p Pressure
	if err := p.Parse("87000 psi"); err != nil || p < 599.84 || p > 599.85 {
		t.Errorf("%v, %v", p, err)
	}
}

// What a quantity writes, it reads as the same.
func TestWrittenIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Duration(rapid.Int64Range(0, int64(longest)).Draw(t, "duration"))
		same(t, d.String(), new(Duration), &d)
		m := Moment{Duration(rapid.Int64Range(0, 7*24*60-1).Draw(t, "moment")) * Minute, false}
		same(t, m.String(), new(Moment), &m)
		c := Crew{Least: rapid.IntRange(1, 9).Draw(t, "least"), Pool: "hands"}
		c.Most = c.Least + rapid.IntRange(0, 5).Draw(t, "more")
		same(t, c.String(), new(Crew), &c)
		h := Hours{From: Duration(rapid.Int64Range(0, 24*60-1).Draw(t, "from")) * Minute}
		h.To = h.From + Duration(rapid.Int64Range(1, 24*60-1).Draw(t, "length"))*Minute
		same(t, h.String(), new(Hours), &h)
		cents := Money{float64(rapid.Int64Range(0, 1e12).Draw(t, "cents")) / 100, "EUR", rapid.SampledFrom([]string{"", "pack", "kg", "h", "cycle", "year"}).Draw(t, "per")}
		same(t, cents.String(), new(Money), &cents)
		y := Years(rapid.Int64Range(1, 60).Draw(t, "years"))
		same(t, y.String(), new(Years), &y)
		w := Weekly(rapid.Int64Range(0, 1e9).Draw(t, "packs a week"))
		same(t, w.String(), new(Weekly), &w)
	})
}

func same(t *rapid.T, text string, into Quantity, want any) {
	if err := into.Parse(text); err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	if d := cmp.Diff(want, any(into)); d != "" {
		t.Fatalf("%q: %s", text, d)
	}
}

// No text at all makes a quantity panic.
func TestAnyTextIsReadOrRefused(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.String(), rapid.StringMatching(`[0-9a-zA-Z:,./% +-]{0,20}`)).Draw(t, "text")
		for _, q := range []Quantity{
			new(Duration), new(Volume), new(Mass), new(Pressure), new(Rate), new(Count), new(Share),
			new(Text), new(Word), new(Moment), new(Hours), new(Days), new(Crew), new(Span),
			new(Money), new(Percent), new(Years), new(Weekly),
		} {
			_ = q.Parse(text)
		}
	})
}

func TestVesselQuantities(t *testing.T) {
	for _, c := range []reads{
		{"52 L/min", new(Flow), ptr(Flow(52)), ""},
		{"3 m3/h", new(Flow), ptr(Flow(50)), ""},
		{"0.9 L/s", new(Flow), ptr(Flow(54)), ""},
		{"600 L/h", new(Flow), ptr(Flow(10)), ""},
		{"52 L", new(Flow), nil, "unknown unit"},
		{"0 L/min", new(Flow), nil, "more than 0"},
		{"160 kW", new(Power), ptr(Power(160)), ""},
		{"90000 W", new(Power), ptr(Power(90)), ""},
		{"160 kw", new(Power), nil, "write kW"},
		{"380 mm", new(Length), ptr(Length(380)), ""},
		{"15 in", new(Length), ptr(Length(381)), ""},
		{"0 mm", new(Length), nil, "more than 0"},
		{"10 C", new(Temperature), ptr(Temperature(10)), ""},
		{"0 °C", new(Temperature), ptr(Temperature(0)), ""},
		{"-2 C", new(Temperature), nil, "below zero"},
		{"50 F", new(Temperature), nil, "unknown unit"},
	} {
		c.run(t)
	}
}

func TestOutputs(t *testing.T) {
	for _, c := range []reads{
		{"13000 kg", new(Output), &Output{Amount: 13000}, ""},
		{"650 kg/h", new(Output), &Output{Amount: 650, Per: "hour"}, ""},
		{"32 t/yr", new(Output), &Output{Amount: 32000, Per: "year"}, ""},
		{"2 t/day", new(Output), &Output{Amount: 2000, Per: "day"}, ""},
		{"2 million t/yr", new(Output), &Output{Amount: 2e9, Per: "year"}, ""},
		{"5 thousand million kg/yr", new(Output), &Output{Amount: 5e9, Per: "year"}, ""},
		{"2 lb", new(Output), &Output{Amount: 0.90718474}, ""},
		{"3000 L/h", new(Output), &Output{Amount: 3000, Litres: true, Per: "hour"}, ""},
		{"13,000 kg", new(Output), nil, "write 13000"},
		{"650 kg/week", new(Output), nil, "not known"},
		{"650", new(Output), nil, "unit is missing"},
		{"0 kg", new(Output), nil, "more than 0"},
		{"650 cats/h", new(Output), nil, "unknown unit"},
		{"1.03 kg/L", new(Density), ptr(Density(1.03)), ""},
		{"0 kg/L", new(Density), nil, "more than 0"},
	} {
		c.run(t)
	}
	if got := (Output{Amount: 3000, Litres: true, Per: "hour"}).Kg(1.5, 10); got != 45000 {
		t.Errorf("3000 L/h of 1.5 kg/L are %g kg in 10 h", got)
	}
}
