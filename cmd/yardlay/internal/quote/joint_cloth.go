package quote

import (
	"cmp"
	"context"
	"reflect"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes/say"
)

// group is a cloth that several gowns are cut from.
type group struct {
	cloths []int // of the joint, one a gown
	laid   plan.Laid
	why    string // it is not laid together, in words; "" where it is
}

// group finds the cloths that several gowns share, and tells of those that are called alike and are not.
func (j *joint) group() {
	for i := range j.cloths {
		for k := range j.cloths[:i] {
			a, b := &j.cloths[k], &j.cloths[i]
			one, other := a.laid.Task.Spread.Cloth, b.laid.Task.Spread.Cloth
			if a.gown == b.gown || b.group != nil || !calledAlike(one, other) {
				continue
			}
			if differ := differing(one, other); len(differ) > 0 {
				j.notes = append(j.notes, one.Title+" of "+j.gowns[a.gown].Name+" and of "+j.gowns[b.gown].Name+
					" differs in "+say.InWords(differ, "and")+": it is bought for each.")
				continue
			}
			if a.group == nil {
				a.group = &group{cloths: []int{k}}
				j.groups = append(j.groups, a.group)
			}
			b.group = a.group
			b.group.cloths = append(b.group.cloths, i)
		}
	}
}

// calledAlike says whether two cloths are meant to be the same: one of the workroom, or of one title.
func calledAlike(a, b job.Cloth) bool { return cmp.Or(a.From, a.Title) == cmp.Or(b.From, b.Title) }

// differing names what keeps two cloths from being one: how they are sold, or how they are laid.
func differing(a, b job.Cloth) []string {
	for _, c := range []*job.Cloth{&a, &b} {
		c.Flaws, c.Offers = slices.Clone(c.Flaws), slices.Clone(c.Offers)
		for i := range c.Flaws {
			c.Flaws[i].At = a.At
		}
		for i := range c.Offers {
			c.Offers[i].At, c.Offers[i].Priced = a.At, job.Date{}
		}
	}
	var names []string
	for _, d := range []struct {
		name string
		a, b any
	}{
		{"width", [2]any{a.Widths, a.Selvedge}, [2]any{b.Widths, b.Selvedge}},
		{"nap", [2]any{a.Nap, a.BothFaces}, [2]any{b.Nap, b.BothFaces}},
		{"lay", [2]any{a.Lay, a.TurnUpper}, [2]any{b.Lay, b.TurnUpper}},
		{"gap", a.Gap, b.Gap}, {"ends", a.Ends, b.Ends}, {"skew", a.Skew, b.Skew}, {"spare", a.Spare, b.Spare},
		{"shrinkage", a.Shrinkage, b.Shrinkage}, {"repeat", a.Repeat, b.Repeat}, {"flaws", a.Flaws, b.Flaws},
		{"lots", a.Lots, b.Lots}, {"price", a.Offers, b.Offers},
	} {
		if !reflect.DeepEqual(d.a, d.b) {
			names = append(names, d.name)
		}
	}
	return names
}

// mostHave is how many leftovers a cloth of several gowns is laid on, as many as a job may have.
const mostHave = 32

// layTogether lays every shared cloth for all its gowns.
func (j *joint) layTogether(ctx context.Context) {
	for n, g := range j.groups {
		within, done := plan.InTurn(ctx, len(j.groups)-n)
		if err := j.layGroup(within, g); err != nil {
			what, _ := say.Parts(err, j.all.Show())
			g.why = what
		}
		done()
	}
}

func (j *joint) layGroup(ctx context.Context, g *group) error {
	first := j.cloths[g.cloths[0]].laid.Task.Spread.Cloth
	first.Have = j.leftoversOf(g)
	var gowns []plan.Gown
	var apart []plan.Laid
	for _, i := range g.cloths {
		c := j.cloths[i]
		one := j.gowns[c.gown]
		asked := c.laid.Task.Spread
		asked.Cloth.ID = j.calledInJob(i) // as its matches call it
		gowns = append(gowns, plan.Gown{Name: one.Name, Job: one.Job, Spread: asked})
		apart = append(apart, c.laid)
	}
	task, err := plan.Together(j.all, first, gowns)
	if err != nil {
		return err
	}
	start := task.EndToEnd(apart)
	if g.laid, err = plan.Do(ctx, task, j.options.Options, nil); err != nil || start == nil {
		return err
	}
	if again, err := plan.Do(ctx, task, j.options.Options, start); err == nil && again.Buy.Precedes(g.laid.Buy) {
		g.laid = again
	}
	return nil
}

// calledInJob is the id of a cloth in its own job.
func (j *joint) calledInJob(i int) string {
	return j.makers[j.cloths[i].gown].laid[j.within(i)].Task.Spread.Cloth.ID
}

// within is the number of a cloth among those of its gown.
func (j *joint) within(i int) int {
	n := 0
	for _, c := range j.cloths[:i] {
		if c.gown == j.cloths[i].gown {
			n++
		}
	}
	return n
}

// leftoversOf are the leftovers that a group may be laid on: all that its gowns have, without what is used for others.
// What several jobs tell of is there once.
func (j *joint) leftoversOf(g *group) []job.Have {
	others, mine := map[string]bool{}, map[string]bool{}
	for i, c := range j.cloths {
		for _, h := range usedLeftovers(c.laid) {
			if !slices.Contains(g.cloths, i) {
				others[leftoverKey(c.laid.Task.Spread.Cloth, h)] = true
			}
		}
	}
	var all []job.Have
	for _, i := range g.cloths {
		for _, c := range j.gowns[j.cloths[i].gown].Job.Cloths {
			if !calledAlike(c, j.cloths[i].laid.Task.Spread.Cloth) {
				continue
			}
			for _, h := range c.Have {
				if key := leftoverKey(c, h); !others[key] && !mine[key] && len(all) < mostHave {
					mine[key] = true
					all = append(all, h)
				}
			}
		}
	}
	return all
}
