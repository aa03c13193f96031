package main

import (
	"github.com/spf13/cobra"

	"pascaline/report/export"
	"pascaline/sim/result"
)

// exportFlags gives a command that ends with results the flags for tables to count on with.
func exportFlags(c *cobra.Command) {
	c.Flags().String("xlsx", "", "write every table into this spreadsheet file, too")
	c.Flags().String("csv", "", "write every table as a CSV file into this folder, too")
}

// writeExports writes the tables that the flags ask for; a command without them asks for none.
func writeExports(cmd *cobra.Command, r result.Results, command string) error {
	for _, e := range []struct {
		flag  string
		write func(string, result.Results, string) error
	}{{"xlsx", export.XLSX}, {"csv", export.CSV}} {
		f := cmd.Flags().Lookup(e.flag)
		if f == nil || f.Value.String() == "" {
			continue
		}
		if err := e.write(f.Value.String(), r, command); err != nil {
			return &exitError{exitFailed, err}
		}
	}
	return nil
}
