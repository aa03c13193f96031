package random

import "math"

// The logarithm, the exponential function and the normal quantile are written here rather than taken from the library,
// where compilers may fuse multiplications and additions: draws must not differ in the last bit between processors.
// Each is right to a few units in the last place.

const (
	ln2High = 6.93147180369123816490e-01 // 33 bits: a product with an exponent is exact
	ln2Low  = 1.90821492927058770002e-10
)

// atanhTerms are the coefficients of atanh(s)/s in s^2: 1, 1/3, 1/5 ...
var atanhTerms = [...]float64{
	1, 1. / 3, 1. / 5, 1. / 7, 1. / 9, 1. / 11, 1. / 13, 1. / 15, 1. / 17, 1. / 19, 1. / 21,
}

// expTerms are the coefficients of exp: 1, 1, 1/2, 1/6 ...
var expTerms = [...]float64{
	1, 1, 1. / 2, 1. / 6, 1. / 24, 1. / 120, 1. / 720, 1. / 5040, 1. / 40320, 1. / 362880, 1. / 3628800,
	1. / 39916800, 1. / 479001600, 1. / 6227020800, 1. / 87178291200,
}

// poly is c[0] + c[1]x + c[2]x^2 + ...
func poly(x float64, c []float64) float64 {
	p := c[len(c)-1]
	for i := len(c) - 2; i >= 0; i-- {
		p = float64(p*x) + c[i]
	}
	return p
}

// near is log(1+f) for f between -0.3 and 0.42, without loss near 0: log(1+f) = 2 atanh(f/(2+f)).
func near(f float64) float64 {
	s := f / (2 + f)
	return float64(2 * s * poly(s*s, atanhTerms[:]))
}

// log is the natural logarithm of x > 0.
func log(x float64) float64 {
	m, e := math.Frexp(x)
	if m < math.Sqrt2/2 {
		m, e = 2*m, e-1
	}
	k := float64(e)
	return float64(k*ln2High) + (near(m-1) + float64(k*ln2Low))
}

// log1p is log(1+f) for f > -1.
func log1p(f float64) float64 {
	if f > -0.25 && f < 0.4 {
		return near(f)
	}
	return log(1 + f)
}

// exp is e to the x.
func exp(x float64) float64 {
	switch {
	case x > 709:
		return math.Inf(1)
	case x < -745:
		return 0
	}
	k := math.Floor(float64(x*math.Log2E) + 0.5)
	r := (x - float64(k*ln2High)) - float64(k*ln2Low)
	return math.Ldexp(poly(r, expTerms[:]), int(k))
}

// steady drops the last 12 bits of a constant that the library computed, so that a difference in its last bit between
// processors does not reach the draws. It changes the constant by at most 1 in 10^12.
func steady(x float64) float64 {
	const drop = 12
	b := math.Float64bits(x) + 1<<(drop-1)
	return math.Float64frombits(b >> drop << drop)
}

// Coefficients of the normal quantile: numerator and denominator for the middle, the tails and the far tails.
var (
	middleNum = [...]float64{
		3.3871328727963666080, 133.14166789178437745, 1971.5909503065514427, 13731.693765509461125,
		45921.953931549871457, 67265.770927008700853, 33430.575583588128105, 2509.0809287301226727,
	}
	middleDen = [...]float64{
		1, 42.313330701600911252, 687.18700749205790830, 5394.1960214247511077,
		21213.794301586595867, 39307.895800092710610, 28729.085735721942674, 5226.4952788528545610,
	}
	tailNum = [...]float64{
		1.42343711074968357734, 4.63033784615654529590, 5.76949722146069140550, 3.64784832476320460504,
		1.27045825245236838258, 0.241780725177450611770, 0.0227238449892691845833, 7.74545014278341407640e-4,
	}
	tailDen = [...]float64{
		1, 2.05319162663775882187, 1.67638483018380384940, 0.689767334985100004550,
		0.148103976427480074590, 0.0151986665636164571966, 5.47593808499534494600e-4, 1.05075007164441684324e-9,
	}
	farNum = [...]float64{
		6.65790464350110377720, 5.46378491116411436990, 1.78482653991729133580, 0.296560571828504891230,
		0.0265321895265761230930, 0.00124266094738807843860, 2.71155556874348757815e-5, 2.01033439929228813265e-7,
	}
	farDen = [...]float64{
		1, 0.599832206555887937690, 0.136929880922735805310, 0.0148753612908506148525,
		7.86869131145613259100e-4, 1.84631831751005468180e-5, 1.42151175831644588870e-7, 2.04426310338993978564e-15,
	}
)

// normalQuantile is the quantile of the standard normal law (Wichura 1988, algorithm AS 241, PPND16: 1 in 10^16).
func normalQuantile(u float64) float64 {
	q := u - 0.5
	if math.Abs(q) <= 0.425 {
		r := 0.180625 - float64(q*q)
		return q * poly(r, middleNum[:]) / poly(r, middleDen[:])
	}
	if q < 0 {
		return -upperTail(u)
	}
	return upperTail(1 - u)
}

// upperTail is the value that the share p of standard normal draws exceeds, for p below 0.075.
func upperTail(p float64) float64 {
	r := math.Sqrt(-log(p))
	if r <= 5 {
		return poly(r-1.6, tailNum[:]) / poly(r-1.6, tailDen[:])
	}
	return poly(r-5, farNum[:]) / poly(r-5, farDen[:])
}
