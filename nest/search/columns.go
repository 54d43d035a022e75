package search

// columns sorts the items of a state by where they lie along the strip, so
// that a trial looks only at items near it. An item stands in every column
// that its box touches; each is looked at once, in the first column that it
// shares with the trial.
type columns struct {
	inverse float64 // of a column's width
	items   [][]int32
	first   []int32 // of each item, its first column
	last    []int32
}

// columnsPerItem relates a column's width to the mean length of an item: half
// an item, measured on 99 to 792 pieces against a quarter and a whole.
const columnsPerItem = 2

// reset empties the columns for a strip of the given length.
func (c *columns) reset(length, meanItem float64, items int) {
	count := int(length/meanItem*columnsPerItem) + 1
	c.inverse = float64(count) / length
	if len(c.items) < count {
		c.items = append(c.items, make([][]int32, count-len(c.items))...)
	}
	c.items = c.items[:count]
	for k := range c.items {
		c.items[k] = c.items[k][:0]
	}
	if c.first == nil {
		c.first, c.last = make([]int32, items), make([]int32, items)
	}
}

// span returns the first and last column that a box touches; what sticks out
// of the strip counts to its end columns.
func (c *columns) span(b *box) (first, last int32) {
	top := int32(len(c.items) - 1)
	first = min(max(int32(b.x0*c.inverse), 0), top)
	last = min(max(int32(b.x1*c.inverse), 0), top)
	return first, last
}

func (c *columns) add(i int32, b *box) {
	c.first[i], c.last[i] = c.span(b)
	for k := c.first[i]; k <= c.last[i]; k++ {
		c.items[k] = append(c.items[k], i)
	}
}

func (c *columns) remove(i int32) {
	for k := c.first[i]; k <= c.last[i]; k++ {
		list := c.items[k]
		for at, j := range list {
			if j == i {
				list[at] = list[len(list)-1]
				c.items[k] = list[:len(list)-1]
				break
			}
		}
	}
}
