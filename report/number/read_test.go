package number_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"pascaline/report/number"
	"pascaline/sim/result"
)

func TestReadTakesFiguresApart(t *testing.T) {
	for text, want := range map[string]number.Reading{
		"5,631 ± 38 packs/h":    {Value: 5631, Half: 38, HasHalf: true, Unit: "packs/h"},
		"-12.50":                {Value: -12.5, Decimals: 2},
		"81.4 ± 1.2 %":          {Value: 81.4, Half: 1.2, HasHalf: true, Unit: "%", Decimals: 1},
		"6 min 56 s":            {Value: 416, Unit: "s"},
		"2 d 4 h":               {Value: 52, Unit: "h"},
		"3 h":                   {Value: 3, Unit: "h"},
		"34 min 9 s ± 40 s":     {Value: 2049, Half: 40, HasHalf: true, Unit: "s"},
		"1 h 2 min ± 1 min 3 s": {Value: 3720, Half: 63, HasHalf: true, Unit: "s"},
		"416.2 ± 2.4 s (6 min)": {Value: 416.2, Half: 2.4, HasHalf: true, Unit: "s", Decimals: 1},
		"+593 ± 79 packs/h":     {Value: 593, Half: 79, HasHalf: true, Unit: "packs/h"},
		"32,549 to 36,910":      {Value: 32549, To: 36910, HasTo: true},
	} {
		if got, ok := number.Read(text); !ok || got != want {
			t.Errorf("%q gives %+v, %v", text, got, ok)
		}
	}
	for _, text := range []string{"", "–", "no limit", "<0.1 %", "n/a", "lane 2", "3 to 5 heads of 7", "=1+1", "06:00", "148 x 5", "52.3 % (16.7 % to 59.8 %)", "12 packs (3 h)"} {
		if got, ok := number.Read(text); ok {
			t.Errorf("%q is read as %+v", text, got)
		}
	}
}

// What the package writes it reads, as far as it was printed.
func TestReadReadsWhatIsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-1e7, 1e7).Draw(t, "v")
		near := func(text, unit string, want, within float64) {
			if got, ok := number.Read(text); !ok || got.Unit != unit || math.Abs(got.Value-want) > within {
				t.Fatalf("%q gives %+v, %v; want %v %s", text, got, ok, want, unit)
			}
		}
		near(number.Fixed(v, 2), "", v, 0.0051)
		h := math.Abs(v) / 50
		near(number.PlusMinus(result.Estimate{Mean: v, HalfWidth: &h}, "kg/h"), "kg/h", v, 0.06*h+1e-6)
		got, ok := number.Read(number.Duration(v))
		if seconds := got.Value * number.Seconds[got.Unit]; !ok || math.Abs(seconds-v) > math.Max(0.51, math.Abs(v)/48) {
			t.Fatalf("%q gives %+v, %v; want %v s", number.Duration(v), got, ok, v)
		}
	})
}
