package units

import (
	"errors"
	"fmt"
	"strings"
)

// Output is what somebody says a line brings, written "13000 kg", "650 kg/h", "32 t/yr", "70 million lb/yr" or "3000 L/h".
type Output struct {
	Amount float64 // kg, or L where Litres is set
	Litres bool
	Per    string // "hour", "day", "year"; "" for all the hours together
}

// Density is in kilograms per litre, written "1.03 kg/L".
type Density float64

var (
	outputMass   = append([]unit{{"t", 1000}, {"tonnes", 1000}, {"lbs", 0.45359237}}, massUnits...)
	outputVolume = append([]unit{{"litres", 1}}, volumeUnits...)
	outputPer    = map[string]string{"h": "hour", "hr": "hour", "hour": "hour", "day": "day", "d": "day", "yr": "year", "year": "year", "a": "year"}
	manyOf       = []unit{{"thousand", 1e3}, {"million", 1e6}}
	densityUnits = []unit{{"kg/L", 1}, {"g/mL", 1}, {"kg/m3", 1e-3}}
)

// Wants says what is read here.
func (*Output) Wants() string {
	return `an output, such as "13000 kg", "650 kg/h", "32 t/yr" or "70 million lb/yr"`
}

// Parse reads an amount of mass or volume above 0, in all or for each hour, day or year.
func (o *Output) Parse(text string) error {
	what, per, each := strings.Cut(text, "/")
	if each && outputPer[strings.TrimSpace(per)] == "" {
		return fmt.Errorf("for each %q is not known: h, day or yr", strings.TrimSpace(per))
	}
	times := 1.0
	for _, many := range manyOf {
		if a, b, ok := strings.Cut(what, " "+many.name+" "); ok {
			what, times = a+" "+b, times*many.is
		}
	}
	what = strings.TrimSpace(what)
	x := Output{Per: outputPer[strings.TrimSpace(per)]}
	v, err := scaled(what, outputMass)
	if err != nil {
		var other error
		if v, other = scaled(what, outputVolume); other == nil {
			x.Litres, err = true, nil
		}
	}
	switch {
	case err != nil:
		return err
	case v <= 0:
		return errors.New("more than 0 is wanted")
	}
	x.Amount = v * times
	*o = x
	return nil
}

// Kg is the output in all of so many hours, of packs of a density in kg/L. An output of an hour is made in each of them.
func (o Output) Kg(density, hours float64) float64 {
	kg := o.Amount
	if o.Litres {
		kg *= density
	}
	if o.Per == "hour" {
		kg *= hours
	}
	return kg
}

// UsualHours are those taken where none are given: one, a day, or a year of two shifts.
func (o Output) UsualHours() float64 {
	switch o.Per {
	case "day":
		return 24
	case "year":
		return 5000
	}
	return 1
}

// Wants says what is read here.
func (*Density) Wants() string { return `a density with its unit, such as "1.03 kg/L"` }

// Parse reads a density above 0.
func (d *Density) Parse(text string) error { return positive(text, densityUnits, (*float64)(d)) }

// String writes kilograms per litre.
func (d Density) String() string { return plain(float64(d)) + " kg/L" }
