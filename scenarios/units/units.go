// Package units holds the kinds of quantity that people write in a scenario file, one type each. Every quantity
// carries its unit in the file ("25 s", "420 L", "180/min"); here it is a plain number in one base unit.
package units

// Duration is a length of time in whole microseconds, written "25 s", "3 min", "1.5 h" or "2 days".
type Duration int64

// Volume is in litres, written "420 L" or "300 mL".
type Volume float64

// Mass is in kilograms, written "320 g" or "1.2 kg".
type Mass float64

// Pressure is in megapascals, written "600 MPa", "6000 bar" or "87000 psi".
type Pressure float64

// Rate is in pieces per second, written "180/min", "25 cases/min", "4500 packs/h" or "2/s".
type Rate float64

// Count is a whole number, written "5", "5 carriers" or "24000 packs".
type Count int64

// Share is between 0 and 1, written "8 %", "1 in 100" or "1 in 100 cycles".
type Share float64

// Text is a word or a sentence.
type Text string

// Word is one of a few words that the field names (its struct tag choices).
type Word string

// Moment is a time of the plant week in whole microseconds from Monday 00:00, written "Mon 06:00". A time of day without a
// day ("06:00") has Daily set and counts from midnight.
type Moment struct {
	At    Duration
	Daily bool
}

// Hours is a stretch of the day, written "06:00 to 14:00"; To is beyond 24 h when it runs over midnight.
type Hours struct{ From, To Duration }

// Days says on which days of the week (Monday is 0), written "Mon to Fri" or "Mon, Wed, Fri" or "every day".
type Days [7]bool

// Crew is who does a task, written "2 loaders", "2 to 3 loaders", "loaders" (one of them) or "machine" (Pool is empty).
type Crew struct {
	Least, Most int
	Pool        string
}

// A Clock is what the interval between stops is counted in.
type Clock string

// The clocks of stops.
const (
	Running  Clock = "running"       // hours in which the station processes
	OnShift  Clock = "on shift"      // hours in which it is rostered
	Calendar Clock = "calendar time" // hours by the clock on the wall
	Cycles   Clock = "cycles"        // tasks, loads or cycles ended
	Packs    Clock = "packs"         // packs handled
)

// Span is an interval between stops: seconds of a clock, or a number of cycles or packs. Written "500 h running",
// "60 h on shift", "90 days calendar time", "3000 cycles", "20000 packs". Clock is empty where the text named none.
type Span struct {
	Value float64
	Clock Clock
}
