package main

import (
	"io"
	"os"
	"strconv"
)

// Letters in a line: what everything is made for, and the least worth minding.
const usualColumns, leastColumns = 80, 30

// columns is how many letters of a line to use: those of a narrower terminal, or
// what COLUMNS says (POSIX), at most usualColumns.
func columns(out io.Writer) int {
	if c, ok := out.(*checked); ok {
		out = c.Writer
	}
	n, err := strconv.Atoi(os.Getenv("COLUMNS"))
	if f, ok := out.(*os.File); err != nil && ok && isTerminal(out) {
		n = columnsOf(f)
	}
	if n <= 0 {
		return usualColumns
	}
	return max(leastColumns, min(n, usualColumns))
}
