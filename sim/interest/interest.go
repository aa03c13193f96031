// Package interest has the factors of every interest table: what an amount, a yearly amount or a gradient is worth at another time. Rates are
// fractions for a year, times whole years.
package interest

// Power is x to a whole number at least 0, by squaring: the same digits on every processor.
func Power(x float64, n int) float64 {
	p := 1.0
	for ; n > 0; n >>= 1 {
		if n&1 == 1 {
			p *= x
		}
		x *= x
	}
	return p
}

// FP is (F/P, i, n): what 1 today is worth after n years. The names of these factors are those of every interest table.
func FP(i float64, n int) float64 { return Power(1+i, n) }

// PF is (P/F, i, n): what 1 after n years is worth today.
func PF(i float64, n int) float64 { return 1 / FP(i, n) }

// PA is (P/A, i, n): what 1 at the end of each of n years is worth today. At i = 0 it is n.
func PA(i float64, n int) float64 {
	if i == 0 {
		return float64(n)
	}
	return (1 - PF(i, n)) / i
}

// AP is (A/P, i, n): what is paid at the end of each of n years for 1 today. At i = 0 it is 1/n.
func AP(i float64, n int) float64 { return 1 / PA(i, n) }

// FA is (F/A, i, n): what 1 at the end of each of n years is worth at the end of the last. At i = 0 it is n.
func FA(i float64, n int) float64 { return float64(PA(i, n) * FP(i, n)) }

// PG is (P/G, i, n): what a gradient of 0, 1, 2 … n-1 at the ends of the years is worth today. At i = 0 it is n(n-1)/2.
func PG(i float64, n int) float64 {
	if i == 0 {
		return float64(n) * float64(n-1) / 2
	}
	return (PA(i, n) - float64(float64(n)*PF(i, n))) / i
}
