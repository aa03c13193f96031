package main

import (
	"fmt"
	"regexp"
	"strings"

	"github.com/spf13/cobra"
)

// badValue is how the flag library says that a value cannot be read; what follows are words of Go.
var badValue = regexp.MustCompile(`^invalid argument ("(?:[^"\\]|\\.)*") for "(?:-\w, )?(--[\w-]+)" flag`)

// plainCalls makes wrong calls be told in words of this program: which files a command wants, and which flag has a wrong value.
func plainCalls(root *cobra.Command) {
	for _, c := range root.Commands() {
		wants, check := c.UseLine(), c.Args
		if check == nil {
			continue
		}
		c.Args = func(cmd *cobra.Command, args []string) error {
			if check(cmd, args) == nil {
				return nil
			}
			return fmt.Errorf("%s given where the call is: %s (a name with blanks goes between quote marks)", given(args), strings.TrimSuffix(wants, " [flags]"))
		}
	}
	root.SetFlagErrorFunc(func(_ *cobra.Command, err error) error {
		if m := badValue.FindStringSubmatch(err.Error()); m != nil {
			return fmt.Errorf("%s %s is not a number that can stand there", m[2], m[1])
		}
		return err
	})
}

func given(args []string) string {
	if len(args) == 0 {
		return "no name was"
	}
	if len(args) == 1 {
		return "1 name (" + quotedList(args) + ") was"
	}
	return fmt.Sprintf("%d names (%s) were", len(args), quotedList(args))
}
