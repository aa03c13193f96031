package units

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// A Quantity is a field type that reads one word as it stands in the file and says what it wants to find.
type Quantity interface {
	Parse(text string) error // fills the quantity; the error says why the text is none
	Wants() string           // what is wanted, with an example
}

// Digits that nobody writes for a plant; beyond them a float64 would no longer hold every digit.
const mostDigits = 15

var (
	plainNumber = regexp.MustCompile(`^(0|[1-9][0-9]*)(\.[0-9]+)?$`)
	thousands   = regexp.MustCompile(`^[+-]?[0-9]{1,3}(,[0-9]{3})+(\.[0-9]+)?$`)
	decimals    = regexp.MustCompile(`^[+-]?[0-9]+,[0-9]+$`)
	clockTime   = regexp.MustCompile(`^[0-9]+:[0-9]{2}(:[0-9]{2})?$`)
	exponent    = regexp.MustCompile(`^[+-]?[0-9.]+[eE][+-]?[0-9]+$`)
	otherBase   = regexp.MustCompile(`^[+-]?0[xXoObB][0-9a-fA-F_]+$`)
	leadingZero = regexp.MustCompile(`^[+-]?0[0-9]+(\.[0-9]*)?$`)
	infinite    = regexp.MustCompile(`(?i)^[+-]?\.?(inf|infinity|nan)$`)
)

// number reads a plain decimal number, or names what was written instead.
func number(text string) (float64, error) {
	if plainNumber.MatchString(text) {
		if len(text) > mostDigits+1 {
			return 0, errors.New("more digits than a number here can hold")
		}
		return strconv.ParseFloat(text, 64)
	}
	return 0, notPlain(text)
}

// notPlain says what is wrong with a text that is no plain number.
func notPlain(text string) error {
	switch {
	case text == "":
		return errors.New("a number is missing")
	case thousands.MatchString(text):
		return fmt.Errorf("a thousands comma; write %s", strings.ReplaceAll(text, ",", ""))
	case decimals.MatchString(text):
		return fmt.Errorf("a decimal comma; write %s", strings.ReplaceAll(text, ",", "."))
	case clockTime.MatchString(text):
		return errors.New("a clock time is not a length of time; write it with a unit, such as 90 min")
	case infinite.MatchString(text):
		return errors.New("not a finite number")
	case otherBase.MatchString(text):
		return errors.New("not a decimal number")
	case strings.Contains(text, "_"):
		return fmt.Errorf("no underscores in numbers; write %s", strings.ReplaceAll(text, "_", ""))
	case exponent.MatchString(text):
		return errors.New("no powers of ten; write the number out")
	case leadingZero.MatchString(text):
		return errors.New("a leading zero; some programs read such a number to base 8")
	case strings.HasPrefix(text, "+"):
		return errors.New("write it without the plus sign")
	case strings.HasPrefix(text, "-"):
		return errors.New("nothing here can be below zero")
	case strings.HasPrefix(text, ".") || strings.HasSuffix(text, "."):
		return errors.New("a digit is missing beside the decimal point")
	}
	return fmt.Errorf("%q is not a plain number", text)
}

// scaled reads "NUMBER UNIT" and multiplies by the unit's value. A percent sign and the like may stand close to the number.
func scaled(text string, units []unit) (value float64, err error) {
	n, name := splitUnit(text)
	value, err = number(n)
	if err != nil {
		return 0, err
	}
	if name == "" {
		return 0, errors.New("the unit is missing")
	}
	for _, u := range units {
		if u.name == name {
			return value * u.is, nil
		}
	}
	return 0, fmt.Errorf("unknown unit %q%s", name, unitHint(name, units))
}

// inOne reads "NUMBER UNIT" where there is one unit, by any of its names; missing says what to write where there is none.
func inOne(text, missing string, names ...string) (float64, error) {
	n, name := splitUnit(text)
	v, err := number(n)
	switch {
	case err != nil:
		return 0, err
	case name == "":
		return 0, errors.New(missing)
	case !slices.Contains(names, name):
		return 0, fmt.Errorf("unknown unit %q; write %s", name, names[0])
	}
	return v, nil
}

type unit struct {
	name string
	is   float64 // in base units
}

// splitUnit parts "25 s" and "25s" into number and unit.
func splitUnit(text string) (n, unit string) {
	if n, unit, ok := strings.Cut(text, " "); ok {
		return n, strings.TrimSpace(unit)
	}
	i := len(text)
	for i > 0 && !isDigit(text[i-1]) {
		i--
	}
	if i == 0 || !plainNumber.MatchString(text[:i]) {
		return text, ""
	}
	return text[:i], text[i:]
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// unitHint finds the unit that was meant by a longer word or other case: "sec", "Min", "hours".
func unitHint(name string, units []unit) string {
	low := strings.ToLower(strings.TrimSuffix(name, "."))
	for _, u := range units {
		if strings.EqualFold(u.name, name) || strings.HasPrefix(low, strings.ToLower(u.name)) {
			return fmt.Sprintf("; write %s", u.name)
		}
	}
	return ""
}

// plain writes a number without an exponent and without needless digits.
func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
