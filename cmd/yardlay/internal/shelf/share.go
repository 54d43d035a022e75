package shelf

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// Share is some of a cloth's copies as a problem of their own. Copies keep their
// identity: Source says which copy of the whole problem each one is.
type Share struct {
	Problem nest.Problem // without pieces when there is nothing to cut
	from    []shared     // by piece of Problem
}

// AllOf is everything as a share.
func AllOf(p nest.Problem) Share {
	s := Share{Problem: p}
	for i, piece := range p.Pieces {
		from := shared{piece: i}
		for c := range piece.Count {
			from.copies = append(from.copies, c)
		}
		s.from = append(s.from, from)
	}
	return s
}

// shared says where the copies of a share's piece come from.
type shared struct {
	piece   int   // of the whole problem
	copies  []int // of that piece, by copy of the share's
	flipped bool  // the outline is the mirror image of the whole problem's
}

// Source returns the placed copy of the whole problem that a placed copy of the
// share is. It lies the same way at the same place, and its copy is mirrored where
// the copies of a pair have to be.
func (s Share) Source(pl nest.Placed) nest.Placed {
	from := s.from[pl.Piece]
	pl.Piece, pl.Copy = from.piece, from.copies[pl.Copy]
	pl.Mirrored = pl.Mirrored != from.flipped
	return pl
}

// kind is the copies of a piece that are cut alike: of a pair the drawn ones and
// the mirrored ones are two kinds, and on a repeat those of each group.
type kind struct {
	piece  int
	odd    bool  // the mirrored ones of a pair
	group  int   // on the repeat
	copies []int // of the piece
	area   float64
}

// kindsOf lists the kinds of a problem, those of a piece one after the other.
func kindsOf(p nest.Problem) []kind {
	var kinds []kind
	for i, piece := range p.Pieces {
		one := nest.Piece{Outline: piece.Outline, Count: 1, Turns: piece.Turns, Mirror: nest.Free}
		area, first := nest.Problem{Pieces: []nest.Piece{one}}.LeastArea(), len(kinds)
		for c := range piece.Count {
			odd, group := piece.Mirror == nest.Paired && c%2 == 1, groupOf(p, i, c)
			k := slices.IndexFunc(kinds[first:], func(k kind) bool { return k.odd == odd && k.group == group }) + first
			if k < first {
				k = len(kinds)
				kinds = append(kinds, kind{piece: i, odd: odd, group: group, area: area})
			}
			kinds[k].copies = append(kinds[k].copies, c)
		}
	}
	return kinds
}

// counts says how many bundles of each entry there are.
type counts []int

func (c counts) total() int {
	sum := 0
	for _, n := range c {
		sum += n
	}
	return sum
}

func (c counts) plus(d counts, sign int) counts {
	out := slices.Clone(c)
	for k := range d {
		out[k] += sign * d[k]
	}
	return out
}

// within says whether d holds all that c does.
func (c counts) within(d counts) bool {
	for k := range c {
		if c[k] > d[k] {
			return false
		}
	}
	return true
}

func (c counts) area(bundles []bundle) float64 {
	sum := 0.0
	for b, n := range c {
		sum += float64(n) * bundles[b].area
	}
	return sum
}

// placedKind is one copy of a kind where it lies, as the whole problem says it.
type placedKind struct {
	kind int
	at   nest.Placed // its turn, mirroring and place
}

// dealer deals bundles out to shares, each one once: the first of an entry first.
type dealer struct {
	whole   nest.Problem
	kinds   []kind
	bundles []bundle
	dealt   counts
}

func newDealer(whole nest.Problem, kinds []kind, bundles []bundle) *dealer {
	return &dealer{whole, kinds, bundles, make(counts, len(bundles))}
}

// share deals so many bundles, to be laid on the strip; groups of which it holds a part
// keep to their phases, where these are settled. Left and right copies of a
// pair that come together stay a pair; those left over are cut as drawn, or as
// drawn from the mirrored outline, so that each share is sound by itself.
func (d *dealer) share(strip nest.Strip, c counts, settled phases) Share {
	s := Share{Problem: nest.Problem{Strip: strip, Gap: d.whole.Gap}}
	copies := d.deal(c)
	for i, piece := range d.whole.Pieces {
		var pairs, drawn, odd []int // copies
		for k, kind := range d.kinds {
			switch {
			case kind.piece != i:
			case kind.odd:
				odd = append(odd, copies[k]...)
			default:
				drawn = append(drawn, copies[k]...)
			}
		}
		if piece.Mirror != nest.Paired {
			s.add(d.whole, piece, shared{piece: i, copies: drawn})
			continue
		}
		pairs, drawn, odd = d.pairUp(i, drawn, odd)
		s.add(d.whole, piece, shared{piece: i, copies: pairs})
		piece.Mirror = nest.AsDrawn
		s.add(d.whole, piece, shared{piece: i, copies: drawn})
		s.add(d.whole, flipped(piece), shared{piece: i, copies: odd, flipped: true})
	}
	s.keepTo(d.whole, settled)
	return s
}

// pairUp takes drawn and mirrored copies of a piece together, those of one group,
// and returns what is left of either.
func (d *dealer) pairUp(piece int, drawn, odd []int) (pairs, drawnLeft, oddLeft []int) {
	for _, c := range drawn {
		at := slices.IndexFunc(odd,
			func(o int) bool { return groupOf(d.whole, piece, o) == groupOf(d.whole, piece, c) })
		if at < 0 {
			drawnLeft = append(drawnLeft, c)
			continue
		}
		pairs = append(pairs, c, odd[at])
		odd = slices.Delete(odd, at, at+1)
	}
	return pairs, drawnLeft, odd
}

// deal takes the next of each entry and returns their copies by kind, in order.
func (d *dealer) deal(c counts) [][]int {
	copies := make([][]int, len(d.kinds))
	for b, n := range c {
		for _, one := range d.bundles[b].each[d.dealt[b] : d.dealt[b]+n] {
			for k := range one {
				copies[k] = append(copies[k], one[k]...)
			}
		}
		d.dealt[b] += n
	}
	for k := range copies {
		slices.Sort(copies[k])
	}
	return copies
}

func (s *Share) add(whole nest.Problem, piece nest.Piece, from shared) {
	if len(from.copies) == 0 {
		return
	}
	piece.Count = len(from.copies)
	if piece.Match != nil {
		m := nest.Match{Point: piece.Match.Point}
		for _, c := range from.copies {
			m.Groups = append(m.Groups, groupOf(whole, from.piece, c))
		}
		piece.Match = &m
	}
	s.Problem.Pieces = append(s.Problem.Pieces, piece)
	s.from = append(s.from, from)
}

// flipped returns a piece whose outline as drawn is the mirror image about the
// grain: with it the turns go round the other way.
func flipped(piece nest.Piece) nest.Piece {
	piece.Outline = plane.Pose{Mirrored: true}.Apply(piece.Outline)
	piece.Half = nil // drawn for the other way round
	turns := slices.Clone(piece.Turns)
	for i, t := range turns {
		if turns[i] = math.Mod(360-t, 360); turns[i] < 0 {
			turns[i] += 360
		}
	}
	piece.Turns = turns
	if piece.Match != nil {
		m := *piece.Match
		m.Point[1] = -m.Point[1]
		piece.Match = &m
	}
	return piece
}

// kindOf returns the kind of a placed copy of the share.
func (s Share) kindOf(kinds []kind, pl nest.Placed) int {
	source := s.Source(pl)
	return slices.IndexFunc(kinds, func(k kind) bool {
		return k.piece == source.Piece && slices.Contains(k.copies, source.Copy)
	})
}

// places lists where the copies of a layout of the share lie.
func (s Share) places(kinds []kind, placed []nest.Placed) []placedKind {
	var out []placedKind
	for _, pl := range placed {
		out = append(out, placedKind{s.kindOf(kinds, pl), s.Source(pl)})
	}
	return out
}

// lay gives each copy of the share one of the places of its kind.
func (s Share) lay(kinds []kind, places []placedKind) nest.Layout {
	var l nest.Layout
	taken := make([]bool, len(places))
	for i, from := range s.from {
		for c := range from.copies {
			pl := nest.Placed{Piece: i, Copy: c}
			k := s.kindOf(kinds, pl)
			at := slices.IndexFunc(places, func(p placedKind) bool { return p.kind == k })
			for n := at; n < len(places); n++ {
				if places[n].kind == k && !taken[n] {
					at = n
					break
				}
			}
			taken[at] = true
			pl.Turn, pl.At = places[at].at.Turn, places[at].at.At
			pl.Mirrored = places[at].at.Mirrored != from.flipped
			l.Placed = append(l.Placed, pl)
			l.Length = max(l.Length, plane.Bounds(s.Problem.Outline(pl)).Max[0])
		}
	}
	return l
}

// checkShares judges that shares hold exactly the copies of the whole problem,
// each once, and that each is cut the way round it must be.
func checkShares(whole nest.Problem, shares []Share) error {
	type id struct{ piece, copy int }
	seen := map[id]bool{}
	for _, s := range shares {
		for i, piece := range s.Problem.Pieces {
			for c := range piece.Count {
				pl := nest.Placed{Piece: i, Copy: c, Mirrored: piece.Mirror == nest.Paired && c%2 == 1}
				source := s.Source(pl)
				asked := whole.Pieces[source.Piece]
				if seen[id{source.Piece, source.Copy}] {
					return fmt.Errorf("copy %d of %q is cut twice", source.Copy+1, asked.Name)
				}
				seen[id{source.Piece, source.Copy}] = true
				if must := asked.Mirror == nest.Paired && source.Copy%2 == 1; source.Mirrored != must ||
					asked.Mirror != nest.Free && piece.Mirror == nest.Free {
					return fmt.Errorf("copy %d of %q is cut the wrong way round", source.Copy+1, asked.Name)
				}
				if !sameOutline(s.Problem.Outline(pl), whole.Outline(source)) {
					return fmt.Errorf("copy %d of %q is not cut by its outline", source.Copy+1, asked.Name)
				}
			}
		}
	}
	if err := checkPhases(whole, shares); err != nil {
		return err
	}
	missing := 0
	for _, piece := range whole.Pieces {
		missing += piece.Count
	}
	if len(seen) != missing {
		return errors.New("some copies are cut from no cloth")
	}
	return nil
}

// sameOutline says whether two rings are one, wherever they start.
func sameOutline(a, b orb.Ring) bool {
	if len(a) != len(b) || len(a) == 0 {
		return false
	}
	n := len(a) - 1
	for from := range n {
		same := true
		for i := 0; i < n && same; i++ {
			same = a[i] == b[(from+i)%n]
		}
		if same {
			return true
		}
	}
	return false
}
