package outline

import (
	"cmp"
	"errors"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// smallest is the largest size of a closed line that is a hole to drill, mm: a buttonhole, a
// mark for an eyelet. What is larger may be a piece.
const smallest = 20.0

// maxLarge is how many closed lines as large as a piece may be in one drawing, and
// mostHeld how many edges lines may be held against to find what they lie in. Both keep the
// worst drawing within a second.
const (
	maxLarge = 4000
	mostHeld = 150_000_000
)

// size is the greater of the two extents of a loop.
func (l *loop) size() float64 {
	return max(l.bound.Max[0]-l.bound.Min[0], l.bound.Max[1]-l.bound.Min[1])
}

// holders are the loops that others may lie in, by piece, the smallest first.
type holders struct {
	of   map[pieceKey][]*holder
	held int // edges tried
}

type holder struct {
	*loop
	*bands
}

func newHolders(loops []*loop, margin float64) (*holders, error) {
	h := &holders{of: map[pieceKey][]*holder{}}
	n := 0
	for _, l := range loops {
		if l.bad || l.size() < smallest {
			continue
		}
		if n++; n > maxLarge {
			return nil, say.Errorf("the drawing has over %d closed lines as large as a piece, the most that are read",
				maxLarge).Hint("share the pieces out over several files")
		}
		h.of[l.of] = append(h.of[l.of], &holder{l, newBands(l.ring, margin)})
	}
	for _, all := range h.of {
		slices.SortStableFunc(all, func(a, b *holder) int { return cmp.Compare(a.area, b.area) })
	}
	return h, nil
}

// votes is how many points of a line are asked where they lie.
const votes = 12

// mayHold says whether another loop may lie in this one: the larger holds the smaller, of two as
// large, as copies of a piece are, the one that is drawn first the other.
func (l *loop) mayHold(other *loop) bool {
	if l.area == other.area {
		return l.parts[0].line < other.parts[0].line
	}
	return l.area > other.area
}

// around returns the smallest loop that a line of a piece lies in; nil for none. Part of one
// that lies beyond it, up to a share, does not count; what is not clear is told as crossing.
func (h *holders) around(of pieceKey, line orb.LineString, but *loop) (in *loop, crossing *loop) {
	bound := plane.Bounds(line)
	var points []orb.Point
	for _, c := range h.of[of] {
		if but != nil && !c.mayHold(but) || !c.bound.Pad(c.margin).Intersects(bound) {
			continue
		}
		if points == nil {
			points = spread(line, votes)
		}
		in, out := 0, 0
		for _, p := range points {
			where, cost := c.bands.side(p)
			h.held += cost
			switch where {
			case insideRing:
				in++
			case outside:
				out++
			}
		}
		switch {
		case out == 0 || in >= 4*out:
			return c.loop, crossing
		case in > 0:
			crossing = c.loop
		}
		if h.held > mostHeld {
			return nil, nil
		}
	}
	return nil, crossing
}

// errTangled refuses what would take too long.
func errTangled() error {
	return say.Errorf("too many lines lie within each other to find out which belong to which").
		Hint("leave out what is not cut or marked, such as hatches, or share the pieces out over several files")
}

// enclose finds in which loop each loop lies, and what those look like that no piece can be
// cut by.
func (a *assembler) enclose() (err error) {
	a.check()
	if a.holders, err = newHolders(a.loops, a.Tolerance/4); err != nil {
		return err
	}
	for _, l := range a.loops {
		if l.bad {
			continue
		}
		var crossing *loop
		if l.within, crossing = a.holders.around(l.of, orb.LineString(l.ring), l); l.within != nil {
			l.within.inner = append(l.within.inner, l)
		} else if crossing != nil {
			a.fault(Fault{Kind: Doubtful, What: say.Textf("two outlines overlap"), At: l.ring[0],
				Hint: "move one of them aside", Place: between2(a.place(crossing), a.place(l))})
		}
		if a.holders.held > mostHeld {
			return errTangled()
		}
	}
	return nil
}

// place is where the first line of a loop stands in the file.
func (a *assembler) place(l *loop) string { return a.Lines[l.parts[0].line].Place }

// check finds loops that are no outline: they cross themselves, or have too many corners.
func (a *assembler) check() {
	defer func() { a.about = nil }()
	for _, l := range a.loops {
		a.about = l
		if len(l.ring)-1 > MaxVertices {
			l.thin(ChordError)
		}
		l.unspike(a)
		if l.size() < smallest && l.role == Unnamed {
			continue // a hole to drill, whatever it is like
		}
		if n := len(l.ring) - 1; n > MaxVertices {
			a.spoil(l)
			a.fault(Fault{Kind: TooFine, What: say.Textf("the outline has %d corners, the most is %d, however near "+
				"to it fewer would come", n, MaxVertices), Hint: "trace or draw it with fewer points", At: l.ring[0],
				Place: a.place(l)})
			continue
		}
		if err := plane.CheckSimple(tidied(l.ring)); err != nil {
			a.spoil(l)
			a.fault(Fault{Kind: SelfCrossed, What: say.Textf("the outline is not one simple closed line: %v", err),
				Hint: "take the loop or the doubled stretch out where it was drawn", At: unsoundAt(l, err),
				Place: a.place(l)})
		}
	}
}

// spoil keeps a loop from being cut by, and its lines from being anything else.
func (a *assembler) spoil(l *loop) {
	l.bad = true
	a.give(l, a.Outline, "it is closed", 0)
	for _, p := range l.parts {
		a.spoilt[p.line] = true
	}
}

// unsoundAt is where a ring is not simple.
func unsoundAt(l *loop, err error) orb.Point {
	if bad := (*plane.Unsound)(nil); errors.As(err, &bad) {
		return bad.At
	}
	return l.ring[0]
}

// tidied is a ring without what says nothing, for judging whether it is simple.
func tidied(ring orb.Ring) orb.Ring {
	if t := plane.Tidy(ring); len(t) >= 4 {
		return t
	}
	return ring
}
