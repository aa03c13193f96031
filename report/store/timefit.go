package store

import (
	"errors"

	"pascaline/sim/result"
)

func fitsTimeFit(r *result.TimeFit) error {
	if len(r.Tasks) == 0 {
		return errors.New("it has no task")
	}
	return nil
}

func fitsStopFit(r *result.StopFit) error {
	for _, c := range r.Causes {
		if (c.Low == nil || c.High == nil) && c.Mean != 0 {
			return errors.New("a cause has no interval")
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
