package live

import (
	"crypto/sha256"
	"encoding/hex"

	"yardlay/cmd/yardlay/internal/kept"
	"yardlay/cmd/yardlay/internal/plan"
)

// begun is a task as it is laid from a layout.
type begun struct {
	task  plan.Task
	of    *kept.File // nil: from none
	state kept.State
	mark  string // another for other layouts to begin from; "" where the search begins anew
}

// begunFrom returns the tasks as they are laid from a layout; nil is none.
func begunFrom(f *kept.File, all []plan.Drawn) []begun {
	list := make([]begun, len(all))
	for i, d := range all {
		list[i].task = d.Task
		if f == nil || d.Refused != nil {
			continue
		}
		b := begun{of: f}
		if b.task, b.state = f.Begin(d.Task); b.state.Begun {
			b.mark = " from " + markOf(f, b.state.Cloth)
		}
		list[i] = b
	}
	return list
}

// markOf is equal for equal layouts of a cloth.
func markOf(f *kept.File, cloth string) string {
	var one kept.File
	for _, c := range f.Cloths {
		if c.ID == cloth {
			one.Cloths = append(one.Cloths, c)
		}
	}
	sum := sha256.Sum256(one.Encode())
	return hex.EncodeToString(sum[:])
}
