package number

import (
	"fmt"
	"math"
	"strings"
)

// Duration writes seconds as people say them: "7.4 s", "41 s", "6 min 56 s", "1 h 12 min", "2 d 4 h". It gives two units at
// most and rounds to the smaller one.
func Duration(seconds float64) string {
	if math.IsNaN(seconds) || math.IsInf(seconds, 0) {
		return "n/a"
	}
	if seconds < 0 {
		return "-" + Duration(-seconds)
	}
	switch {
	case seconds == 0:
		return "0 s"
	case seconds < 9.95:
		return Fixed(seconds, 1) + " s"
	case seconds < 59.5:
		return Fixed(seconds, 0) + " s"
	case seconds < 3599.5:
		return pair(seconds, 1, 60, "min", "s")
	case seconds < 86400-30:
		return pair(seconds, 60, 60, "h", "min")
	}
	return pair(seconds, 3600, 24, "d", "h")
}

// Hours writes hours with one decimal, two below one hour: "14.6 h", "0.25 h".
func Hours(h float64) string {
	if h != 0 && math.Abs(h) < 0.995 {
		return Fixed(h, 2) + " h"
	}
	return Fixed(h, 1) + " h"
}

// Clock writes a minute of the plant week as "Mon 06:00". Minutes past Sunday begin the week again.
func Clock(minute int) string {
	const week = 7 * 24 * 60
	minute = ((minute % week) + week) % week
	days := [...]string{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"}
	return fmt.Sprintf("%s %02d:%02d", days[minute/1440], minute/60%24, minute%60)
}

// pair writes seconds in a small unit of so many seconds and a large one of so many small ones.
func pair(seconds, small float64, per int64, large, smallName string) string {
	n := int64(math.Round(seconds / small))
	out := []string{Count(n/per) + " " + large}
	if rest := n % per; rest != 0 {
		out = append(out, fmt.Sprintf("%d %s", rest, smallName))
	}
	return strings.Join(out, " ")
}
