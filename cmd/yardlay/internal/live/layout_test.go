package live

import (
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/kept"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/nest"
)

// keptOf is a layout file of what lies on a desk, with all of it pinned or nothing.
func keptOf(t *testing.T, s Snapshot, pinned bool) *kept.File {
	t.Helper()
	var laid []plan.Laid
	for _, c := range s.Cloths {
		laid = append(laid, c.Picture.Laid())
	}
	f, left := kept.Of(laid)
	if len(left) > 0 {
		t.Fatalf("%q are not kept", left)
	}
	for _, c := range f.Cloths {
		for _, s := range c.Stretches {
			for i := range s.Pieces {
				s.Pieces[i].Pinned = pinned
			}
		}
	}
	return f
}

// moved is the file with the last piece of a cloth so far along it.
func moved(f *kept.File, cloth int, by float64) *kept.File {
	other := *f
	other.Cloths = slices.Clone(f.Cloths)
	s := slices.Clone(f.Cloths[cloth].Stretches)
	s[0].Pieces = slices.Clone(s[0].Pieces)
	last := &s[0].Pieces[len(s[0].Pieces)-1]
	last.At = orb.Point{last.At[0] + by, last.At[1]}
	other.Cloths[cloth].Stretches = s
	return &other
}

// A job is laid from a layout: what that pins stays where it is, each cloth says how it stands to it, and one that the
// layout lacks says nothing. Taken away, the layout is gone from all of them.
func TestLaidFromALayout(t *testing.T) {
	k := open(t, Options{Search: Search{Effort: nest.Trial, Seed: 1}})
	k.Show(file(t, small(14, "moss")))
	first := until(t, k, "an end", settled)
	f := keptOf(t, first, true)
	f = moved(f, 0, 400) // nobody's search would leave it there
	f.Cloths = f.Cloths[:1]
	k.From(f)
	s := until(t, k, "the layout", func(s Snapshot) bool { return s.Final && s.Cloths[0].Kept != nil })
	n := len(f.Cloths[0].Stretches[0].Pieces)
	if c := s.Cloths[0]; c.Kept.Pinned != n || c.Kept.Stale() || !c.Kept.Begun || c.Kept.Cloth != "wool" {
		t.Errorf("%+v", c.Kept)
	}
	if s.Cloths[1].Kept != nil {
		t.Errorf("a cloth that the layout lacks: %+v", s.Cloths[1].Kept)
	}
	again := keptOf(t, s, true)
	if got, want := again.Cloths[0].Stretches[0].Pieces, f.Cloths[0].Stretches[0].Pieces; !slices.Equal(got, want) {
		t.Errorf("pinned are\n%+v\nand lie\n%+v", want, got)
	}
	k.From(nil)
	s = until(t, k, "no layout", func(s Snapshot) bool { return s.Final && s.Cloths[0].Kept == nil })
	if written(t, s.Report) != written(t, first.Report) {
		t.Error("without the layout the job is laid otherwise than before it")
	}
}

// What is begun from other layouts is laid anew, cloth by cloth: one whose layout is the same lies there already. A
// layout that stands no more is begun from by nobody, and lays nothing anew but for what it pins.
func TestOtherLayoutsAreLaidAnew(t *testing.T) {
	k := open(t, Options{Search: Search{Effort: nest.Trial, Seed: 1}})
	k.Show(file(t, small(14, "moss")))
	s := until(t, k, "an end", settled)
	laid := func() int { k.mu.Lock(); defer k.mu.Unlock(); return len(k.tasks) }
	plain := laid()
	f := keptOf(t, s, false)
	from := func(f *kept.File, what string, more int) {
		t.Helper()
		before := laid()
		k.From(f)
		until(t, k, what, func(s Snapshot) bool { return s.Drafted && s.Final })
		if n := laid() - before; n != more {
			t.Errorf("%s lays %d cloths anew, not %d", what, n, more)
		}
	}
	from(f, "a layout", 2)
	from(moved(f, 0, 0), "the same from another file", 0)
	from(moved(f, 0, 500), "another layout of the wool", 1)
	from(moved(f, 1, 500), "another layout of the tulle", 1)
	broken := moved(f, 0, 0)
	broken.Cloths[0].Stretches[0].Pieces[0].At[1] = -700 // off the cloth
	from(broken, "a layout that does not hold", 0)
	if n := laid(); n != plain+4 {
		t.Errorf("%d tasks, %d at first", n, plain)
	}
}
