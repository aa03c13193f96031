package page

import (
	"fmt"
	"strconv"

	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

// breakEvenSection says how far single figures may go.
func breakEvenSection(r *result.Payback) (*section, error) {
	t := table{Caption: "The value at which it is just paid back in time, all others as planned", Head: columns("Option", "=figure", "planned", "needed", "=unit", "=what it means")}
	for i := range r.Options {
		for _, b := range r.Options[i].BreakEven {
			row := []string{r.Options[i].Name, b.What, number.Figure(b.Planned, 4), "", b.Unit, ""}
			switch {
			case b.Needed == nil && b.Always:
				row[3], row[5] = "any", "pays at any value up to ten times the plan"
			case b.Needed == nil:
				row[3], row[5] = "none", "not by this figure alone: not even at ten times the plan"
				if b.AtMost {
					row[5] = "not by this figure alone: not even if it is nearly nothing"
				}
			case b.AtMost:
				row[3], row[5] = number.Figure(*b.Needed, 4), fmt.Sprintf("at most %s of the plan", number.Percent(*b.Needed/b.Planned))
			default:
				row[3], row[5] = number.Figure(*b.Needed, 4), fmt.Sprintf("at least %s of the plan", number.Percent(*b.Needed/b.Planned))
			}
			t.Rows = append(t.Rows, row)
		}
	}
	if len(t.Rows) == 0 {
		return nil, nil
	}
	return &section{ID: "even", Title: fmt.Sprintf("What must hold to be paid back within %s", words.Years(r.Asked)), Tables: []table{t}}, nil
}

// swingSection says what matters: net present value by each figure alone.
func swingSection(r *result.Payback) (*section, error) {
	o := subject(r)
	if len(o.Tornado) == 0 {
		return nil, nil
	}
	c, err := swingChart(r, o)
	if err != nil {
		return nil, err
	}
	s := &section{ID: "swings", Title: "What matters most", Charts: []chart{c}}
	for i := range r.Options {
		if x := &r.Options[i]; len(x.Tornado) > 0 {
			s.Tables = append(s.Tables, swingTable(r, x))
		}
	}
	s.After = []string{"A figure given as a range goes from its P10 to its P90. One given as a single value, marked *, was moved by 20 % each way: nobody said how sure it is."}
	return s, nil
}

func swingTable(r *result.Payback, o *result.PaybackOption) table {
	t := table{Caption: fmt.Sprintf("Net present value of %s, %s, when one figure moves", o.Name, r.Currency), Folded: true, Head: columns("Figure", "low", "high", "=unit", "NPV at low", "NPV at high")}
	for _, x := range o.Tornado {
		low, high, unit := number.Figure(x.Low, 3), number.Figure(x.High, 3), x.Unit
		if unit == "per year" {
			low, high, unit = number.Fixed(100*x.Low, 1), number.Fixed(100*x.High, 1), "% a year"
		}
		t.Rows = append(t.Rows, []string{swingName(x), low, high, unit, number.Fixed(x.NPVLow, 0), number.Fixed(x.NPVHigh, 0)})
	}
	return t
}

func swingName(x result.Swing) string {
	if x.Tried {
		return x.What + " *"
	}
	return x.What
}

// orderSection says what to buy first.
func orderSection(r *result.Payback) (*section, error) {
	if len(r.Order.Steps) < 2 {
		return nil, nil
	}
	t := table{Caption: "Each step beside what was bought before it", Head: columns("Step", "=worth buying", "gain, packs/week", "payback", "NPV, "+r.Currency, "NPV alone, "+r.Currency, "NPV of all so far, "+r.Currency)}
	for _, s := range r.Order.Steps {
		worth, together := "no", ""
		if s.Worth {
			worth, together = "yes", number.Fixed(s.Together, 0)
		}
		t.Rows = append(t.Rows, []string{s.Name, worth, number.PlusMinus(s.Gain, ""), words.Payback(s.Payback), number.Fixed(s.NPV, 0), number.Fixed(s.NPVAlone, 0), together})
	}
	out := &section{ID: "order", Title: "In which order to buy", Says: []string{r.Order.Says}, Tables: []table{t}}
	for _, s := range r.Order.Steps {
		for _, other := range s.Instead {
			out.After = append(out.After, fmt.Sprintf("%s and %s change the same things: it is one or the other.", s.Name, other))
		}
	}
	return out, nil
}

// costSection splits what a kg or pack costs.
func costSection(r *result.Payback) (*section, error) {
	t := table{Caption: fmt.Sprintf("Cost of what is sold in the first year, %s per %s", r.Currency, r.Unit),
		Head: columns("Option", "capital", "people", "energy", "water", "wear parts", "maintenance", "together")}
	for i := range r.Options {
		c := r.Options[i].Cost
		if c == nil || c.Sum == 0 {
			continue
		}
		row := []string{r.Options[i].Name}
		for _, v := range []float64{c.Capital, c.People, c.Energy, c.Water, c.Wear, c.Upkeep, c.Sum} {
			row = append(row, number.Fixed(v, 4))
		}
		t.Rows = append(t.Rows, row)
	}
	if len(t.Rows) == 0 {
		return nil, nil
	}
	c, err := costChart(r)
	if err != nil {
		return nil, err
	}
	return &section{ID: "cost", Title: "What a " + r.Unit + " costs", Charts: []chart{c}, Tables: []table{t},
		After: []string{"Capital is what was bought, spread evenly over its life with interest (equivalent annual cost): the line as it stands where money.line says what it cost, and the option."}}, nil
}

// yearSection has the cash flows of the central case, year by year.
func yearSection(r *result.Payback) (*section, error) {
	s := &section{ID: "years", Title: "Year by year", Says: []string{"The central case: each figure as planned (the most likely value where a range was given), the simulation's mean. The workbook works it out again from its inputs."}}
	for i := range r.Options {
		o := &r.Options[i]
		if len(o.Lines) == 0 {
			continue
		}
		t := table{Caption: fmt.Sprintf("%s against the line as it stands, %s", o.Name, r.Currency), Folded: true,
			Head: columns("Year", "packs more", "earned more", "people", "energy, water, wear", "maintenance", "bought", "tax", "cash flow", "sum")}
		sum := 0.0
		for _, y := range o.Lines {
			sum += y.Flow
			row := []string{strconv.Itoa(y.Year), number.Fixed(y.Sold-y.SoldNow, 0)}
			for _, v := range []float64{y.Earned, -y.People, -y.Running, -y.Upkeep, -y.Buying, -y.Tax, y.Flow, sum} {
				row = append(row, number.Fixed(v, 0))
			}
			t.Rows = append(t.Rows, row)
		}
		s.Tables = append(s.Tables, t)
	}
	if len(s.Tables) == 0 {
		return nil, nil
	}
	return s, nil
}

// moneySection lists what the user said of money.
func moneySection(r *result.Payback) (*section, error) {
	t := table{Caption: "Figures of the money block", Head: columns("Field", "=what it is", "planned", "=range")}
	for i := range r.Figures {
		f := &r.Figures[i]
		t.Rows = append(t.Rows, []string{f.Path, f.Says, figureText(f.Central, f.Unit), rangeText(f)})
	}
	return &section{ID: "money", Title: "Figures given", Tables: filled(t)}, nil
}

func paybackAssumptions(r *result.Payback) (*section, error) { return assumptionsOf(r.Assumptions) }
