package bound

import "slices"

// coarser returns the same rectangles told apart less and less, from few sizes to as many as most: of several sizes
// each counts as the least along and the least across of them, and what covers little is left out. What those need the
// pieces need too, and with few sizes it is found sooner. Of any two sizes, or one and nothing, those are made one of
// which least is lost.
func (r rectangles) coarser(most int) []rectangles {
	kinds := r.kinds[:min(len(r.kinds), most)]
	var out []rectangles
	for len(kinds) > 0 {
		out = append(out, rectangles{r.width, r.gap, united(kinds)})
		kinds = fewer(kinds)
	}
	slices.Reverse(out)
	return out
}

// fewer returns one size less.
func fewer(kinds []rectangle) []rectangle {
	var a, b int
	least := -1.0
	for i, k := range kinds {
		if lost := k.covers(); least < 0 || lost < least {
			a, b, least = i, i, lost
		}
		for j, o := range kinds[:i] {
			if lost := k.covers() + o.covers() - k.with(o).covers(); lost < least {
				a, b, least = i, j, lost
			}
		}
	}
	both := kinds[a].with(kinds[b])
	kinds = slices.Delete(slices.Clone(kinds), a, a+1)
	if a != b {
		kinds[b] = both
	}
	return kinds
}

// covers is the area of all copies, in steps squared.
func (k rectangle) covers() float64 { return k.area() * float64(k.count) }

// with returns what counts for two sizes.
func (k rectangle) with(o rectangle) rectangle {
	return newRectangle(k.count+o.count, k.sizes[0].and(o.sizes[0]), k.sizes[1].and(o.sizes[1]))
}
