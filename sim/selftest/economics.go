package selftest

import (
	"fmt"
	"strconv"
	"strings"

	"pascaline/sim/capital"
	"pascaline/sim/interest"
)

// economicChecks compares payback, present value, internal rates and interest factors with printed answers.
func economicChecks(_ *Runner, name string, rows []valueRow) ([]Check, error) {
	var checks []Check
	for _, x := range rows {
		c, err := x.check()
		if err == nil {
			c.Got, err = economic(strings.Fields(x["metric"]), x["data"])
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.Name, err)
		}
		checks = append(checks, c)
	}
	return checks, nil
}

// economic works out a figure; its name is followed by numbers, such as "npv 0.08", and the data are flows, such as "-150 45*10".
func economic(words []string, data string) (float64, error) {
	if len(words) == 0 {
		return 0, fmt.Errorf("no figure is named")
	}
	arg := make([]float64, 3)
	for i, w := range words[1:] {
		if v, err := strconv.ParseFloat(w, 64); err == nil && i < len(arg) {
			arg[i] = v
		}
	}
	if words[0] == "dated" {
		return datedFigure(words[1], arg[1], data)
	}
	before, after, two := strings.Cut(data, "|")
	f, err := flowsFrom(before)
	if err != nil {
		return 0, err
	}
	if two {
		g, err := flowsFrom(after)
		if err != nil {
			return 0, err
		}
		f = g.Minus(f)
	}
	if strings.HasPrefix(words[0], "irr") {
		return internalRate(words, f)
	}
	if of, ok := factors[words[0]]; ok {
		return of(arg[0], int(arg[1])), nil
	}
	if of, ok := figures[words[0]]; ok {
		return of(f, arg), nil
	}
	return 0, fmt.Errorf("no figure is called %q", words[0])
}

var factors = map[string]func(float64, int) float64{
	"PA": interest.PA, "AP": interest.AP, "PF": interest.PF, "FA": interest.FA, "PG": interest.PG,
}

var figures = map[string]func(f capital.Flows, arg []float64) float64{
	"npv":    func(f capital.Flows, arg []float64) float64 { return f.NPV(arg[0]) },
	"annual": func(f capital.Flows, arg []float64) float64 { return f.Annual(arg[0]) },
	"cost":   func(f capital.Flows, arg []float64) float64 { return -f.Annual(arg[0]) },
	"mirr":   func(f capital.Flows, arg []float64) float64 { return f.MIRR(arg[0], arg[1]) },
	"payback": func(f capital.Flows, arg []float64) float64 {
		years, _ := f.Discounted(arg[0])
		return years
	},
	"never": func(f capital.Flows, _ []float64) float64 {
		if _, pays := f.Payback(); pays {
			return 0
		}
		return 1
	},
	"repaid": func(_ capital.Flows, arg []float64) float64 {
		years, _ := capital.Repaid(arg[0], arg[1], arg[2])
		return years
	},
}

// internalRate is "irr" for the only one, "irr 2 of 3" for one of several, "irr %" in per cent.
func internalRate(words []string, f capital.Flows) (float64, error) {
	all := f.Rates()
	which, of := 1, 1
	if len(words) == 4 {
		which, _ = strconv.Atoi(words[1])
		of, _ = strconv.Atoi(words[3])
	}
	if len(all) != of || which < 1 || which > of {
		return 0, fmt.Errorf("%d internal rates: %v", len(all), all)
	}
	if words[len(words)-1] == "%" {
		return 100 * all[which-1], nil
	}
	return all[which-1], nil
}

func datedFigure(name string, rate float64, data string) (float64, error) {
	var flows []capital.Dated
	for _, w := range strings.Fields(data) {
		day, amount, _ := strings.Cut(w, ":")
		d, err := strconv.Atoi(day)
		if err != nil {
			return 0, err
		}
		a, err := strconv.ParseFloat(amount, 64)
		if err != nil {
			return 0, err
		}
		flows = append(flows, capital.Dated{Day: d, Amount: a})
	}
	switch name {
	case "npv":
		return capital.NPVDated(flows, rate), nil
	case "irr":
		if all := capital.RatesDated(flows); len(all) == 1 {
			return all[0], nil
		}
		return 0, fmt.Errorf("not one internal rate")
	}
	return 0, fmt.Errorf("no figure of dated flows is called %q", name)
}

// flowsFrom reads flows: amounts, or an amount and how often it comes again, such as 45*10.
func flowsFrom(data string) (f capital.Flows, err error) {
	for _, w := range strings.Fields(data) {
		amount, times, repeated := strings.Cut(w, "*")
		a, err := strconv.ParseFloat(amount, 64)
		if err != nil {
			return nil, err
		}
		n := 1
		if repeated {
			if n, err = strconv.Atoi(times); err != nil {
				return nil, err
			}
		}
		for range n {
			f = append(f, a)
		}
	}
	return f, nil
}
