package main

import (
	"fmt"
	"io"
	"runtime"
	"strconv"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"pascaline/report/store"
	"pascaline/sim/selftest"
)

func selftestCommand() *cobra.Command {
	var full, asJSON bool
	c := &cobra.Command{
		Use:   "selftest",
		Short: "Hold the simulator against published values and print the table",
		Long: `Runs lines, buffers and pools of people whose right values others have published, or that can be worked out by hand, through the same code as
"pascaline run", and prints every value with its source. "checked" means that the source was read, "memory" that its citation is from memory,
"derived" that no publication is claimed; every value was recomputed.`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			checks, err := selftest.Run(cmd.Context(), !full, runtime.NumCPU())
			if err != nil {
				return &exitError{exitFailed, err}
			}
			if asJSON {
				err = printJSON(cmd.OutOrStdout(), checks)
			} else {
				err = printChecks(cmd.OutOrStdout(), checks)
			}
			if err != nil {
				return &exitError{exitFailed, err}
			}
			if n := failed(checks); n > 0 {
				return &exitError{exitCheck, fmt.Errorf("%d of %d values are not as expected", n, len(checks))}
			}
			return nil
		},
	}
	c.Flags().BoolVar(&full, "full", false, "run all checks, which takes minutes, instead of the quick ones")
	c.Flags().BoolVar(&asJSON, "json", false, "print the table as JSON")
	return c
}

func failed(checks []selftest.Check) (n int) {
	for i := range checks {
		if !checks[i].Pass {
			n++
		}
	}
	return n
}

func printJSON(w io.Writer, checks []selftest.Check) error {
	b, err := store.Encode(checks)
	if err != nil {
		return err
	}
	_, err = w.Write(b)
	return err
}

func printChecks(w io.Writer, checks []selftest.Check) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "group\tname\tquantity\texpected\tgot\ttolerance\tpass\tstatus\tsource")
	figure := func(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }
	for _, c := range checks {
		pass := "yes"
		if !c.Pass {
			pass = "NO"
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\n", c.Group, c.Name, c.Quantity, figure(c.Expected), figure(c.Got), figure(c.Tolerance), pass, c.Status, c.Source)
	}
	fmt.Fprintf(t, "%d values, %d not as expected\n", len(checks), failed(checks))
	return t.Flush()
}
