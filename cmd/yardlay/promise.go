package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/cmd/yardlay/internal/workroom"
	"yardlay/shapes/say"
)

// promised writes into the book of the workroom that the leftovers which a job is laid on are for it.
func (o *options) promised(ctx context.Context, s streams, f *job.File, laid []plan.Laid) error {
	if !o.promise {
		return nil
	}
	if errors.Is(ctx.Err(), context.Canceled) {
		return say.Errorf("interrupted: nothing is promised to %s", f.Name())
	}
	path, _ := workroom.Find(f.Name())
	use := fromRoom(laid, f.Job().Room)
	err := workroom.Change(context.WithoutCancel(ctx), path, func(src []byte, w *job.Workroom) ([]byte, error) {
		return workroom.Promise(src, w, f.Name(), use)
	})
	if err != nil || o.quiet || o.json {
		return err
	}
	said := "No leftover of the workroom is used: nothing is promised."
	if len(use) > 0 {
		var names []string
		for _, h := range use {
			names = append(names, h.Name)
		}
		said = fmt.Sprintf("Promised to %s: %s.", f.Name(), strings.Join(names, ", "))
	}
	fmt.Fprintf(s.out, "\n%s", wrapAt(said, "", columns(s.out)))
	return nil
}

// fromRoom lists the leftovers of a room that cloths are laid on, each once.
func fromRoom(laid []plan.Laid, room *job.Workroom) (use []job.Have) {
	for _, l := range laid {
		if l.Shelf == nil || l.Shelf.Verdict == shelf.Idle {
			continue
		}
		have := l.Task.Spread.Cloth.Have
		for _, c := range l.Shelf.Cuts {
			i := slices.IndexFunc(have, func(h job.Have) bool { return h.Name == c.Name })
			known := slices.ContainsFunc(use, func(h job.Have) bool { return h.Name == c.Name })
			if have[i].At.File == room.File && !known {
				use = append(use, have[i])
			}
		}
	}
	return use
}
