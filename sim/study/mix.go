package study

import (
	"fmt"
	"strings"

	"pascaline/scenarios"
	"pascaline/sim/result"
)

// part is a product with the packs of it in all lots.
type part struct {
	name  string
	line  *scenarios.Scenario
	packs float64
}

// parts are the products of a scenario that come in its lots; the scenario itself where it has one product only.
func parts(s *scenarios.Scenario) []part {
	if len(s.Products) == 0 {
		return []part{{"", s, 1}}
	}
	var list []part
	for i := range s.Products {
		p := part{name: s.Products[i].Name, line: s.Products[i].Line}
		for k := range s.Lots {
			if string(s.Lots[k].Product) == p.name {
				p.packs += float64(s.Lots[k].Quantity)
			}
		}
		if p.packs > 0 {
			list = append(list, p)
		}
	}
	return list
}

// mix is a mean carrier of the products in the proportion of their lots.
type mix struct {
	packs  float64 // in a full carrier
	litres float64 // pack volume of a full carrier
	cycle  float64 // seconds of a vessel cycle that nothing holds; 0 without a vessel
}

func mixOf(s *scenarios.Scenario) mix {
	var m mix
	carriers := 0.0
	for _, p := range parts(s) {
		per := float64(p.line.Product.PacksPerCarrier)
		n := p.packs / per
		carriers += n
		m.packs += p.packs
		m.litres += float64(p.packs * float64(p.line.Product.Pack.Volume))
		if p.line.Vessel != nil {
			m.cycle += float64(n * idealCycle(p.line))
		}
	}
	return mix{m.packs / carriers, m.litres / carriers, m.cycle / carriers}
}

// mixedRates are the rows of the hand check for the products in the proportion of their lots: each takes its own time.
func mixedRates(s *scenarios.Scenario) []result.HandRate {
	all := parts(s)
	first := handRates(all[0].line)
	if len(all) == 1 {
		return first
	}
	var rows []result.HandRate
	for i, row := range first {
		packs, time := 0.0, 0.0
		var how []string
		for _, p := range all {
			own := handRates(p.line)
			if i >= len(own) || own[i].Station != row.Station {
				return nil // the products do not go through the same stations: there is no common rate
			}
			packs += p.packs
			time += p.packs / own[i].PacksPerH
			how = append(how, fmt.Sprintf("%s %.0f packs/h", p.name, own[i].PacksPerH))
		}
		rows = append(rows, result.HandRate{Station: row.Station, PacksPerH: packs / time, How: "in the proportion of the lots: " + strings.Join(how, ", ")})
	}
	return rows
}
