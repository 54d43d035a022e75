package main

import (
	"slices"

	"yardlay/cmd/yardlay/internal/kept"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes/say"
)

// keptCut is a layout file that a job is cut by.
type keptCut struct {
	file   *kept.File // nil without --from
	states []kept.State
}

// asKept reads the file of --from and pins every piece where it lies.
func (o *options) asKept(lo *plan.Options) (*keptCut, error) {
	k := &keptCut{}
	if o.from == "" {
		return k, nil
	}
	src, err := readLayout(o.from)
	if err != nil {
		return nil, err
	}
	if k.file, err = kept.Read(o.from, src); err != nil {
		return nil, err
	}
	for _, c := range k.file.Cloths {
		for _, st := range c.Stretches {
			for i := range st.Pieces {
				st.Pieces[i].Pinned = true
			}
		}
	}
	lo.Begin = func(t plan.Task) plan.Task {
		if !slices.ContainsFunc(k.file.Cloths, func(c kept.Cloth) bool { return c.ID == t.Spread.Cloth.ID }) {
			return t // cut from leftovers or several lengths: it is not kept, and laid as ever
		}
		t, state := k.file.Begin(t)
		k.states = append(k.states, state)
		return t
	}
	return k, nil
}

// exactly refuses layouts that are not those of the file.
func (k *keptCut) exactly(laid []plan.Laid) error {
	for _, s := range k.states {
		i := slices.IndexFunc(laid, func(l plan.Laid) bool { return l.Task.Spread.Cloth.ID == s.Cloth })
		copies := 0
		for _, st := range laid[i].Task.Stretches {
			for _, p := range st.Problem.Pieces {
				copies += p.Count
			}
		}
		if s.Stale() || s.Pinned != copies {
			return say.Errorf("the layout of cloth `%s` in %s is not of the job as it is now", s.Cloth, k.file.Name).
				Hint("lay it again with --from and --keep, and look at it")
		}
	}
	return nil
}
