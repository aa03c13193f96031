package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"pascaline/report/words"
	"pascaline/scenarios"
	"pascaline/sim/press"
	"pascaline/sim/study"
)

func cycleCommand() *cobra.Command {
	var variant, product, out string
	var asJSON bool
	c := &cobra.Command{
		Use:   "cycle FILE",
		Short: "Work out one vessel cycle: pressure over time, water, energy, warming, forces",
		Long: `Works out one cycle of the scenario's vessel with a full load from volumes, flows and the properties of water: prefill and come-up, pressure over
time, water and energy, warming, the force on the plugs, and what the loss of an intensifier does. Where the file has a stopwatch time it is used, and
the difference is shown. Pressure and hold are the product's and stay as they are.`,
		Example: "  pascaline cycle line.yaml",
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			return workOutCycle(cmd, args[0], variant, product, out, asJSON)
		},
	}
	c.Flags().StringVar(&variant, "variant", "", "variant of the file (default: the first, if it has any)")
	c.Flags().StringVar(&product, "product", "", "product of the load, where there are several (default: the first)")
	c.Flags().StringVar(&out, "out", "", "folder for results.json and report.html (default: results/NAME, cycle)")
	c.Flags().BoolVar(&asJSON, "json", false, "print results.json instead of the summary")
	exportFlags(c)
	return c
}

func workOutCycle(cmd *cobra.Command, path, variant, product, out string, asJSON bool) error {
	s, variant, err := readScenario(cmd, path, variant)
	if err != nil {
		return err
	}
	own, err := productOf(s, product)
	if err != nil {
		return err
	}
	r, err := press.CycleOf(own)
	if err != nil {
		return &exitError{exitScenario, fmt.Errorf("%s: %w", path, err)}
	}
	r.Variant, r.ScenarioHash = variant, s.Hash()
	for _, a := range study.Assumed(own) {
		if isOfVessel(a.Where) {
			r.Assumptions = append(r.Assumptions, a)
		}
	}
	sign(r)
	words.FillCycle(r)
	what, again := "cycle", "pascaline cycle "+quotedFile(path)
	if variant != "" {
		again += " --variant " + quoted(variant)
	}
	if product != "" {
		what, again = "cycle of "+product, again+" --product "+quoted(product)
	}
	out, err = placeFor(cmd, out, folderName(path, variant, what))
	if err != nil {
		return err
	}
	return conclude(cmd, r, out, again, asJSON, false)
}

// productOf is the line of one product: the one named, else the first.
func productOf(s *scenarios.Scenario, name string) (*scenarios.Scenario, error) {
	if len(s.Products) == 0 {
		if name != "" && name != string(s.Product.Name) {
			return nil, &exitError{exitScenario, fmt.Errorf("--product %q: the only product is %q", name, s.Product.Name)}
		}
		return s, nil
	}
	var names []string
	for i := range s.Products {
		p := &s.Products[i]
		if name == "" || p.Name == name {
			return p.Line, nil
		}
		names = append(names, p.Name)
	}
	return nil, &exitError{exitScenario, fmt.Errorf("--product %q is not there; there are: %s", name, quotedList(names))}
}

// isOfVessel tells an assumption that a cycle rests on.
func isOfVessel(where string) bool {
	return slices.ContainsFunc([]string{"vessel.pumps", "product.pressure", "product.hold", "vessel.phases", "vessel.volume", "vessel.bore"},
		func(of string) bool { return strings.HasPrefix(where, of) })
}
