package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"pascaline/scenarios"
	"pascaline/scenarios/sheet"
	"pascaline/sim/line"
)

func checkCommand() *cobra.Command {
	var variant string
	c := &cobra.Command{
		Use:   "check FILE",
		Short: "Say everything that is wrong with a scenario file, as it stands and with each of its variants",
		Args:  cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if cmd.Flags().Changed("variant") {
				return checkFile(cmd, args[0], []string{variant})
			}
			names, faults, err := scenarios.Variants(args[0])
			if err != nil {
				return &exitError{exitScenario, notThere(args[0], err)}
			}
			if len(faults) > 0 {
				return tellFaults(cmd, args[0], faults)
			}
			return checkFile(cmd, args[0], append([]string{""}, names...))
		},
	}
	c.Flags().StringVar(&variant, "variant", "", "variant of the file to check (default: the file as it stands, and every variant)")
	return c
}

// checkFile reads a file as each of the variants, "" for the file as it stands, and says what is wrong with any of them or that all are valid.
func checkFile(cmd *cobra.Command, path string, variants []string) error {
	var found checked
	for _, v := range variants {
		if err := found.read(path, v); err != nil {
			return err
		}
	}
	if len(found.faults) > 0 {
		fmt.Fprintln(cmd.ErrOrStderr(), strings.Join(found.told, "\n"))
		return faulty(path, len(found.faults))
	}
	if found.cannot != nil {
		return &exitError{exitScenario, found.cannot}
	}
	valid := "valid"
	switch n := len(variants) - 1; {
	case n == 1:
		valid = "valid, as it stands and with its variant"
	case n > 1:
		valid = fmt.Sprintf("valid, as it stands and with each of its %d variants", n)
	}
	_, err := fmt.Fprintf(cmd.OutOrStdout(), "%s%s: %s. Stations: %s.\n", strings.Join(found.warnings, ""), path, valid, strings.Join(found.stations, ", "))
	return err
}

// checked is what was found in a file, each thing once in however many variants it is.
type checked struct {
	faults   []scenarios.Fault
	told     []string // the faults in words, those of a variant below its name
	cannot   error    // the first line that could not be built
	warnings []string
	stations []string // of the first that was read
}

func (c *checked) read(path, variant string) error {
	s, faults, err := scenarios.Read(path, variant)
	if err != nil {
		return &exitError{exitScenario, notThere(path, err)}
	}
	before := len(c.faults)
	for _, f := range faults {
		if slices.Contains(c.faults, f) {
			continue
		}
		if len(c.faults) == before && variant != "" {
			c.told = append(c.told, fmt.Sprintf("With the variant %q:", variant))
		}
		c.faults, c.told = append(c.faults, f), append(c.told, f.Error())
	}
	if len(faults) > 0 {
		return nil
	}
	of := ""
	if variant != "" {
		of = fmt.Sprintf("%q: ", variant)
	}
	if _, err := line.New(s); err != nil && c.cannot == nil {
		c.cannot = fmt.Errorf("%s%w", of, err)
	}
	for _, x := range s.Warnings() {
		w := "warning: " + sheet.Harmless(x.Text) + "\n"
		if !slices.Contains(c.warnings, w) {
			c.warnings = append(c.warnings, strings.Replace(w, ": ", ": "+of, 1))
		}
	}
	if c.stations == nil {
		c.stations = s.Stations()
	}
	return nil
}

func explainCommand() *cobra.Command {
	var variant string
	c := &cobra.Command{
		Use:   "explain FILE",
		Short: "Print a scenario with all defaults filled in, where each value came from, and what is assumed",
		Args:  cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			s, _, err := readScenario(cmd, args[0], variant)
			if err != nil {
				return err
			}
			return s.Explain(cmd.OutOrStdout())
		},
	}
	c.Flags().StringVar(&variant, "variant", "", "variant of the file to explain (default: the first, if it has any)")
	return c
}

// readScenario reads a file or prints all its faults. A file with variants is read as one of them.
func readScenario(cmd *cobra.Command, path, variant string) (*scenarios.Scenario, string, error) {
	names, faults, err := scenarios.Variants(path)
	if err != nil {
		return nil, "", &exitError{exitScenario, notThere(path, err)}
	}
	if variant == "" && len(names) > 0 && len(faults) == 0 {
		variant = names[0]
		if len(names) == 1 {
			fmt.Fprintf(cmd.ErrOrStderr(), "%s has one variant; this is it: %q.\n", filepath.Base(path), variant)
		} else {
			fmt.Fprintf(cmd.ErrOrStderr(), "%s has %d variants; this is %q. Others by --variant: %s.\n", filepath.Base(path), len(names), variant, quotedList(names[1:]))
		}
	}
	if len(faults) > 0 {
		return nil, "", tellFaults(cmd, path, faults)
	}
	return readAs(cmd, path, variant)
}

// readAs reads a file, as it stands or as one of its variants, or prints all its faults.
func readAs(cmd *cobra.Command, path, variant string) (*scenarios.Scenario, string, error) {
	s, faults, err := scenarios.Read(path, variant)
	switch {
	case err != nil:
		return nil, "", &exitError{exitScenario, notThere(path, err)}
	case len(faults) > 0:
		return nil, "", tellFaults(cmd, path, faults)
	}
	return s, variant, nil
}

// tellFaults prints the faults of a file and gives the error that ends the program.
func tellFaults(cmd *cobra.Command, path string, faults []scenarios.Fault) error {
	for _, f := range faults {
		fmt.Fprintln(cmd.ErrOrStderr(), f)
	}
	return faulty(path, len(faults))
}

// faulty is the error of a file with n faults, which were told.
func faulty(path string, n int) error {
	what := "1 fault"
	if n > 1 {
		what = fmt.Sprintf("%d faults", n)
	}
	return &exitError{exitScenario, fmt.Errorf("%s: %s; nothing was run", path, what)}
}

func notThere(path string, err error) error {
	if os.IsNotExist(err) {
		return fmt.Errorf("%s is not there; this writes a file to begin with: pascaline new %s", path, quotedFile(path))
	}
	return err
}

func quotedList(names []string) string {
	q := make([]string, len(names))
	for i, n := range names {
		q[i] = fmt.Sprintf("%q", n)
	}
	return strings.Join(q, ", ")
}
