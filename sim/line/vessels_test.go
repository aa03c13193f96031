package line

import (
	"fmt"
	"testing"

	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// Of several vessels the one that has waited longest takes the load. Worked by hand: two push-through vessels and three carriers, of which two stay
// in the vessels. With two loaders the first two loads are ready at 6 s and done at 12 s, when the third carrier is ready: it goes into vessel 1,
// whose load comes out at 17 s. A round of the one carrier that goes round takes 3 s of drain, 6 s of loading and 5 s for the stroke: 14 s, so that
// carriers come out at 17, 31, ... 3,587 s, which is 256 of them, from either vessel in turn. With one loader, who loads one after the other, the
// carriers are ready at 6, 12 and 18 s, and the first comes out at 23 s: 256 by 3,593 s.
func TestLoadsGoToTheVesselThatHasWaitedLongest(t *testing.T) {
	for loaders := 1; loaders <= 2; loaders++ {
		r := recordOf(t, fmt.Sprintf(`scenario: two vessels
product: {packs_per_carrier: 1, packs_per_case: 1, hold: 1 s}
loading: {stations: 2, crew: 1 loader, hand_time: {mean: 1 s, as: constant, per: carrier}, swap: 5 s}
carriers: {owned: 3, return: 0 s}
infeed: {places: 1}
vessel: {vessels: 2, carriers_per_load: 1, unloading: push_through, phases: {transfer: 5 s, prefill: 0 s}}
drain: {places: 1, time: 3 s}
tip: {swap: 0 s, per_pack: 0 s}
packing: {crew: machine, time: 1 s}
people: {loaders: {heads: %d}}
run: {one_replication: 1 h, replications: 1}`, loaders), 1)
		if out := r.Vessel.PacksOut; out != 256 {
			t.Errorf("%d loaders: %d packs came out of the vessels, want 256", loaders, out)
		}
		for _, s := range r.Stations {
			if s.Name != "vessel" {
				continue
			}
			a, b := s.Servers[0].Times[measure.Processing], s.Servers[1].Times[measure.Processing]
			if d := a - b; d < -6*clock.Second || d > 6*clock.Second {
				t.Errorf("%d loaders: the vessels work %d and %d us, want one load of 6 s between them at most", loaders, a, b)
			}
		}
	}
}
