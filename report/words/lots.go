package words

import (
	"fmt"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// lots is the answer for a list of lots: when all are finished, and which may be late.
func lots(r *result.Run) string {
	l := r.Lots
	what := fmt.Sprintf("all %d lots", len(l.Each))
	if len(l.Each) == 1 {
		what = "lot " + number.Plain(l.Each[0].Lot)
	}
	var s string
	switch f := l.Finish; {
	case r.Replications.N == 1 && f.P50H != nil:
		s = fmt.Sprintf("finishes %s by %s in the one replication", what, number.Moment(r.Profile.StartMin, *f.P50H))
	case f.P90H != nil:
		s = fmt.Sprintf("finishes %s by %s in 9 of 10 replications", what, number.Moment(r.Profile.StartMin, *f.P90H))
	default:
		s = fmt.Sprintf("does not finish %s in the time allowed in %s of the replications", what, number.Percent(f.Never))
	}
	return s + "; " + late(r)
}

// late says which lot is most likely to be late.
func late(r *result.Run) string {
	var worst *result.Lot
	others := 0
	for i := range r.Lots.Each {
		x := &r.Lots.Each[i]
		if x.Late == nil || *x.Late == 0 {
			continue
		}
		if worst == nil || *x.Late > *worst.Late {
			worst = x
		}
		others++
	}
	switch {
	case worst != nil && r.Replications.N == 1:
		return fmt.Sprintf("lot %s is late", number.Plain(worst.Lot))
	case worst != nil:
		s := fmt.Sprintf("lot %s is late in %s of them", number.Plain(worst.Lot), number.Percent(*worst.Late))
		switch others--; {
		case others == 1:
			s += ", another less often"
		case others > 1:
			s += fmt.Sprintf(", %d others less often", others)
		}
		return s
	case anyDue(r):
		return "none was late"
	}
	return "none has a due time"
}

func anyDue(r *result.Run) bool {
	for i := range r.Lots.Each {
		if r.Lots.Each[i].DueH != nil {
			return true
		}
	}
	return false
}
