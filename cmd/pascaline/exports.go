package main

import (
	"errors"

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
func writeExports(cmd *cobra.Command, r result.Results, command string) (failed error) {
	for _, e := range []struct {
		flag  string
		write func(string, result.Results, string) error
	}{{"xlsx", export.XLSX}, {"csv", export.CSV}} {
		if to := valueOf(cmd, e.flag); to != "" {
			failed = errors.Join(failed, e.write(to, r, command))
		}
	}
	if failed != nil {
		return &exitError{exitFailed, failed}
	}
	return nil
}
