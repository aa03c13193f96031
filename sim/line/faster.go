package line

import "strings"

// quicker is a station whose servers work faster than the scenario says.
type quicker struct {
	station string
	share   float64 // 0.1: 10 % faster
	supply  bool    // not a station: what comes in at intervals comes more often
}

// Faster is the same line with all servers of one station faster by a share: what they do takes 1/(1+share) of its time, belts run and take packs so
// much faster. The hold and the wait for gas are the product's and stay, and so do stops, changeovers and what comes in.
func (m *Model) Faster(station string, share float64) (*Model, error) {
	return newModel(&Model{s: m.s, quicker: quicker{station: station, share: share}})
}

// everyFed ends the name of the time from one arrival to the next.
const everyFed = "/fed/every"

// MoreOften is the same line with what comes in at intervals coming more often by a share; nil where nothing comes at intervals.
func (m *Model) MoreOften(share float64) (*Model, error) {
	for name := range m.laws {
		if strings.HasSuffix(name, everyFed) {
			return newModel(&Model{s: m.s, quicker: quicker{share: share, supply: true}})
		}
	}
	return nil, nil
}

// notOwn begins the names of times of a station that its servers cannot shorten.
var notOwn = []string{"stop ", "changeover ", "fed/", "gas wait", "way round"}

// factor is what a named time is multiplied by.
func (q quicker) factor(name string) float64 {
	if q.supply && strings.HasSuffix(name, everyFed) {
		return 1 / (1 + q.share)
	}
	own, found := strings.CutPrefix(name, q.station+"/")
	if q.share == 0 || !found {
		return 1
	}
	for _, x := range notOwn {
		if strings.HasPrefix(own, x) {
			return 1
		}
	}
	return 1 / (1 + q.share)
}
