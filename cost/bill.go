package cost

import "fmt"

// Line is one entry of a bill.
type Line struct {
	What   string // what is bought
	Amount Money
}

// Bill is what all cloths cost together. The zero value is empty and ready.
type Bill struct {
	Lines []Line
	Total Money // the sum of the lines, kept by Add
}

// Add appends a line and adds it to the total. Where the sum cannot be formed
// (another currency, or too much) the bill stays as it was.
func (b *Bill) Add(what string, amount Money) error {
	total, err := b.Total.Add(amount)
	if err != nil {
		return fmt.Errorf("%s: %w", what, err)
	}
	b.Lines = append(b.Lines, Line{what, amount})
	b.Total = total
	return nil
}
