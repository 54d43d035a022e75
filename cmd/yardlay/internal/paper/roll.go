package paper

import (
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Roll is a print on a roll of paper. Lengths are mm.
type Roll struct {
	Head    Head
	Subject string
	Date    time.Time
	Mark    string // in the caption of each page
	Width   float64
	Key     []sheet.Paragraph // of patterns: explains their signs
}

// Limits and measures of a roll, mm.
const (
	MinRoll = 100.0 // narrower ones hold no piece
	MaxRoll = sheet.MaxPage
	// rollMargin is what plotters commonly cannot reach along the edges, 5 mm, doubled: common practice.
	rollMargin  = 10.0
	rollCaption = 8.0
	rollOverlap = 20.0
	rollBeside  = 12.0
)

// CheckRoll refuses a width that no roll has.
func CheckRoll(width float64) error {
	if !(width >= MinRoll && width <= MaxRoll) {
		return say.Errorf("a roll %.4g wide cannot be printed", say.MM(width)).
			Hint("from 4in (100mm) to 200in (5.08m), such as 24in, 36in, 42in, 610mm, 841mm or 914mm")
	}
	return nil
}

// room is the width that can be printed on.
func (r Roll) room() float64 { return r.Width - 2*rollMargin }

// Holds says whether a pattern lies whole on a page.
func (r Roll) Holds(p Pattern) bool { return p.fits(r.most(), r.room()-2*lineRoom) }

// most is the length of a page for patterns.
func (r Roll) most() float64 { return sheet.MaxPage - 2*rollMargin - rollCaption - 2*lineRoom }

func (r Roll) paging() paging {
	return paging{height: r.Width, longest: sheet.MaxPage, margin: rollMargin, caption: rollCaption,
		overlap: rollOverlap, mark: r.Mark, theme: sheet.ThemeLines}
}

func (r Roll) print() Print {
	return Print{Document: sheet.Document{Title: r.Head.Title, Subject: r.Subject, Date: r.Date}}
}

// Markers prints markers at full size, one after the other; each name is what a marker is
// called in captions. A marker that is wider than the roll is printed in bands along it.
func (r Roll) Markers(names []string, markers []sheet.FullSize) (Print, error) {
	if err := CheckRoll(r.Width); err != nil {
		return Print{}, err
	}
	all := r.print()
	for i, m := range markers {
		cut, err := r.paging().cut(board{drawing: m.Drawing, shown: shownOf(m, r.room(), rollBeside), pieces: m.Pieces,
			name: names[i],
			head: r.Head.drawing(r.room(), m.Key)})
		if err != nil {
			return Print{}, err
		}
		all.add(cut)
	}
	return all, nil
}

// shownOf is what is printed of a marker: the cloth with its edges and so much beside them,
// for their names, where the room is wide enough, else what pieces may lie on.
func shownOf(m sheet.FullSize, room, beside float64) orb.Bound {
	shown := m.Cloth
	for _, b := range []orb.Bound{widened(m.Cloth, beside), widened(m.Cloth, 1), m.Cloth, widened(m.Laid, 1), m.Laid} {
		shown.Min[1], shown.Max[1] = b.Min[1], b.Max[1]
		if shown.Max[1]-shown.Min[1] <= room {
			break
		}
	}
	shown.Min[0] -= beside
	shown.Max[0]++
	return shown
}

// widened adds a margin above and below.
func widened(b orb.Bound, by float64) orb.Bound {
	b.Min[1] -= by
	b.Max[1] += by
	return b
}

// Pieces prints patterns, laid by our own search. Those that fit on a page are never cut;
// others are cut into bands and lengths to be joined.
func (r Roll) Pieces(ctx context.Context, all []Pattern) (Print, error) {
	if err := CheckRoll(r.Width); err != nil {
		return Print{}, err
	}
	made, head := r.print(), r.Head.drawing(r.room(), r.Key)
	most := r.most()
	whole, large := make([]int, len(all)), make([]int, len(all))
	for i, p := range all {
		if p.fits(most-head.Width, r.room()-2*lineRoom) {
			whole[i] = p.Copies
		} else {
			large[i] = p.Copies
		}
	}
	for first := true; slices.Max(append(whole, 0)) > 0; first = false {
		some := taken(all, whole, atATime*most*r.room())
		l, err := lay(ctx, all, some, r.room(), paperWork)
		if err != nil {
			return Print{}, err
		}
		b := board{name: fmt.Sprintf("pieces, page %d", len(made.Pages)+1)}
		room := most
		if first {
			b.head, room = head, most-head.Width
		}
		part := l.within(room)
		if len(part.layout.Placed) == 0 { // on a roll as wide as pages are long
			move(some, whole, large)
			continue
		}
		move(part.copies(len(all)), whole, nil)
		if err := r.add(&made, b, part, all); err != nil {
			return Print{}, err
		}
	}
	err := r.large(ctx, &made, all, large, head)
	return made, err
}

// atATime is how many pages of patterns are laid at a time, for one page: enough to choose
// from.
const atATime = 1.5

// taken takes copies of patterns in their order until they cover an area.
func taken(all []Pattern, copies []int, area float64) []int {
	some := make([]int, len(all))
	for i, p := range all {
		for each := plane.Area(p.Outline); some[i] < copies[i] && area > 0; area -= each {
			some[i]++
		}
	}
	return some
}

// move takes copies from some and gives them to others, if any.
func move(copies, from, to []int) {
	for i, n := range copies {
		from[i] -= n
		if to != nil {
			to[i] += n
		}
	}
}

// add cuts a board of patterns into pages of the print.
func (r Roll) add(to *Print, b board, l laidOut, all []Pattern) error {
	b.drawing, b.pieces = l.drawing(all, r.Head.Title), l.bounds()
	b.shown = orb.Bound{Max: orb.Point{b.drawing.Width, b.drawing.Height}}
	cut, err := r.paging().cut(b)
	if to.add(cut); err == nil && len(to.Pages) > maxPages {
		err = say.Errorf("the pieces take over %d pages, the most there are", maxPages).
			Hint("take a wider roll, or print the pieces of some cloths by themselves, such as --cloth satin")
	}
	return err
}

// large prints patterns that no page holds, on as many bands as the widest of them takes.
func (r Roll) large(ctx context.Context, to *Print, all []Pattern, copies []int, head *sheet.Drawing) error {
	for n := 1; slices.Max(append(copies, 0)) > 0; n++ {
		some := taken(all, copies, atATime*sheet.MaxPage*r.room())
		move(some, copies, nil)
		widest := 0.0
		for i, p := range all {
			if some[i] > 0 {
				along, across := p.extents()
				widest = math.Max(widest, math.Min(along, across)+onLattice+2*lineRoom)
			}
		}
		bands := math.Max(1, math.Ceil((widest-rollOverlap)/(r.room()-rollOverlap)))
		l, err := lay(ctx, all, some, bands*(r.room()-rollOverlap)+rollOverlap, paperWork)
		if err != nil {
			return err
		}
		b := board{name: fmt.Sprintf("large pieces %d", n)}
		if len(to.Pages) == 0 {
			b.head = head
		}
		if err := r.add(to, b, l, all); err != nil {
			return err
		}
	}
	return nil
}
