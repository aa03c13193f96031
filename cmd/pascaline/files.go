package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"pascaline/report/store"
	"pascaline/scenarios"
	"pascaline/sim/result"
)

// version of the program, as it stands in results and pages.
const version = "0.1.0"

// sign writes which program made the results.
func sign(r result.Results) { r.Top().Program, r.Top().ProgramVersion = "pascaline", version }

func versionCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Print the program's version",
		Args:  cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			_, err := fmt.Fprintln(cmd.OutOrStdout(), "pascaline", version)
			return err
		},
	}
}

func newCommand() *cobra.Command {
	var from string
	c := &cobra.Command{
		Use:   "new [FILE]",
		Short: "Write a commented scenario file to begin with",
		Args:  cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			path := "line.yaml"
			if len(args) == 1 {
				path = args[0]
			}
			b, err := scenarios.Example(from)
			if err != nil {
				return err
			}
			if _, err := os.Stat(path); err == nil {
				return &exitError{exitFailed, fmt.Errorf("%s is there already and was left as it is; name another file", path)}
			}
			if err := store.Write(path, append([]byte(scenarios.SchemaLine), b...)); err != nil {
				return &exitError{exitFailed, err}
			}
			if err := schemaBeside(path); err != nil {
				return err
			}
			_, err = fmt.Fprintf(cmd.OutOrStdout(), "Wrote %s. Edit it, then: pascaline run %s\n", path, quoted(filepath.ToSlash(path)))
			return err
		},
	}
	c.Flags().StringVar(&from, "from", "starter", "example to begin with: "+strings.Join(scenarios.Examples(), ", "))
	return c
}

func reportCommand() *cobra.Command {
	var out string
	c := &cobra.Command{
		Use:   "report RESULTS.json...",
		Short: "Draw the page again from a results file",
		Long: `Draws the page of results that were kept, whatever command wrote them. Of one results file it is written as --out says; of several, each beside
its results file, as report.html.`,
		Example: "  pascaline report results/line/results.json --out line.html\n  pascaline report results/line/results.json --xlsx line.xlsx",
		Args:    cobra.MinimumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 1 {
				return redraw(cmd, args[0], out)
			}
			for _, name := range []string{"out", "xlsx", "csv"} {
				if cmd.Flags().Changed(name) {
					return fmt.Errorf("--%s is for one results file; leave it out, or name one file", name)
				}
			}
			for _, path := range args {
				if err := redraw(cmd, path, filepath.Join(filepath.Dir(path), "report.html")); err != nil {
					return err
				}
			}
			return nil
		},
	}
	c.Flags().StringVar(&out, "out", "report.html", "file of the page")
	exportFlags(c)
	return c
}

// redraw draws the page of a results file.
func redraw(cmd *cobra.Command, path, out string) error {
	r, err := store.Load(path)
	if err != nil {
		return &exitError{exitFailed, err}
	}
	if err := writePage(out, r, ""); err != nil {
		return err
	}
	if err := writeExports(cmd, r, ""); err != nil {
		return err
	}
	_, err = fmt.Fprintf(cmd.OutOrStdout(), "Page: %s\n", out)
	return err
}
