package words

import (
	"fmt"
	"strings"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// FillSizing writes the sentences of a sizing into it, once, before it is saved.
func FillSizing(r *result.Sizing) {
	r.Cautions = Cautions()
	r.Answer = sizingAnswer(r)
}

func sizingAnswer(r *result.Sizing) string {
	target := SizeTarget(r.Target)
	switch {
	case r.Chosen != nil:
		f := r.Chosen
		return fmt.Sprintf("%s is the cheapest setting that %s %s: it costs %s a year%s and reached the target in %s.",
			upper(SizeValues(f.Setting)), makes(r.Target), target, Money(f.Cost, r.Currency), besideCost(f, r.Currency), ChanceWords(f.Chance, r.Target.Over))
	case r.Incomplete:
		return fmt.Sprintf("The search for the cheapest setting that %s %s was interrupted before one was found.", makes(r.Target), target)
	case r.Nearest != nil:
		f := r.Nearest
		return fmt.Sprintf("None of the %s %s %s. Nearest came %s, which costs %s a year: it had %s and reached the target in %s.",
			Settings(len(r.Settings)), makes(r.Target), target, SizeValues(f.Setting), Money(f.Cost, r.Currency), number.PlusMinus(f.Output, r.Target.Unit),
			ChanceWords(f.Chance, r.Target.Over))
	}
	return nothingRun(r, target)
}

// PaysOvertime tells whether so much overtime is paid for that it is worth a word: 3 minutes a shift.
func PaysOvertime(f *result.SizeFound) bool { return f.Overtime != nil && f.OvertimeH >= 0.05 }

// besideCost is the pay of overtime, which is not in the cost.
func besideCost(f *result.SizeFound, currency string) string {
	if !PaysOvertime(f) {
		return ""
	}
	return fmt.Sprintf(" (and %s for overtime)", Money(f.Overtime.Mean, currency))
}

// nothingRun says why no setting was simulated.
func nothingRun(r *result.Sizing, target string) string {
	best := -1
	for i, s := range r.Settings {
		if s.Ceiling > 0 && (best < 0 || s.Ceiling > r.Settings[best].Ceiling) {
			best = i
		}
	}
	if best < 0 {
		return fmt.Sprintf("None of the %s can be built as a line (the first: %s), so none %s %s.", Settings(len(r.Settings)), r.Settings[0].Why, makes(r.Target), target)
	}
	s := r.Settings[best]
	var parts []string
	for i, v := range s.Values {
		parts = append(parts, r.Dimensions[i].Name+" "+v)
	}
	return fmt.Sprintf("None of the %s can make %s: by mean times alone the best of them, %s, is held to %s %s.",
		Settings(len(r.Settings)), target, strings.Join(parts, ", "), number.Fixed(s.Ceiling, 0), r.Target.Unit)
}

// Settings counts settings: 1 setting, 1,200 settings.
func Settings(n int) string {
	if n == 1 {
		return "1 setting"
	}
	return number.Count(int64(n)) + " settings"
}

// makes is what a setting does with its target.
func makes(t result.SizeTarget) string {
	if t.Unit == result.LotsOnTime {
		return "has"
	}
	return "makes"
}

// SizeTarget puts a target in words: 26,000 packs in at least 90 % of shifts.
func SizeTarget(t result.SizeTarget) string {
	s := number.Fixed(t.Value, 0) + " packs"
	switch t.Unit {
	case result.LotsOnTime:
		s = number.Figure(t.Value, 3) + " % of the lots on time"
	case "packs/h":
		s += " an hour"
	}
	if t.Share > 0 {
		s += fmt.Sprintf(" in at least %s of %s", Share(t.Share), t.Over)
	} else {
		s += fmt.Sprintf(" on average over %s", t.Over)
	}
	if len(t.Shifts) > 0 {
		s += " (" + strings.Join(t.Shifts, ", ") + ")"
	}
	return s
}

// Share writes a share that somebody asked for: 90 %, not 90.0 %.
func Share(share float64) string {
	return strings.Replace(number.Percent(share), ".0 %", " %", 1)
}

// SizeValues puts a setting in words: loaders 4, packers 5.
func SizeValues(values []result.SizeValue) string {
	parts := make([]string, len(values))
	for i, v := range values {
		parts[i] = v.Name + " " + v.Value
	}
	return strings.Join(parts, ", ")
}

// Money writes an amount with its currency, to whole units.
func Money(v float64, currency string) string {
	return strings.TrimSpace(number.Fixed(v, 0) + " " + currency)
}

// ChanceWords puts a chance in words, with its interval.
func ChanceWords(c result.Chance, unit string) string {
	return fmt.Sprintf("%s of %s (%s to %s)", number.Percent(c.Share), unit, number.Percent(c.Low), number.Percent(c.High))
}

// HeldUp puts what waited for a pool in words: packing 1.2 h, dryer 0.1 h.
func HeldUp(list []result.HeldUp) string {
	var parts []string
	for i, h := range list {
		if i == 3 || h.WaitH < 0.05 {
			break
		}
		parts = append(parts, fmt.Sprintf("%s %s h", h.Station, number.Fixed(h.WaitH, 1)))
	}
	if len(parts) == 0 {
		return "hardly anything"
	}
	return strings.Join(parts, ", ")
}
