package number

import (
	"regexp"
	"strconv"
	"strings"
)

// Reading is a printed figure taken apart: what a spreadsheet needs to count on with it.
type Reading struct {
	Value    float64
	Half     float64 // what stands after ±
	To       float64 // the upper end of a range
	HasHalf  bool
	HasTo    bool
	Unit     string // "packs/h", "%", "s"; a time of two units ("6 min 56 s") is in the smaller one
	Decimals int    // printed after the point
}

var (
	figure      = `([+-]?[0-9][0-9,]*(?:\.[0-9]+)?)`
	readPattern = regexp.MustCompile(`^` + figure + `(?: (±|to) ` + figure + `)?(?: ([^0-9()±]+))?(?: \(([^()]*)\))?$`)
	timePattern = regexp.MustCompile(`^(-?)([0-9,]+) (d|h|min)(?: ([0-9]+) (h|min|s))?$`)
	estPattern  = regexp.MustCompile(`^(.*[a-z]) ± (.*[a-z])$`)
)

// Seconds are the units of time that Duration and Hours write, in seconds.
var Seconds = map[string]float64{"d": 86400, "h": 3600, "min": 60, "s": 1}

// Read takes apart what the functions of this package write; false where the text is no such figure. It knows no more than was
// printed: "5,631 ± 38 packs/h" gives 5631, 38 and the unit. The same time in other units, in brackets at the end, is passed over.
func Read(text string) (Reading, bool) {
	if m := timePattern.FindStringSubmatch(text); m != nil {
		return readTime(m), true
	}
	if m := estPattern.FindStringSubmatch(text); m != nil { // both sides with units of time
		mean, ok := Read(m[1])
		half, fine := Read(m[2])
		if ok && fine && !mean.HasHalf && Seconds[mean.Unit] > 0 && Seconds[half.Unit] > 0 {
			one := min(Seconds[mean.Unit], Seconds[half.Unit])
			unit := mean.Unit
			if Seconds[half.Unit] == one {
				unit = half.Unit
			}
			return Reading{Value: mean.Value * Seconds[mean.Unit] / one, Half: half.Value * Seconds[half.Unit] / one, HasHalf: true,
				Unit: unit, Decimals: max(mean.Decimals, half.Decimals)}, true
		}
	}
	m := readPattern.FindStringSubmatch(text)
	if m == nil {
		return Reading{}, false
	}
	if m[5] != "" {
		if again, ok := Read(m[5]); !ok || Seconds[again.Unit] == 0 || Seconds[strings.TrimSpace(m[4])] == 0 {
			return Reading{}, false
		}
	}
	r := Reading{Value: plainFigure(m[1]), Unit: strings.TrimSpace(m[4]), Decimals: decimals(m[1])}
	switch m[2] {
	case "±":
		r.Half, r.HasHalf = plainFigure(m[3]), true
	case "to":
		r.To, r.HasTo = plainFigure(m[3]), true
	}
	return r, true
}

// readTime makes one number of a time in one or two units.
func readTime(m []string) Reading {
	v, unit := plainFigure(m[2]), m[3]
	if m[4] != "" {
		v, unit = v*(Seconds[m[3]]/Seconds[m[5]])+plainFigure(m[4]), m[5]
	}
	if m[1] == "-" {
		v = -v
	}
	return Reading{Value: v, Unit: unit}
}

// plainFigure reads a figure that the pattern found; it cannot fail.
func plainFigure(s string) float64 {
	v, _ := strconv.ParseFloat(strings.ReplaceAll(s, ",", ""), 64)
	return v
}

func decimals(s string) int {
	_, fraction, _ := strings.Cut(s, ".")
	return len(fraction)
}
