package units

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"unicode"
)

// Money is an amount of a currency, written "180000 EUR", or an amount for each of something, written "0.42 EUR/pack",
// "29 EUR/h", "0.95 EUR/kg", "3.10 EUR/cycle" or "12000 EUR/year". Per is "" for the amount alone. A currency is a label: nothing
// is ever changed from one into another.
type Money struct {
	Value    float64
	Currency string
	Per      string
}

// Percent is a rate for a year as a fraction, written "8 %" or "-2 %": growth, a price rise, a discount rate. It may be below zero.
type Percent float64

// Years is a whole number of years, written "10 years".
type Years int64

// Weekly is packs in a week, written "250000 packs/week".
type Weekly float64

// What money can be counted for, with the words people use for it.
var moneyPer = map[string]string{
	"pack": "pack", "packs": "pack", "kg": "kg", "h": "h", "hour": "h", "cycle": "cycle", "cycles": "cycle", "load": "cycle", "year": "year", "a": "year",
}

// Number is the amount without its currency.
func (m Money) Number() float64 { return m.Value }

// Number is the rate as a fraction.
func (p Percent) Number() float64 { return float64(p) }

// Number is packs in a week.
func (w Weekly) Number() float64 { return float64(w) }

const (
	mostMoney    = 1e12
	longestLabel = 8
)

// Wants says what is read here.
func (*Money) Wants() string {
	return `an amount with its currency, such as "180000 EUR", "0.42 EUR/pack" or "29 EUR/h"`
}

// Parse reads an amount of 0 or more with its currency and what it is for.
func (m *Money) Parse(text string) error {
	n, rest, ok := strings.Cut(text, " ")
	if !ok {
		if _, err := number(n); err == nil {
			return errors.New("the currency is missing, such as EUR")
		}
		n, rest = splitUnit(text)
	}
	v, err := number(n)
	switch {
	case err != nil:
		return err
	case v > mostMoney:
		return errors.New("more than a million million; write whole units of the currency")
	}
	label, per, parted := strings.Cut(strings.TrimSpace(rest), "/")
	label, per = strings.TrimSpace(label), strings.TrimSpace(per)
	if before, after, found := strings.Cut(label, " per "); found && !parted {
		label, per, parted = before, strings.TrimSpace(after), true
	}
	if err := Currency(label); err != nil {
		return err
	}
	known := ""
	if parted {
		if known = moneyPer[per]; known == "" {
			return fmt.Errorf("unknown unit %q behind the currency: pack, kg, h, cycle or year", per)
		}
	}
	*m = Money{v, label, known}
	return nil
}

// Currency says what is wrong with the label of a currency, such as EUR, USD, kr or £.
func Currency(label string) error {
	switch {
	case label == "":
		return errors.New("the currency is missing, such as EUR")
	case len([]rune(label)) > longestLabel:
		return fmt.Errorf("%q is too long for the label of a currency; write it short, such as EUR", label)
	}
	for _, r := range label {
		if !unicode.IsLetter(r) && !unicode.Is(unicode.Sc, r) {
			return fmt.Errorf("%q is not the label of a currency; letters such as EUR, or its sign", label)
		}
	}
	return nil
}

// String writes the amount as it is read.
func (m Money) String() string {
	s := plain(m.Value) + " " + m.Currency
	if m.Per != "" {
		s += "/" + m.Per
	}
	return s
}

// Wants says what is read here.
func (*Percent) Wants() string { return `a rate for a year, such as "8 %" or "-2 %"` }

// Parse reads a percentage above -100 and up to 1000.
func (p *Percent) Parse(text string) error {
	sign := 1.0
	if rest, ok := strings.CutPrefix(text, "-"); ok {
		sign, text = -1, rest
	}
	v, err := inOne(text, "the percent sign is missing", "%")
	switch {
	case err != nil:
		return err
	case sign < 0 && v >= 100:
		return errors.New("more than all is lost in a year")
	case v > 1000:
		return errors.New("more than tenfold in a year")
	}
	*p = Percent(sign * v / 100)
	return nil
}

// String writes per cent.
func (p Percent) String() string { return plain(math.Round(float64(p)*1e10)/1e8) + " %" }

// Wants says what is read here.
func (*Years) Wants() string { return `a whole number of years, such as "10 years"` }

// Parse reads 1 to 60 years.
func (y *Years) Parse(text string) error {
	v, err := inOne(text, "the unit is missing: years", "years", "year")
	switch {
	case err != nil:
		return err
	case v != math.Trunc(v):
		return errors.New("cash flows are counted by whole years")
	case v < 1 || v > 60:
		return errors.New("1 to 60 years")
	}
	*y = Years(v)
	return nil
}

// String writes the years as they are read.
func (y Years) String() string {
	if y == 1 {
		return "1 year"
	}
	return fmt.Sprintf("%d years", int64(y))
}

// Wants says what is read here.
func (*Weekly) Wants() string { return `packs in a week, such as "250000 packs/week"` }

// Parse reads packs in a week, 0 or more.
func (w *Weekly) Parse(text string) error {
	v, err := inOne(text, "the unit is missing: packs/week", "packs/week", "packs per week")
	switch {
	case err != nil:
		return err
	case v > mostPieces:
		return errors.New("more than a thousand million")
	}
	*w = Weekly(v)
	return nil
}

// String writes packs in a week.
func (w Weekly) String() string { return plain(float64(w)) + " packs/week" }
