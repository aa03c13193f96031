package random
import ("testing";"fmt";"math";"gonum.org/v1/gonum/mathext";"pascaline/scenarios")
func TestQ2(t *testing.T) {
	for _, cv := range []float64{2,5} {
	l, _ := NewLaw(scenarios.Law{Shape: "gamma", Mean: 1, SD: cv})
	k := 1 / cv / cv
	for _, u := range []float64{1e-12,1e-6,1e-4,1e-3,.01,.1,.3,.5,.6,.7,.8,.9} {
		x := l.Quantile(u)*k
		lg,_ := math.Lgamma(k+1)
		fmt.Println(cv,u,x, mathext.GammaIncRegInv(k,u), mathext.GammaIncReg(k,x)/u-1, math.Exp((math.Log(u)+lg)/k))
	}}
}
