// Command pascaline simulates the throughput of a high-pressure-processing line and draws what limits it.
package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"

	"github.com/spf13/cobra"
)

// Exit codes.
const (
	exitDone     = 0
	exitFailed   = 1 // the run failed or was interrupted
	exitUsage    = 2 // wrong call
	exitScenario = 3 // scenario not valid
	exitCheck    = 4 // a check of the run failed
)

func main() { os.Exit(run(os.Args[1:])) }

// run is the whole program but for the exit, so that tests can call it in their own process.
func run(args []string) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	root := rootCommand()
	root.SetArgs(args)
	err := root.ExecuteContext(ctx)
	if err == nil {
		return exitDone
	}
	var e *exitError
	if errors.As(err, &e) {
		if e.err != nil && ctx.Err() != nil && (errors.Is(e.err, context.Canceled) || errors.Is(e.err, context.Cause(ctx))) {
			e.err = errors.New("interrupted before there was anything to write; nothing was written")
		}
		if e.err != nil {
			fmt.Fprintln(root.ErrOrStderr(), "pascaline:", e.err)
		}
		return e.code
	}
	fmt.Fprintf(root.ErrOrStderr(), "pascaline: %v\nTry \"pascaline --help\".\n", err)
	return exitUsage
}

// exitError ends the program with a code. A nil err says that all was told already.
type exitError struct {
	code int
	err  error
}

func (e *exitError) Error() string { return fmt.Sprint(e.err) }

func (e *exitError) Unwrap() error { return e.err }

func rootCommand() *cobra.Command {
	root := &cobra.Command{
		Use:   "pascaline",
		Short: "Know what limits a high-pressure-processing line before you spend",
		Long: `pascaline simulates a high-pressure-processing line pack by pack, from loading to the packed case, and writes one page
that says what the line makes, how sure that is, and what holds it back.

Begin with "pascaline new line.yaml", edit the file, then "pascaline run line.yaml".`,
		SilenceErrors: true,
		SilenceUsage:  true,
	}
	root.AddCommand(
		runCommand(),
		compareCommand(),
		sizeCommand(),
		paybackCommand(),
		orderCommand(),
		fitCommand(),
		backtestCommand(),
		cycleCommand(),
		claimCommand(),
		checkCommand(),
		explainCommand(),
		newCommand(),
		schemaCommand(),
		reportCommand(),
		selftestCommand(),
		versionCommand(),
	)
	plainCalls(root)
	return root
}
