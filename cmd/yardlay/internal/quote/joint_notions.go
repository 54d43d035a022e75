package quote

import (
	"reflect"
	"slices"

	"yardlay/cost"
	"yardlay/shapes/say"
)

// joinNotions buys what several gowns need of the same notion at once, so that packs and reels are opened for all. A
// shelf that several jobs tell of is one shelf.
func (j *joint) joinNotions() error {
	for i, m := range j.makers {
		for _, b := range m.notions {
			k := slices.IndexFunc(j.notions, func(o bought) bool { return sameNotion(o, b) })
			if k < 0 {
				j.notions, j.whose = append(j.notions, b), append(j.whose, []string{j.gowns[i].Name})
				continue
			}
			n := j.notions[k].notion
			n.Have = max(n.Have, b.notion.Have)
			more, err := m.buy(n, added(j.notions[k].need, b.need))
			if err != nil {
				return say.Errorf("%s: %w", m.job.File, err)
			}
			j.notions[k] = more
			j.whose[k] = append(j.whose[k], j.gowns[i].Name)
		}
	}
	return nil
}

// sameNotion says whether two are the same thing, sold alike by the same supplier.
func sameNotion(a, b bought) bool {
	return a.notion.Name == b.notion.Name && a.notion.Supplier == b.notion.Supplier &&
		a.need.Inside == b.need.Inside && reflect.DeepEqual(a.notion.Sold, b.notion.Sold)
}

// added is what two gowns need of a notion. Each has the spare of what is counted; of what is bought by size, one spare
// of each size does for both.
func added(a, b cost.Notion) cost.Notion {
	a.Count += b.Count
	a.Length += b.Length
	a.Lengths = slices.Concat(a.Lengths, b.Lengths)
	if a.Each != nil {
		a.SpareCount += b.SpareCount
	}
	return a
}
