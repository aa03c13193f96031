package study

import "context"

// candidate is one setting on its way through a search.
type candidate struct {
	no      int // of the setting
	trials  []trial
	verdict verdict
}

// searcher looks for the cheapest setting that meets a rule.
type searcher struct {
	rule   rule
	k      int // settings among which the errors are shared
	most   int // trials of one setting
	sample func(ctx context.Context, setting, first, n int) (trials []trial, interrupted bool, err error)
	done   func(c *candidate)
}

// cheapest goes through the candidates, cheapest first, judges each until it is decided or the cap is reached, and ends with the first that
// meets; nil where none does. What was heard stays with the candidates.
func (s *searcher) cheapest(ctx context.Context, list []*candidate) (found *candidate, interrupted bool, err error) {
	for _, c := range list {
		if interrupted, err = s.look(ctx, c); interrupted || err != nil {
			return nil, interrupted, err
		}
		if s.done != nil {
			s.done(c)
		}
		if c.verdict == meets {
			return c, false, nil
		}
	}
	return nil, false, nil
}

// batch is how many trials are made at a time: few enough that a hopeless setting costs little.
const batch = 5

// look judges one candidate. Trials are made in batches; those after the verdict are kept too, for the estimates.
func (s *searcher) look(ctx context.Context, c *candidate) (interrupted bool, err error) {
	j := s.rule.judgeOf(s.k)
	for len(c.trials) < s.most && c.verdict == undecided {
		trials, interrupted, err := s.sample(ctx, c.no, len(c.trials)+1, min(batch, s.most-len(c.trials)))
		if err != nil {
			return false, err
		}
		for _, t := range trials {
			c.trials = append(c.trials, t)
			if c.verdict == undecided {
				c.verdict = j.hear(t)
			}
		}
		if interrupted {
			return true, nil
		}
	}
	return false, nil
}
