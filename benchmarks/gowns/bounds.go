package main

import (
	"context"
	"fmt"
	"io"

	"yardlay/benchmarks/processor"
	"yardlay/nest"
)

// bounds prints the bound of each cloth in inches, with the argument for it and the processor time that it took;
// nothing is laid.
func bounds(ctx context.Context, cloths []cloth, stdout io.Writer) error {
	all := processor.Time()
	for _, c := range cloths {
		began := processor.Time()
		b := nest.LowerBound(ctx, c.problem)
		if ctx.Err() != nil {
			return ctx.Err()
		}
		fmt.Fprintf(stdout, "%9.3f in %6.2f s  %-14s %s\n", b.Length/inch, (processor.Time() - began).Seconds(), b.Kind,
			c.name)
	}
	fmt.Fprintf(stdout, "%19.2f s  in all\n", (processor.Time() - all).Seconds())
	return nil
}
