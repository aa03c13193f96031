package units

// Flow is in litres per minute, written "52 L/min", "3 m3/h" or "0.9 L/s".
type Flow float64

// Power is in kilowatts, written "160 kW" or "90000 W".
type Power float64

// Length is in millimetres, written "380 mm", "38 cm" or "15 in".
type Length float64

// Temperature is in degrees Celsius, written "10 C".
type Temperature float64

var (
	flowUnits        = []unit{{"L/min", 1}, {"L/s", 60}, {"L/h", 1.0 / 60}, {"m3/h", 1000.0 / 60}}
	powerUnits       = []unit{{"kW", 1}, {"W", 1e-3}, {"MW", 1e3}}
	lengthUnits      = []unit{{"mm", 1}, {"cm", 10}, {"m", 1000}, {"in", 25.4}}
	temperatureUnits = []unit{{"C", 1}, {"°C", 1}}
)

// Wants says what is read here.
func (*Flow) Wants() string { return `a flow with its unit, such as "52 L/min" or "3 m3/h"` }

// Parse reads a flow above 0.
func (f *Flow) Parse(text string) error { return positive(text, flowUnits, (*float64)(f)) }

// String writes litres per minute.
func (f Flow) String() string { return plain(float64(f)) + " L/min" }

// Wants says what is read here.
func (*Power) Wants() string { return `a power with its unit, such as "160 kW"` }

// Parse reads a power above 0.
func (p *Power) Parse(text string) error { return positive(text, powerUnits, (*float64)(p)) }

// String writes kilowatts.
func (p Power) String() string { return plain(float64(p)) + " kW" }

// Wants says what is read here.
func (*Length) Wants() string { return `a length with its unit, such as "380 mm" or "15 in"` }

// Parse reads a length above 0.
func (l *Length) Parse(text string) error { return positive(text, lengthUnits, (*float64)(l)) }

// String writes millimetres.
func (l Length) String() string { return plain(float64(l)) + " mm" }

// Wants says what is read here.
func (*Temperature) Wants() string { return `a temperature with its unit, such as "10 C"` }

// Parse reads a temperature from 0 C.
func (t *Temperature) Parse(text string) error {
	v, err := scaled(text, temperatureUnits)
	if err == nil {
		*t = Temperature(v)
	}
	return err
}

// String writes degrees Celsius.
func (t Temperature) String() string { return plain(float64(t)) + " C" }
