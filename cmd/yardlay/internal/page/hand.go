package page

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"
	"sync"

	"yardlay/cmd/yardlay/internal/document"
	"yardlay/cmd/yardlay/internal/kept"
	"yardlay/cmd/yardlay/internal/live"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// byHand is what of a job is laid by hand. It is kept in a layout file beside the job, and the desk lays
// from it: of a cloth in hand all pieces stay where they are, of others those that are pinned.
type byHand struct {
	mu     sync.Mutex
	folder *os.Root
	name   string // of the file
	desk   *live.Desk
	file   *kept.File // as it was written or read last; its cloths are replaced, and never changed
	wrong  error      // why what is there is no layout: it stays as it is
	work   map[string]*handwork
}

// layoutName is the name of the file that keeps the layouts of a job.
func layoutName(job string) string { return job[:len(job)-len(suffix)] + ".layout.json" }

// newByHand reads what a hand laid before, and lets the desk lay from it.
func newByHand(folder *os.Root, job string, desk *live.Desk) *byHand {
	h := &byHand{folder: folder, name: layoutName(job), desk: desk, work: map[string]*handwork{}}
	if h.file, h.wrong = h.read(); h.wrong == nil && len(h.file.Cloths) > 0 {
		desk.From(h.file)
	}
	return h
}

// read reads the file; one that is not there has no cloths.
func (h *byHand) read() (*kept.File, error) {
	none := &kept.File{Name: h.name}
	info, err := h.folder.Stat(h.name)
	if errors.Is(err, fs.ErrNotExist) {
		return none, nil
	}
	if err == nil && !info.Mode().IsRegular() {
		err = say.Errorf("%s is not a plain file", h.name)
	}
	if err != nil {
		return none, err
	}
	file, err := h.folder.Open(h.name)
	if err != nil {
		return none, err
	}
	defer file.Close()
	src, err := io.ReadAll(io.LimitReader(file, kept.MaxFile+1))
	if err != nil {
		return none, err
	}
	f, err := kept.Read(h.name, src)
	if err != nil {
		return none, err
	}
	return f, nil
}

// kept says whether the file has a layout of anything.
func (h *byHand) kept() bool {
	h.mu.Lock()
	defer h.mu.Unlock()
	return len(h.file.Cloths) > 0
}

// copyTo keeps the layouts for a job of another name too; a file that is there stays as it is.
func (h *byHand) copyTo(job string) error {
	h.mu.Lock()
	defer h.mu.Unlock()
	if len(h.file.Cloths) == 0 {
		return nil
	}
	name := layoutName(job)
	if _, err := h.folder.Lstat(name); !errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err := document.Put(h.folder, name, h.file.Encode(), true); err != nil {
		return say.Errorf("cannot keep what you laid by hand for %s: %w", job, err).
			Hint("%s itself is saved; copy %s to %s", job, h.name, name)
	}
	return nil
}

// put puts a cloth's layout into the file, or takes it out when nil, writes that and lets the desk lay
// from it. What cannot be written changes nothing.
func (h *byHand) put(cloth string, c *kept.Cloth) error {
	on, err := h.read()
	if err == nil && string(on.Encode()) != string(h.file.Encode()) {
		h.file, h.wrong = on, nil
		clear(h.work)
		h.lay()
		return &refusal{409, say.Errorf("somebody else has written %s, and that is how the cloths lie now", h.name).
			Hint("take the cloth in hand again")}
	}
	if _, no := errors.AsType[strict.Errors](err); no {
		return invalid(say.Errorf("%s is there and is no layout, so it stays as it is", h.name).
			Hint("move that file away to lay by hand"))
	}
	if err != nil {
		return say.Errorf("cannot read what was laid before: %w", err)
	}
	now := &kept.File{Name: h.name}
	for _, one := range h.file.Cloths {
		if one.ID != cloth {
			now.Cloths = append(now.Cloths, one)
		}
	}
	if c != nil {
		now.Cloths = append(now.Cloths, *c)
		slices.SortStableFunc(now.Cloths, func(a, b kept.Cloth) int { return strings.Compare(a.ID, b.ID) })
	}
	if len(now.Cloths) > 0 {
		err = document.Put(h.folder, h.name, now.Encode(), true)
	} else if err = h.folder.Remove(h.name); errors.Is(err, fs.ErrNotExist) {
		err = nil
	}
	if err != nil {
		return say.Errorf("cannot keep what you laid: %w",
			err).Hint("is there room on the disk, may the folder be written?")
	}
	h.file = now
	return nil
}

// lay lets the desk lay from the layouts as they are now.
func (h *byHand) lay() { h.desk.From(h.from()) }

// begin lays a task as the desk does: from the layouts as they are now.
func (h *byHand) begin(t plan.Task) plan.Task {
	h.mu.Lock()
	from := h.from()
	h.mu.Unlock()
	if from != nil {
		t, _ = from.Begin(t)
	}
	return t
}

// asItLies begins a task as the desk does, and where a hand laid some of it from where all lies now: what is
// compared with it is compared with what one sees.
func (o *opened) asItLies(t plan.Task) plan.Task {
	begun := o.hand.begin(t)
	if !begun.Begun() {
		return t
	}
	for _, c := range o.desk.Snapshot().Cloths {
		if c.ID != t.Spread.Cloth.ID || c.Picture == nil || c.Old {
			continue
		}
		begun = begun.FromLaid(c.Picture.Laid())
	}
	return begun
}

// from are the layouts that are laid from; nil for none.
func (h *byHand) from() *kept.File {
	from := &kept.File{Name: h.name}
	for _, c := range h.file.Cloths {
		if h.work[c.ID] != nil {
			c = held(c)
		}
		from.Cloths = append(from.Cloths, c)
	}
	if len(from.Cloths) == 0 {
		return nil
	}
	return from
}

// held returns a layout with all pieces pinned.
func held(c kept.Cloth) kept.Cloth {
	c.Stretches = slices.Clone(c.Stretches)
	for i := range c.Stretches {
		c.Stretches[i].Pieces = slices.Clone(c.Stretches[i].Pieces)
		for k := range c.Stretches[i].Pieces {
			c.Stretches[i].Pieces[k].Pinned = true
		}
	}
	return c
}

// reachable says why a cloth cannot be laid by hand; nil when it can.
func reachable(c live.Cloth) error {
	switch {
	case c.Picture == nil:
		return invalid(say.Errorf("%s is not laid yet", c.ID))
	case c.Old:
		return invalid(say.Errorf("%s lies as it was before your last change", c.ID).Hint("wait until it is laid anew"))
	}
	if why := unreachable(c); why != "" {
		return invalid(say.Errorf("%s", why))
	}
	return nil
}

// unreachable says why no piece of a cloth can be moved by hand as that is cut; "" where they can.
func unreachable(c live.Cloth) string {
	l := c.Picture.Laid()
	switch {
	case l.Shelf != nil && l.Shelf.Verdict != shelf.Idle:
		return "This cloth is cut from leftovers, and those are not laid by hand"
	case l.Several(), len(l.Results) == 0, len(l.Results) != len(c.Picture.Cloth().Markers):
		return "This cloth is cut from several lengths, and those are not laid by hand"
	}
	return ""
}

// standing says what of a cloth that is not in hand is as a hand laid it; "" where that is told otherwise.
func (h *byHand) standing(c live.Cloth) string {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.work[c.ID] != nil || c.Kept == nil || c.Kept.Stale() || c.Picture == nil || c.Old {
		return ""
	}
	n := c.Picture.Cloth().Pinned
	switch {
	case c.Picture.Cloth().AllPinned():
		return ""
	case n == 0:
		return "No piece is pinned: the search may move each. It begins from where you laid them."
	case n == 1:
		return "1 piece stays where you pinned it. The search lays the others, beginning from where you had them."
	}
	return fmt.Sprintf("%d pieces stay where you pinned them. The search lays the others, beginning from where you had "+
		"them.", n)
}

// push is how far keys move a piece, mm, and in words: a little, and with Shift further.
type push struct {
	Little, Further           float64
	LittleWords, FurtherWords string
}

// pushOf is by steps of a rule in the unit of the job.
func pushOf(u measure.Unit) push {
	if u.Metric() {
		return push{1, 10, "1 mm", "10 mm"}
	}
	return push{measure.Inches / 8, measure.Inches / 2, "1/8 in", "1/2 in"}
}
