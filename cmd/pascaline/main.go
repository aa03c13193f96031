// Command pascaline simulates the throughput of a high-pressure-processing line and draws what limits it.
package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/signal"
	"strings"

	"github.com/spf13/cobra"

	"pascaline/scenarios/sheet"
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
			fmt.Fprintln(root.ErrOrStderr(), "pascaline:", harmless(e.err))
		}
		return e.code
	}
	if lost := new(fs.PathError); errors.As(err, &lost) {
		fmt.Fprintf(root.ErrOrStderr(), "pascaline: what was printed could not be written: %v\n", lost) // of errors on paths, only those of the standard output come here
		return exitFailed
	}
	fmt.Fprintf(root.ErrOrStderr(), "pascaline: %s\nTry \"pascaline --help\".\n", harmless(err))
	return exitUsage
}

// harmless is an error's text with nothing in it, out of a file or the call, that a terminal would act on.
func harmless(err error) string {
	lines := strings.Split(err.Error(), "\n")
	for i := range lines {
		lines[i] = sheet.Harmless(lines[i])
	}
	return strings.Join(lines, "\n")
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
