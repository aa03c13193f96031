package store

import (
	"fmt"

	"pascaline/sim/result"
)

// fitsSizing sees to it that every setting that is named is there and has a value for everything that could be chosen.
func fitsSizing(r *result.Sizing) error {
	for i, s := range r.Settings {
		if s.Number != i+1 || len(s.Values) != len(r.Dimensions) {
			return fmt.Errorf("setting %d is out of its place or has not one value for each choice", i+1)
		}
	}
	for _, n := range r.Frontier {
		if n < 1 || n > len(r.Settings) || r.Settings[n-1].Output == nil {
			return fmt.Errorf("the frontier names setting %d, which was not simulated", n)
		}
	}
	return nil
}
