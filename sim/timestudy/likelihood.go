package timestudy

import (
	"math"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/optimize"
	"gonum.org/v1/gonum/stat/distuv"
)

// distribution is what a fitted shape can do.
type distribution interface {
	CDF(x float64) float64
	LogProb(x float64) float64
	Survival(x float64) float64
	Quantile(p float64) float64
	Mean() float64
	StdDev() float64
}

// logLikelihood of a sample: densities of what ended, chances to last longer of what had not.
func logLikelihood(d distribution, s Sample) float64 {
	t := 0.0
	for _, x := range s.Exact {
		t += d.LogProb(x)
	}
	for _, x := range s.Censored {
		t += math.Log(d.Survival(x))
	}
	return t
}

// fitExponential: the mean is all the time over what ended.
func fitExponential(s Sample) distribution {
	return distuv.Exponential{Rate: float64(len(s.Exact)) / (sum(s.Exact) + sum(s.Censored))}
}

// fitWeibull solves the one equation in the shape that is left when the scale is put in (Cohen 1965, Technometrics 7:579), by halving;
// its left side grows with the shape.
func fitWeibull(s Sample) distribution {
	all := append(append([]float64(nil), s.Exact...), s.Censored...)
	top := 0.0
	for _, x := range all {
		top = math.Max(top, x)
	}
	scaled := logs(all)
	for i := range scaled {
		scaled[i] -= math.Log(top)
	}
	events := mean(scaled[:len(s.Exact)])
	powers := func(k float64) (p, pl float64) {
		for _, l := range scaled {
			e := math.Exp(k * l)
			p += e
			pl += float64(e * l)
		}
		return p, pl
	}
	k := bisect(func(lk float64) float64 {
		p, pl := powers(math.Exp(lk))
		return pl/p - math.Exp(-lk) - events
	}, math.Log(1e-3), math.Log(1e5))
	k = math.Exp(k)
	p, _ := powers(k)
	return distuv.Weibull{K: k, Lambda: top * math.Pow(p/float64(len(s.Exact)), 1/k)}
}

// bisect finds where a rising function crosses 0.
func bisect(f func(float64) float64, low, high float64) float64 {
	for range 200 {
		m := (low + high) / 2
		if m == low || m == high {
			break
		}
		if f(m) < 0 {
			low = m
		} else {
			high = m
		}
	}
	return (low + high) / 2
}

// fitGamma solves ln k - digamma(k) = ln mean - mean of ln; with censored values it climbs the likelihood from there.
func fitGamma(s Sample) distribution {
	m := mean(s.Exact)
	gap := math.Log(m) - mean(logs(s.Exact))
	k := math.Exp(bisect(func(lk float64) float64 { return gap - lk + mathext.Digamma(math.Exp(lk)) }, math.Log(1e-3), math.Log(1e7)))
	d := distuv.Gamma{Alpha: k, Beta: k / m}
	if len(s.Censored) == 0 {
		return d
	}
	total := (sum(s.Exact) + sum(s.Censored)) / float64(len(s.Exact))
	x := climb([]float64{math.Log(k), math.Log(total)}, func(x []float64) float64 {
		a := math.Exp(x[0])
		return logLikelihood(distuv.Gamma{Alpha: a, Beta: a / math.Exp(x[1])}, s)
	})
	a := math.Exp(x[0])
	return distuv.Gamma{Alpha: a, Beta: a / math.Exp(x[1])}
}

// fitLognormal: mean and standard deviation (by n) of the logs; with censored values it climbs the likelihood.
func fitLognormal(s Sample) distribution {
	l := logs(s.Exact)
	mu, sigma := mean(l), math.Sqrt(spread(l)/float64(len(l)))
	if len(s.Censored) == 0 {
		return distuv.LogNormal{Mu: mu, Sigma: sigma}
	}
	x := climb([]float64{mu, math.Log(math.Max(sigma, 1e-3))}, func(x []float64) float64 {
		return logLikelihood(distuv.LogNormal{Mu: x[0], Sigma: math.Exp(x[1])}, s)
	})
	return distuv.LogNormal{Mu: x[0], Sigma: math.Exp(x[1])}
}

func fitNormal(s Sample) distribution {
	return distuv.Normal{Mu: mean(s.Exact), Sigma: math.Sqrt(spread(s.Exact) / float64(len(s.Exact)))}
}

// fitTriangular finds the ends by climbing; for given ends the best peak is one of the readings (Oliver 1972, American
// Statistician 26:43, from memory), so that all are tried.
func fitTriangular(s Sample) distribution {
	v := sorted(s.Exact)
	low, high := v[0], v[len(v)-1]
	width := high - low
	ends := func(x []float64) (a, b float64) {
		return low - math.Min(width*math.Exp(x[0]), low), high + width*math.Exp(x[1])
	}
	x := climb([]float64{math.Log(0.1), math.Log(0.1)}, func(x []float64) float64 {
		a, b := ends(x)
		_, l := bestPeak(v, a, b)
		return l
	})
	a, b := ends(x)
	peak, _ := bestPeak(v, a, b)
	return distuv.NewTriangle(a, b, peak, nil)
}

// bestPeak is the likeliest peak between given ends, with its log likelihood; v is sorted.
func bestPeak(v []float64, a, b float64) (peak, best float64) {
	right := 0.0
	up, down := make([]float64, len(v)), make([]float64, len(v))
	for i, x := range v {
		up[i], down[i] = math.Log(x-a), math.Log(b-x)
		right += down[i]
	}
	n, left := float64(len(v)), 0.0
	best = math.Inf(-1)
	for i, x := range v {
		left += up[i]
		right -= down[i]
		l := left - float64(float64(i+1)*up[i]) + right - float64((n-float64(i+1))*down[i])
		if l > best {
			peak, best = x, l
		}
	}
	return peak, best + float64(n*math.Log(2/(b-a)))
}

// climb finds where a function is greatest, by the simplex of Nelder and Mead (1965), started twice so that a simplex that shrank
// early opens again. Where the function is no number it counts as very low.
func climb(start []float64, f func([]float64) float64) []float64 {
	down := func(x []float64) float64 {
		if v := f(x); !math.IsNaN(v) && !math.IsInf(v, 0) {
			return -v
		}
		return 1e300
	}
	x := start
	for range 2 {
		r, err := optimize.Minimize(optimize.Problem{Func: down}, x, &optimize.Settings{
			FuncEvaluations: 2000, Converger: &optimize.FunctionConverge{Absolute: 1e-10, Iterations: 30},
		}, &optimize.NelderMead{SimplexSize: 0.2})
		if r == nil || err != nil && len(r.X) == 0 {
			return x
		}
		x = r.X
	}
	return x
}
