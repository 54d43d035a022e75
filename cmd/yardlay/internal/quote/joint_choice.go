package quote

import (
	"context"
	"slices"

	"yardlay/cmd/yardlay/internal/plan"
)

// weighed is one way to buy for all gowns: what is bought where, with some groups laid together.
type weighed struct {
	together []bool // by group
	sourced  sourced
	maker    *maker
	whose    [][]string // the gowns of each laid cloth
	rounding int64      // minor units, that laying together may save by fewer lines alone: half a unit a line and its tax
	err      error
}

// total is what all orders of it come to, minor units.
func (w weighed) total() int64 { return w.sourced.orders.Total.Minor }

// beats says whether one way costs less than another, and not by the rounding of its lines alone.
func (w weighed) beats(other weighed) bool {
	return w.total()+w.rounding < other.total()+other.rounding
}

// weigh finds the cheapest orders with some groups laid together and all else apart.
func (j *joint) weigh(ctx context.Context, together []bool) weighed {
	key := ""
	for _, t := range together {
		key += map[bool]string{true: "t", false: "a"}[t]
	}
	if w, ok := j.weighed[key]; ok {
		return w
	}
	w := weighed{together: slices.Clone(together)}
	w.maker = &maker{job: j.all, options: j.options, gowns: 1, notions: j.notions, tried: j.tried,
		many: true}
	var ids []string
	take := func(l plan.Laid, whose []string) {
		w.maker.laid = append(w.maker.laid, l)
		ids = append(ids, l.Task.Spread.Cloth.ID)
		w.whose = append(w.whose, whose)
	}
	for i, c := range j.cloths {
		k := slices.Index(j.groups, c.group)
		switch {
		case k < 0 || !together[k]:
			take(c.laid, []string{j.gowns[c.gown].Name})
		case c.group.cloths[0] == i:
			take(c.group.laid, j.gownsOf(c.group))
			w.rounding += int64(len(c.group.cloths))
		}
	}
	w.sourced, w.err = w.maker.settle(ctx)
	w.sourced.laid = slices.Clone(w.sourced.laid)
	for i := range w.sourced.laid { // what was laid for another counter may have been laid for another gown
		w.sourced.laid[i].Task.Spread.Cloth.ID = ids[i]
	}
	j.weighed[key] = w
	return w
}

// gownsOf names the gowns of a group.
func (j *joint) gownsOf(g *group) []string {
	var names []string
	for _, i := range g.cloths {
		names = append(names, j.gowns[j.cloths[i].gown].Name)
	}
	return names
}

// best finds which groups to lay together so that all orders cost least: from all apart and from all together, one
// group after the other is changed as long as that costs less. Where laying together saves nothing but what
// rounding makes, each gown has a length of its own.
func (j *joint) best(ctx context.Context) (weighed, error) {
	apart := make([]bool, len(j.groups))
	best := j.weigh(ctx, apart)
	if best.err != nil {
		return best, best.err
	}
	all := slices.Clone(apart)
	for k, g := range j.groups {
		all[k] = g.why == ""
	}
	for _, from := range [][]bool{apart, all} {
		if w := j.descend(ctx, from); w.err == nil && w.beats(best) {
			best = w
		}
	}
	return best, nil
}

// descend changes one group after the other as long as that costs less.
func (j *joint) descend(ctx context.Context, from []bool) weighed {
	best := j.weigh(ctx, from)
	for changed := true; changed && ctx.Err() == nil; {
		changed = false
		for k, g := range j.groups {
			if g.why != "" {
				continue
			}
			other := slices.Clone(best.together)
			other[k] = !other[k]
			w := j.weigh(ctx, other)
			if w.err == nil && (best.err != nil || w.beats(best)) {
				best, changed = w, true
			}
		}
	}
	return best
}
