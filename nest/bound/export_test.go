package bound

import "context"

// Work returns how many terms of prices and steps of rows all bounds of a problem took.
func Work(p Problem) int {
	f := newFinder(context.Background())
	f.try(p)
	return priceWork - f.work + rowsWork - f.rowWork
}
