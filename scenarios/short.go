package scenarios

import (
	"errors"

	"pascaline/scenarios/units"
)

// short is a struct that can be written as one word as well.
type short interface {
	parseShort(text string) error
	shortWants() string
}

func (t *Time) parseShort(text string) error {
	var d units.Duration
	if err := d.Parse(text); err != nil {
		return err
	}
	t.Value = &d
	t.law = Law{Shape: Constant, Mean: d.Seconds()}
	return nil
}

func (t *Time) shortWants() string {
	return `a time, such as "25 s", {low: 20 s, likely: 25 s, high: 40 s} or {mean: 25 s, sd: 5 s}`
}

func (t *HandTime) parseShort(string) error {
	return errors.New("say what one reading was taken of, such as per: carrier")
}

func (t *HandTime) shortWants() string {
	return "what was measured and how, such as {per: pack and person, low: 1.0 s, likely: 1.4 s, high: 2.1 s}"
}

func (e *Every) parseShort(text string) error {
	var s units.Span
	if err := s.Parse(text); err != nil {
		return err
	}
	switch {
	case s.Clock == "":
		return errNoClock
	case s.Value <= 0:
		return errors.New("more than 0 is wanted")
	}
	e.Value = &s
	e.law, e.clock = Law{Shape: Constant, Mean: s.Value}, s.Clock
	return nil
}

var errNoClock = errors.New("say which hours: running, on shift or calendar time")

func (e *Every) shortWants() string {
	return `an interval with its clock, such as "3000 cycles", "500 h running" or {mean: 60 h on shift}`
}

func (f *Feed) parseShort(text string) error {
	if text == "without end" {
		f.WithoutEnd = true
		return nil
	}
	if err := f.Quantity.Parse(text); err != nil {
		return err
	}
	if f.Quantity < 1 {
		return errors.New("at least one")
	}
	return nil
}

func (f *Feed) shortWants() string {
	return `what comes in, such as "without end", "24000 packs" or {every: 0.7 s}`
}

func (p *Portion) parseShort(text string) error { return p.Share.Parse(text) }

func (p *Portion) shortWants() string {
	return `a share, such as "0.2 %", "1 in 500" or {share: 0.2 %, drawn: by count}`
}

// Wants says what is read here.
func (*Length) Wants() string { return `"day", "week", a length such as "8 h", or "until finished"` }

// Parse reads how long a replication is.
func (l *Length) Parse(text string) error {
	*l = Length{}
	switch text {
	case "day":
		l.For = units.Day
		return nil
	case "week":
		l.For = units.Week
		return nil
	case "until finished":
		l.UntilFinished = true
		return nil
	}
	if err := l.For.Parse(text); err != nil {
		return err
	}
	if l.For <= 0 {
		return errors.New("more than 0 is wanted")
	}
	return nil
}

// settle notes that no places at all were asked for.
func (p *Places) settle(n *node) { p.None = n.get("places") != nil && p.Places == 0 }

// settle notes that there is room without end.
func (m *Machine) settle(*node) {
	if m.PlacesBefore == endless {
		m.PlacesBefore, m.Endless = 0, true
	}
}
