package store

import (
	"cmp"
	"errors"
	"fmt"

	"pascaline/sim/result"
)

// fitsLots sees to it that lots of a run have gone through the same stations, and that it is known how often one with a due time is late.
func fitsLots(l *result.Lots) error {
	switch {
	case l == nil:
		return nil
	case len(l.Each) == 0:
		return errors.New("it has lots and lists none")
	}
	legs := len(l.Each[0].Legs)
	for _, x := range l.Each {
		if len(x.Legs) == 0 || len(x.Legs) != legs {
			return fmt.Errorf("lot %q has not one time for each station", x.Lot)
		}
	}
	return fitsDue(l.Each)
}

func fitsDue(lots []result.Lot) error {
	for _, x := range lots {
		if x.DueH != nil && x.Late == nil {
			return fmt.Errorf("lot %q has a due time and not how often it is late", x.Lot)
		}
	}
	return nil
}

func fitsOrdering(r *result.Ordering) error {
	if r.Replications < 1 || len(r.Listed.Lots) != len(r.Suggested.Lots) {
		return errors.New("it has no replication, or its two orders differ in their lots")
	}
	return cmp.Or(fitsDue(r.Listed.Lots), fitsDue(r.Suggested.Lots))
}
