package main

import (
	"log"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
)

// A law draws a time in seconds.
type law func(r *rand.Rand) float64

// found is what stands in a scenario after words, which are a regular expression with one group.
func found(text, words string) string {
	if m := regexp.MustCompile(words).FindStringSubmatch(text); m != nil {
		return m[1]
	}
	return ""
}

// number reads the count that stands after words, or gives what it is without it.
func number(text, words string, without int) int {
	if n, err := strconv.Atoi(found(text, words+`: (\d+)`)); err == nil {
		return n
	}
	return without
}

var units = map[string]float64{"s": 1, "min": 60, "h": 3600}

// seconds reads a time such as "20 min".
func seconds(words string) float64 {
	n, unit, _ := strings.Cut(words, " ")
	x, err := strconv.ParseFloat(n, 64)
	if err != nil || units[unit] == 0 {
		log.Fatalf("%q is no time", words)
	}
	return x * units[unit]
}

// lawAfter reads the law that stands after a word: a time, or a group.
func lawAfter(text, word string) law {
	words := found(text, word+`: (\{[^}]*\}|[\d.]+ (?:s|min|h)\b)`)
	of := func(key string) float64 {
		if s := found(words, key+`: ([\d.]+ (?:s|min|h))`); s != "" {
			return seconds(s)
		}
		return 0
	}
	mean, sd, low, high := of("mean"), of("sd"), of("low"), of("high")
	switch as := found(words, `as: (\w+)`); {
	case !strings.HasPrefix(words, "{"):
		x := seconds(words)
		return func(*rand.Rand) float64 { return x }
	case as == "constant":
		return func(*rand.Rand) float64 { return mean }
	case as == "exponential":
		return func(r *rand.Rand) float64 { return mean * r.ExpFloat64() }
	case as == "gamma":
		shape := mean * mean / sd / sd
		return func(r *rand.Rand) float64 { return mean / shape * gamma(r, shape) }
	case as == "lognormal":
		s := math.Sqrt(math.Log(1 + sd*sd/mean/mean))
		return func(r *rand.Rand) float64 { return mean * math.Exp(s*r.NormFloat64()-s*s/2) }
	case high > low:
		return func(r *rand.Rand) float64 { return low + (high-low)*r.Float64() }
	}
	log.Fatalf("%q is no law: %q", word, words)
	return nil
}

// gamma draws with scale 1 (Marsaglia and Tsang 2000, ACM Trans. Math. Softw. 26, 363-372: from memory).
func gamma(r *rand.Rand, shape float64) float64 {
	if shape < 1 {
		return gamma(r, shape+1) * math.Pow(r.Float64(), 1/shape)
	}
	d := shape - 1.0/3
	c := 1 / math.Sqrt(9*d)
	for {
		x := r.NormFloat64()
		v := math.Pow(1+c*x, 3)
		if v > 0 && math.Log(1-r.Float64()) < x*x/2+d-d*v+d*math.Log(v) {
			return d * v
		}
	}
}
