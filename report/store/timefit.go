package store

import (
	"errors"
	"fmt"
	"slices"

	"pascaline/sim/result"
)

func fitsTimeFit(r *result.TimeFit) error {
	if len(r.Tasks) == 0 {
		return errors.New("it has no task")
	}
	for _, t := range r.Tasks {
		if len(t.Bars) > 0 && len(t.Quantiles) == 0 {
			return fmt.Errorf("task %q has a histogram and no readings in order", t.Name)
		}
		if err := fitsFitted(t.Name, t.Fits); err != nil {
			return err
		}
	}
	return nil
}

// fitsFitted sees to it that what a fit is judged by is there with what it is judged against.
func fitsFitted(of string, fits []result.Fitted) error {
	for _, f := range fits {
		if f.Modified != nil && f.Critical == nil {
			return fmt.Errorf("the %s distribution of %q has no critical value", f.Distribution, of)
		}
	}
	return nil
}

func fitsStopFit(r *result.StopFit) error {
	for _, c := range r.Causes {
		if (c.Low == nil || c.High == nil) && c.Mean != 0 {
			return errors.New("a cause has no interval")
		}
		for _, fits := range [][]result.Fitted{c.EveryFits, c.TakesFits} {
			if err := fitsFitted(c.Name, fits); err != nil {
				return err
			}
			if slices.ContainsFunc(fits, func(f result.Fitted) bool { return f.AIC == nil }) {
				return fmt.Errorf("a distribution of %q has no AIC", c.Name)
			}
		}
	}
	return nil
}

func fitsBacktest(r *result.Backtest) error {
	if len(r.Periods) == 0 || len(r.Says) == 0 {
		return errors.New("it has no period")
	}
	return nil
}
