package units

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
)

var (
	volumeUnits   = []unit{{"L", 1}, {"mL", 1e-3}, {"m3", 1e3}}
	massUnits     = []unit{{"g", 1e-3}, {"kg", 1}, {"lb", 0.45359237}, {"oz", 0.028349523125}}
	pressureUnits = []unit{{"MPa", 1}, {"bar", 0.1}, {"psi", 6894.757293168e-6}}
	perTime       = map[string]float64{"s": 1, "min": 60, "h": 3600}
	ratePattern   = regexp.MustCompile(`^(\S+?)(?: ([a-z]+))? ?/ ?(\S+)$`)
)

// Wants says what is read here.
func (*Volume) Wants() string { return `a volume with its unit, such as "420 L" or "300 mL"` }

// Parse reads a volume above 0.
func (v *Volume) Parse(text string) error { return positive(text, volumeUnits, (*float64)(v)) }

// String writes litres.
func (v Volume) String() string { return plain(float64(v)) + " L" }

// Wants says what is read here.
func (*Mass) Wants() string { return `a mass with its unit, such as "320 g" or "1.2 kg"` }

// Parse reads a mass above 0.
func (m *Mass) Parse(text string) error { return positive(text, massUnits, (*float64)(m)) }

// String writes kilograms.
func (m Mass) String() string { return plain(float64(m)) + " kg" }

// Wants says what is read here.
func (*Pressure) Wants() string {
	return `a pressure with its unit, such as "600 MPa", "6000 bar" or "87000 psi"`
}

// Parse reads a pressure above 0.
func (p *Pressure) Parse(text string) error { return positive(text, pressureUnits, (*float64)(p)) }

// String writes megapascals.
func (p Pressure) String() string { return plain(float64(p)) + " MPa" }

func positive(text string, units []unit, to *float64) error {
	v, err := scaled(text, units)
	if err == nil && v <= 0 {
		err = errors.New("more than 0 is wanted")
	}
	if err != nil {
		return err
	}
	*to = v
	return nil
}

// Wants says what is read here.
func (*Rate) Wants() string { return `a rate, such as "180/min", "25 cases/min" or "4500 packs/h"` }

// Parse reads pieces per second, minute or hour, above 0.
func (r *Rate) Parse(text string) error {
	m := ratePattern.FindStringSubmatch(text)
	if m == nil {
		if _, err := number(text); err == nil {
			return errors.New("the unit is missing: per s, min or h")
		}
		if n, _, ok := strings.Cut(text, " "); ok {
			if _, err := number(n); err != nil {
				return err
			}
		}
		return errors.New("pieces and time are parted by a stroke")
	}
	v, err := number(m[1])
	if err != nil {
		return err
	}
	per, ok := perTime[m[3]]
	switch {
	case !ok:
		return fmt.Errorf("unknown unit of time %q: s, min or h", m[3])
	case m[2] != "" && !known(m[2]):
		return fmt.Errorf("unknown noun %q", m[2])
	case v <= 0:
		return errors.New("more than 0 is wanted")
	case v/per > 1e6:
		return errors.New("more than one in a microsecond")
	}
	*r = Rate(v / per)
	return nil
}

// Noun is the word for the pieces in a rate, if one was written.
func (*Rate) Noun(text string) string {
	if m := ratePattern.FindStringSubmatch(text); m != nil {
		return m[2]
	}
	return ""
}

// String writes pieces per minute.
func (r Rate) String() string { return plain(float64(r)*60) + "/min" }
