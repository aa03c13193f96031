package number

import (
	"fmt"
	"math"
)

// Moment writes a time of a run, in hours after a minute of the plant week, as "Tue 14:05"; later weeks are numbered from that of the start.
func Moment(startMin int, hours float64) string {
	const week = 7 * 24 * 60
	m := startMin + int(math.Round(hours*60))
	if n := m/week + 1; n > 1 {
		return fmt.Sprintf("week %d %s", n, Clock(m))
	}
	return Clock(m)
}
