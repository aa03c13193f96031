package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"pascaline/scenarios"
	"pascaline/sim/line"
)

func checkCommand() *cobra.Command {
	var variant string
	c := &cobra.Command{
		Use:   "check FILE",
		Short: "Say everything that is wrong with a scenario file",
		Args:  cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			s, _, err := readScenario(cmd, args[0], variant)
			if err != nil {
				return err
			}
			if _, err := line.New(s); err != nil {
				return &exitError{exitScenario, err}
			}
			w := cmd.OutOrStdout()
			for _, x := range s.Warnings() {
				fmt.Fprintf(w, "warning: %s\n", x.Text)
			}
			fmt.Fprintf(w, "%s: valid. Stations: %s.\n", args[0], strings.Join(s.Stations(), ", "))
			return nil
		},
	}
	c.Flags().StringVar(&variant, "variant", "", "variant of the file to check (default: the first, if it has any)")
	return c
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
	what := "1 fault"
	if len(faults) > 1 {
		what = fmt.Sprintf("%d faults", len(faults))
	}
	return &exitError{exitScenario, fmt.Errorf("%s: %s; nothing was run", path, what)}
}

func notThere(path string, err error) error {
	if os.IsNotExist(err) {
		return fmt.Errorf("%s is not there; \"pascaline new %s\" writes a file to begin with", path, filepath.Base(path))
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
