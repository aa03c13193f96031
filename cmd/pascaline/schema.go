package main

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"pascaline/report/store"
	"pascaline/scenarios"
)

func schemaCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "schema",
		Short: "Print the JSON Schema of a scenario file, by which editors complete and explain fields",
		Long: `Prints a JSON Schema (draft-07) of the scenario file. "pascaline new" puts it beside the file that it writes, as pascaline.schema.json, and the first line
of that file points editors to it. An editor that knows it completes the names of fields, shows what they mean, and marks what cannot be; the values
themselves, and what must go together, "pascaline check" looks at.`,
		Example: "  pascaline schema > pascaline.schema.json",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			b, err := scenarios.Schema()
			if err != nil {
				return &exitError{exitFailed, err}
			}
			_, err = fmt.Fprintln(cmd.OutOrStdout(), string(b))
			return err
		},
	}
}

// schemaBeside puts the schema beside a scenario file, so that editors find it without a network. One that is there stays.
func schemaBeside(path string) error {
	path = filepath.Join(filepath.Dir(path), scenarios.SchemaFile)
	if _, err := os.Stat(path); err == nil {
		return nil
	}
	b, err := scenarios.Schema()
	if err == nil {
		err = store.Write(path, append(b, '\n'))
	}
	if err != nil {
		return &exitError{exitFailed, err}
	}
	return nil
}
