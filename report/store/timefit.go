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
