package random

import (
	"fmt"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
	"math"
	"pascaline/scenarios"
)

func TestQuick(t *testing.T) {
	for _, cv := range []float64{.01, .05, .2, 1, 2, 5} {
		l, err := NewLaw(scenarios.Law{Shape: "gamma", Mean: 20, SD: 20 * cv})
		if err != nil {
			t.Fatal(err)
		}
		k := 1 / cv / cv
		g := distuv.Gamma{Alpha: k, Beta: k / 20}
		worst := 0.0
		for i := -138; i <= 138; i++ {
			u := 1 / (1 + math.Exp(-float64(i)/10+.03))
			a, b := l.Quantile(u), g.Quantile(u)
			if b < 1e-290 {
				continue
			}
			if e := math.Abs(a/b - 1); e > worst {
				worst = e
			}
		}
		fmt.Println(cv, worst, l.Quantile(1e-16), l.Quantile(1-1e-16))
	}
	for _, m := range []float64{0, .01, .2, .5, .9, 1} {
		l, err := NewLaw(scenarios.Law{Shape: "pert", Low: 0, Likely: m, High: 1})
		if err != nil {
			t.Fatal(err)
		}
		g := distuv.Beta{Alpha: 1 + 4*m, Beta: 5 - 4*m}
		worst := 0.0
		for i := -138; i <= 138; i++ {
			u := 1 / (1 + math.Exp(-float64(i)/10+.03))
			a, b := l.Quantile(u), g.Quantile(u)
			if e := math.Abs(a/b - 1); e > worst {
				worst = e
			}
		}
		fmt.Println(m, worst, l.Quantile(1e-16), l.Quantile(1-1e-16))
	}
	for _, u := range []float64{1e-300, 1e-16, 1e-6, .01, .07, .3, .49, .7, .99, 1 - 1e-9} {
		fmt.Println(u, normalQuantile(u)-distuv.UnitNormal.Quantile(u), log(u)-math.Log(u), exp(log(u))/u-1, log1p(-u)-math.Log1p(-u))
	}
}
func BenchmarkLaws(b *testing.B) {
	for _, s := range []string{"gamma", "weibull", "lognormal", "normal", "exponential"} {
		l, _ := NewLaw(scenarios.Law{Shape: scenarios.Shape(s), Mean: 20, SD: 10})
		d := NewDraw(l, Named(1, 2, "x"), "x")
		b.Run(s, func(b *testing.B) {
			for i := range b.N {
				d.At(uint64(i))
			}
		})
	}
}
func BenchmarkNew(b *testing.B) {
	for _, cv := range []float64{.01,.05,.5,1,5} {
	b.Run(fmt.Sprint("gamma",cv), func(b *testing.B) { for range b.N { NewLaw(scenarios.Law{Shape: "gamma", Mean: 20, SD: 20*cv}) } })
	}
	b.Run("pert", func(b *testing.B) { for range b.N { NewLaw(scenarios.Law{Shape: "pert", Low: 20, Likely: 25, High:50})}})
	l,_ := NewLaw(scenarios.Law{Shape: "weibull", Mean: 20, SD: 20*1.5})
	b.Run("res", func(b *testing.B) { for range b.N { Residual(l)}})
}
