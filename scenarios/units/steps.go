package units

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"unicode"
)

// Steps are evenly spaced values of a field, written "3 to 7", "400 packs to 800 packs by 100 packs" or "50/min to 80/min by 10/min". Values are
// written as the field would read them.
type Steps struct {
	Values  []string
	Written string // as it stands in the file
}

const mostSteps = 200

// Wants says what is read here.
func (*Steps) Wants() string { return `a range, such as "3 to 7" or "50/min to 80/min by 10/min"` }

// Parse reads from, to and, where it is not 1, by; all in one unit, which may be left out before the last.
func (s *Steps) Parse(text string) error {
	from, rest, ok := strings.Cut(text, " to ")
	if !ok {
		return errors.New("the word to is missing")
	}
	to, by, stepped := strings.Cut(rest, " by ")
	a, err := measured(from)
	if err != nil {
		return err
	}
	b, err := measured(to)
	if err != nil {
		return err
	}
	step := amount{value: 1, unit: b.unit}
	if stepped {
		if step, err = measured(by); err != nil {
			return err
		}
	}
	for _, x := range []amount{a, step} {
		if x.unit != "" && x.unit != b.unit {
			return fmt.Errorf("two units, %q and %q", strings.TrimSpace(x.unit), strings.TrimSpace(b.unit))
		}
	}
	values, err := spread(a.value, b.value, step.value)
	if err != nil {
		return err
	}
	*s = Steps{Written: text}
	for _, v := range values {
		s.Values = append(s.Values, plain(v)+b.unit)
	}
	return nil
}

// String writes the range as it was written.
func (s Steps) String() string { return s.Written }

// amount is a number and the unit behind it, with the blank between them.
type amount struct {
	value float64
	unit  string
}

func measured(text string) (amount, error) {
	i := 0
	for i < len(text) && (isDigit(text[i]) || text[i] == '.') {
		i++
	}
	word, _, _ := strings.Cut(text, " ")
	if i < len(word) && !unicode.IsLetter(rune(text[i])) && text[i] != '/' && text[i] != '%' {
		i = len(word) // a comma, a colon: the whole word is to be told
	}
	if i == 0 {
		i = len(word)
	}
	v, err := number(text[:i])
	return amount{v, text[i:]}, err
}

func spread(from, to, by float64) (values []float64, err error) {
	n := math.Round((to - from) / by)
	switch {
	case by <= 0:
		return nil, errors.New("a step of 0")
	case to <= from:
		return nil, errors.New("a range goes from the lowest to the highest")
	case n >= mostSteps:
		return nil, fmt.Errorf("more than %d values", mostSteps)
	case math.Abs(from+float64(n*by)-to) > 1e-9*to:
		return nil, fmt.Errorf("steps of %s from %s do not come out at %s", plain(by), plain(from), plain(to))
	}
	for i := range int(n) + 1 {
		values = append(values, math.Round((from+float64(float64(i)*by))*1e9)/1e9)
	}
	return values, nil
}

// Leading is the number at the beginning of a value: 60 of "60/min". False where there is none.
func Leading(text string) (float64, bool) {
	a, err := measured(text)
	return a.value, err == nil
}

// Often says how often a target is to be met: the share of shifts, such as 0.9, or 0 for the mean of them all. Written "9 of 10 shifts",
// "95 %" or "the mean".
type Often float64

// Wants says what is read here.
func (*Often) Wants() string { return `how often, such as "9 of 10 shifts" or "95 %", or "the mean"` }

// Parse reads a share from 50 to 99 %, or "the mean".
func (o *Often) Parse(text string) error {
	if text == "the mean" {
		*o = 0
		return nil
	}
	text = strings.TrimSuffix(text, " of shifts")
	var v float64
	if n, of, ok := strings.Cut(strings.TrimSuffix(text, " shifts"), " of "); ok {
		a, err := number(n)
		if err != nil {
			return err
		}
		b, err := number(of)
		if err != nil {
			return err
		}
		v = a / b
	} else {
		var share Share
		if err := share.Parse(text); err != nil {
			return err
		}
		v = float64(share)
	}
	switch {
	case v > 0.99 || math.IsNaN(v):
		return errors.New("at most 99 of 100; no number of runs can show that it is always met")
	case v < 0.5:
		return errors.New("at least half of them")
	}
	*o = Often(v)
	return nil
}

// String writes per cent, or the mean.
func (o Often) String() string {
	if o == 0 {
		return "the mean"
	}
	return plain(math.Round(float64(o)*1e8)/1e6) + " %"
}
