package capital

import "math"

// Repaid is the time in years in which a level gain a per year, taken as a steady stream of whole and part years, repays p with
// interest: n = -ln(1 - p i / a) / ln(1 + i), and false where the gain does not even pay the interest. At i = 0 it is p/a.
func Repaid(p, a, i float64) (years float64, pays bool) {
	switch {
	case a <= 0 || float64(p*i) >= a:
		return 0, p <= 0
	case i == 0:
		return p / a, true
	}
	return -math.Log1p(-p*i/a) / math.Log1p(i), true
}
