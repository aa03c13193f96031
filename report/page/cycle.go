package page

import (
	"fmt"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

// cycleDocument is the page of one cycle.
func cycleDocument(r *result.Cycle) (*document, error) {
	r, err := number.Shown(r)
	if err != nil {
		return nil, err
	}
	d := &document{
		Title: r.Scenario, Tab: r.Scenario + ": a vessel cycle", Note: r.Note, Answer: r.Answer, Notes: notes(r.Warnings), Cautions: r.Cautions,
		Figures: []headFigure{
			{Value: number.Fixed(r.CycleS, 0), Unit: "s", Says: "a cycle with a full load"},
			{Value: number.Fixed(r.CyclesPerH, 1), Unit: "cycles/h", Says: "of one vessel without a pause"},
			{Value: number.Fixed(r.Water.PushedInL, 1), Unit: "L", Says: "of water pushed in by the pumps"},
			{Value: number.Figure(r.Energy.KWh, 3), Unit: "kWh", Says: "taken up by the pumps for a cycle"},
		},
		Sure:  "Nothing here is random. Water is IAPWS-95, the packs are taken as water with gas; gas, plastic, growth of the bore and efficiency are as stated or typical, and shift the figures by some per cent.",
		Facts: []fact{{Name: "Product", Value: r.Product}, {Name: "Scenario", Value: "SHA-256 " + r.ScenarioHash, Hash: true}},
	}
	d.Sections, err = built(r, []func(*result.Cycle) (*section, error){curveSection, waterSection, energySection, warmingSection, plugsSection, pumpsSection, cycleAssumptions})
	return d, err
}

// curveSection shows the pressure over time and the phases.
func curveSection(r *result.Cycle) (*section, error) {
	s := &section{ID: "curve", Title: "Pressure over time"}
	if len(r.Curve) > 1 {
		line := charts.NewLine()
		line.SetGlobalOptions(charts.WithXAxisOpts(opts.XAxis{Type: "value", Min: 0, Max: short(r.CycleS)}), charts.WithYAxisOpts(opts.YAxis{Type: "value", Min: 0}),
			charts.WithLegendOpts(opts.Legend{Show: opts.Bool(false)}))
		data := make([]opts.LineData, len(r.Curve))
		for i, p := range r.Curve {
			data[i] = opts.LineData{Value: [2]float64{p.S, short(p.MPa)}}
		}
		line.AddSeries("pressure", data, charts.WithSeriesId("pressure"))
		c, err := draw(chart{
			ID: "pressure", Draw: "pressure",
			Label:   "Line: pressure in MPa over the seconds of a cycle. The tables below have the figures.",
			Caption: fmt.Sprintf("Pressure in MPa over the seconds of a cycle, up to %s MPa; the hold is the product's, %s.", number.Figure(r.PressureMPa, 3), number.Duration(r.HoldS)),
		}, line)
		if err != nil {
			return nil, err
		}
		s.Charts = []chart{c}
	}
	t := table{Caption: "Phases", Head: columns("Phase", "s", "=where it comes from")}
	for _, p := range r.Phases {
		t.Rows = append(t.Rows, []string{p.Name, number.Fixed(p.S, 1), words.Origin(r, p)})
	}
	t.Rows = append(t.Rows, []string{"cycle", number.Fixed(r.CycleS, 1), "the sum"})
	curve := table{Caption: "Points of the curve", Head: columns("s", "MPa", "pushed in, L"), Folded: true}
	for _, p := range r.Curve {
		curve.Rows = append(curve.Rows, []string{number.Fixed(p.S, 1), number.Fixed(p.MPa, 1), number.Fixed(p.PushedIn, 2)})
	}
	s.Tables = filled(t, curve)
	return s, nil
}

// waterSection shows what is in the vessel and the water of a cycle.
func waterSection(r *result.Cycle) (*section, error) {
	s := &section{ID: "water", Title: "Load and water", Says: []string{fmt.Sprintf(
		"Every litre of the vessel takes %s L of water, as it is before the pumps. What shrinks, and the bore that grows, makes room; the water that fills it is dense itself.", number.Fixed(r.Water.PerVesselL, 3))}}
	l := table{Caption: "In one vessel", Head: columns("What", "value")}
	l.Rows = [][]string{{"vessel", words.Litres(r.Load.VesselL)}, {"packs", words.Litres(r.Load.PacksL) + " in " + number.Count(int64(r.Load.Packs)) + " packs"},
		{"fill ratio", number.Percent(r.Load.Fill)}, {"plastic of the carriers", words.Litres(r.Load.PlasticL)}, {"free, for the prefill", words.Litres(r.Load.FreeL)}}
	w := table{Caption: "Water pushed in, by what makes room for it", Head: columns("What", "L")}
	for _, p := range r.Water.Parts {
		w.Rows = append(w.Rows, []string{p.Name, number.Fixed(p.Litres, 2)})
	}
	w.Rows = append(w.Rows, []string{"pushed in", number.Fixed(r.Water.PushedInL, 2)}, []string{"prefill", number.Fixed(r.Water.PrefillL, 2)}, []string{"water of a cycle", number.Fixed(r.Water.CycleL, 2)})
	if r.Water.PerKg > 0 {
		w.Rows = append(w.Rows, []string{"for a kilogram of packs", number.Fixed(r.Water.PerKg, 2)})
	}
	w.Foot = "Most plants use this water again; how much is lost is not known here."
	s.Tables = []table{l, w}
	return s, nil
}

func energySection(r *result.Cycle) (*section, error) {
	e := r.Energy
	t := table{Caption: "Energy of the pumps for a cycle", Head: columns("What", "value")}
	t.Rows = [][]string{{"work on the water, without any loss", number.Figure(e.IdealKWh, 3) + " kWh"},
		{"taken up at an efficiency of " + number.Percent(e.Efficiency), number.Figure(e.KWh, 3) + " kWh"}}
	if e.PerKg > 0 {
		t.Rows = append(t.Rows, []string{"for a kilogram of packs", number.Figure(e.PerKg, 3) + " kWh"})
	}
	t.Rows = append(t.Rows, []string{"for a litre of packs", number.Figure(e.PerPacksL, 3) + " kWh"})
	if e.MostKW > 0 {
		t.Rows = append(t.Rows, []string{"most at a time", number.Figure(e.MostKW, 3) + " kW"})
	}
	if e.PowerEnoughS > 0 {
		t.Rows = append(t.Rows, []string{"come-up in which the power holds the flow back", number.Duration(e.PowerShortS)},
			[]string{"come-up if it never did", number.Duration(e.PowerEnoughS)})
	}
	return &section{ID: "energy", Title: "Energy", Tables: []table{t}, Says: []string{"For the pumps only: closing, moving carriers, chilling and drying come on top."}}, nil
}

func warmingSection(r *result.Cycle) (*section, error) {
	w := r.Warming
	t := table{Caption: "At pressure, before any heat is lost", Head: columns("What", "before, C", "at pressure, C", "warming, K")}
	for _, x := range []struct {
		name     string
		from, to float64
	}{{"water", w.WaterFromC, w.WaterToC}, {"packs, taken as water", w.PacksFromC, w.PacksToC}} {
		t.Rows = append(t.Rows, []string{x.name, number.Fixed(x.from, 1), number.Fixed(x.to, 1), number.Fixed(x.to-x.from, 1)})
	}
	return &section{ID: "warming", Title: "Warming", Tables: []table{t}}, nil
}

func plugsSection(r *result.Cycle) (*section, error) {
	p := r.Plugs
	if p == nil {
		return nil, nil
	}
	t := table{Caption: "What each plug passes on to the frame", Head: columns("What", "value")}
	t.Rows = [][]string{{"bore", number.Fixed(p.BoreMM, 0) + " mm"}, {"length of the bore", number.Fixed(p.LengthM, 2) + " m"},
		{"force", number.Fixed(p.ForceMN, 1) + " MN"}, {"the same", number.Fixed(p.Tonnes, 0) + " tonnes-force"}}
	return &section{ID: "plugs", Title: "Force on the plugs", Tables: []table{t}}, nil
}

// pumpsSection shows what the pumps can do, and with intensifiers lost.
func pumpsSection(r *result.Cycle) (*section, error) {
	p := r.Pumps
	if r.ComeUp.UsedS == 0 {
		return nil, nil
	}
	s := &section{ID: "pumps", Title: "Pumps"}
	t := table{Caption: "One set of pumps", Head: columns("What", "value")}
	flow := "not stated"
	if p.FlowLMin > 0 {
		flow = number.Figure(p.FlowLMin, 3) + " L/min"
	}
	power := "enough for the flow"
	if p.PowerKW > 0 {
		power = number.Figure(p.PowerKW, 3) + " kW"
	}
	t.Rows = [][]string{{"flow", flow}, {"flow that the come-up asks for on average", number.Figure(p.FlowNeeded, 3) + " L/min"}, {"power", power},
		{"intensifiers", number.Count(int64(p.Intensifiers))}, {"they serve", p.Serve}, {"come-ups that one set can do", number.Fixed(p.MostPerH, 1) + " in an hour"}}
	lost := table{Caption: "With intensifiers lost", Head: columns("Lost", "come-up, s", "cycle, s", "cycles/h")}
	for _, x := range p.Lost {
		lost.Rows = append(lost.Rows, []string{fmt.Sprintf("%d of %d", x.Lost, p.Intensifiers), number.Fixed(x.ComeUpS, 1), number.Fixed(x.CycleS, 1), number.Fixed(x.CyclesPerH, 2)})
	}
	s.Tables = filled(t, lost)
	return s, nil
}

func cycleAssumptions(r *result.Cycle) (*section, error) {
	return assumptionsOf(r.Assumptions)
}
