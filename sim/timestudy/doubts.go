package timestudy

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// outlying are the indices of readings far from the others: modified z-score above 3.5 on the logs, where times are roughly symmetric
// (Iglewicz and Hoaglin 1993). They are pointed out, never taken away.
func outlying(v []float64) []int {
	if len(v) < 8 {
		return nil
	}
	l := logs(v)
	middle := quantileOf(sorted(l), 0.5)
	away := make([]float64, len(l))
	for i := range l {
		away[i] = math.Abs(l[i] - middle)
	}
	mad := quantileOf(sorted(away), 0.5)
	if mad == 0 {
		return nil
	}
	var out []int
	for i := range away {
		if 0.6745*away[i]/mad > 3.5 {
			out = append(out, i)
		}
	}
	return out
}

// twoKinds tells readings that are a mixture of two kinds: shares and means of both. On the logs two normal distributions with one spread
// must beat one by a BIC difference of 10 (very strong by Kass and Raftery 1995), lie two and a half spreads apart and hold a tenth each.
func twoKinds(v []float64) (share, meanLow, meanHigh float64, ok bool) {
	if len(v) < 20 {
		return 0, 0, 0, false
	}
	l := sorted(logs(v))
	n := float64(len(l))
	sd := math.Sqrt(spread(l) / n)
	one := -n * (math.Log(sd*math.Sqrt(2*math.Pi)) + 0.5)
	best := math.Inf(-1)
	for _, cut := range []float64{0.25, 0.5, 0.75} {
		k := int(cut * n)
		s, a, b, w, ll := mixture(l, mean(l[:k]), mean(l[k:]), sd/2)
		if ll > best && b-a > 2.5*s && w > 0.1 && w < 0.9 {
			best, share = ll, w
			meanLow, meanHigh = math.Exp(a+s*s/2), math.Exp(b+s*s/2)
		}
	}
	ok = 2*(best-one) > 2*math.Log(n)+10
	return share, meanLow, meanHigh, ok
}

// mixture fits two normal distributions of one spread s with centres a below b, the lower with share w, by expectation and maximisation.
func mixture(l []float64, a, b, s float64) (spread, low, high, w, ll float64) {
	w = 0.5
	n := float64(len(l))
	for range 200 {
		before := ll
		ll = 0
		var sw, sa, sb float64
		p := make([]float64, len(l))
		for i, x := range l {
			fa := w * distuv.Normal{Mu: a, Sigma: s}.Prob(x)
			fb := (1 - w) * distuv.Normal{Mu: b, Sigma: s}.Prob(x)
			t := math.Max(fa+fb, 1e-300)
			ll += math.Log(t)
			p[i] = fa / t
			sw += p[i]
			sa += float64(p[i] * x)
			sb += float64((1 - p[i]) * x)
		}
		if sw < 1e-9 || sw > n-1e-9 {
			break
		}
		a, b, w = sa/sw, sb/(n-sw), sw/n
		ss := 0.0
		for i, x := range l {
			ss += float64(p[i]*(x-a)*(x-a)) + float64((1-p[i])*(x-b)*(x-b))
		}
		s = math.Max(math.Sqrt(ss/n), 1e-6)
		if math.Abs(ll-before) < 1e-9*math.Abs(ll) {
			break
		}
	}
	return s, a, b, w, ll
}

// neighbours is the correlation of each reading with the next, in the order in which they were taken.
func neighbours(v []float64) float64 {
	s := spread(v)
	if len(v) < 3 || s == 0 {
		return 0
	}
	m, t := mean(v), 0.0
	for i := 1; i < len(v); i++ {
		t += float64((v[i] - m) * (v[i-1] - m))
	}
	return t / s
}

const mostPairs = 1500 // readings compared pairwise; of more, every second, third... is taken

// drift tests for a trend with order (Mann 1945, Kendall 1975): z is standard normal where there is none. slope is the median of all
// pairwise slopes (Sen 1968), per reading.
func drift(v []float64) (z, slope float64) {
	step := 1 + len(v)/mostPairs
	var x []float64
	for i := 0; i < len(v); i += step {
		x = append(x, v[i])
	}
	n := len(x)
	if n < 8 {
		return 0, 0
	}
	s := 0
	slopes := make([]float64, 0, n*(n-1)/2)
	for i := range x {
		for j := i + 1; j < n; j++ {
			switch {
			case x[j] > x[i]:
				s++
			case x[j] < x[i]:
				s--
			}
			slopes = append(slopes, (x[j]-x[i])/float64((j-i)*step))
		}
	}
	variance := float64(n*(n-1)*(2*n+5)) - ties(sorted(x))
	if variance <= 0 {
		return 0, 0
	}
	toward := 0.0
	if s > 0 {
		toward = 1
	} else if s < 0 {
		toward = -1
	}
	return (float64(s) - toward) / math.Sqrt(variance/18), quantileOf(sorted(slopes), 0.5)
}

// ties is what equal readings take off the variance of Kendall's sum.
func ties(v []float64) float64 {
	t := 0.0
	for i := 0; i < len(v); {
		j := i
		for j < len(v) && v[j] == v[i] {
			j++
		}
		k := float64(j - i)
		t += float64(k * (k - 1) * (2*k + 5))
		i = j
	}
	return t
}

// student is the quantile of Student's t for a two-sided interval of 95 %.
func student(df int) float64 {
	if df < 1 {
		return math.Inf(1)
	}
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(df)}.Quantile(0.975)
}

// enough is how many readings in all bring the half width of the mean to a share of it. Readings that resemble their neighbours
// (r above 0) count for less, by (1-r)/(1+r).
func enough(mean, sd, share, r float64) int {
	if sd == 0 || mean <= 0 {
		return 2
	}
	n := 2.0
	for range 60 {
		next := math.Pow(student(max(1, int(math.Ceil(n))-1))*sd/(share*mean), 2)
		next *= (1 + math.Max(r, 0)) / (1 - math.Min(math.Max(r, 0), 0.95))
		next = math.Max(2, math.Min(next, 1e7))
		if math.Abs(next-n) < 0.01 {
			break
		}
		n = (n + next) / 2
	}
	return int(math.Ceil(n - 0.02))
}
