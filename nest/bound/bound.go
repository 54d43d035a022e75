package bound

import (
	"cmp"
	"context"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Bound is a length that no marker of a problem can be shorter than.
type Bound struct {
	Length      float64 // mm, on the lattice like every length of a marker
	Kind        Kind
	Pieces      []string // names of the pieces that decide it, where some do
	Certificate Certificate
}

// Kind names an argument.
type Kind string

const (
	Area         Kind = "area"          // what the pieces cover
	LongestPiece Kind = "longest piece" // one piece is this long whichever way it lies
	LastPin      Kind = "last pin"      // a piece is pinned there
	Chords       Kind = "chords"        // lines at one price, through a dual-feasible function
	Prices       Kind = "prices"        // lines at several prices
	Abreast      Kind = "abreast"       // steps from piece to piece on lines across the cloth
	OneWay       Kind = "one way"       // chords or prices of others that lie apart where the pieces do
	Row          Kind = "row"           // pieces that must follow each other in one row
	Rectangles   Kind = "rectangles"    // where along the cloth rectangles may begin
	Column       Kind = "column"        // pieces that would have to lie side by side, and are too wide together
)

// Certificate is all a checker needs besides the problem. Lines of the axis lie
// at 0 to W (along) or 0 to Length (across), half the gap beyond either end; line
// s has in layer i the price Prices[i][k] per mm, where Borders[k] <= s <=
// Borders[k+1], counted from half a gap before the cloth. A piece that takes a
// share x of a line, gaps included, takes Functions[i](x) of it in layer i. In a
// marker no longer than Length the pieces would need more than the lines offer:
// the sum of the prices.
type Certificate struct {
	Axis      Axis
	Length    float64 // mm; no marker of this length or shorter exists
	Gap       float64 // counted in, mm; 0 too when forbidden zones are counted instead
	Borders   []float64
	Functions []Function
	Prices    [][]float64
	Need      float64 // share of all lines that the pieces need at least, above 1
	At        float64 // of Row and Column: a line that all its pieces must cross, mm from the edge or the cut end
	Repeat    float64 // pieces of a group lie whole repeats of so much apart, mm; 0: left out
	Slices    []Slice // of Abreast: what is worth something
	// Of Chords and Prices on a repeat: the group whose pieces alone are counted, each
	// lengthened by what the repeat keeps idle behind it, along the cloth or across it, and
	// the most of that, mm. The cloth is taken to be longer, or wider, by as much.
	Group int
	Idle  [2]float64
	// Of OneWay: what is counted in place of the pieces. A piece counts whose ways all stand here.
	Exchanged []Exchange
}

// Exchange is a way of a piece, mm from its least corner, some convex parts of it, and what is counted in place of
// each: nil for nothing. Of any two parts in Exchanged, those that are counted reach no farther towards each other, in
// any direction, than the parts do, so that they lie apart where the parts do.
type Exchange struct {
	Outline        orb.Ring
	Parts, Counted []orb.Ring
}

// Slice is what lies of an outline between two lines across the cloth, mm from its least
// corner, which is the origin, and what a mm of it along the cloth is worth: a chain of slices
// that fit side by side on one line is worth 1 at the most.
type Slice struct {
	Outline  orb.Ring // as one of a piece's ways, moved there
	From, To float64
	Worth    float64
}

// OnRepeat says whether the bound counts the repeat, and not plain cloth alone.
func (b Bound) OnRepeat() bool { return b.Certificate.Repeat > 0 }

// safety is the relative part of a length that is given away for rounding. All
// sums here are of a few thousand terms of one sign with relative errors of
// 2^-53, far below it.
const safety = 1e-9

// newBound returns the bound of the largest excluded length: lengths of markers
// lie on the lattice, so that the next lattice length is the shortest possible.
func newBound(kind Kind, excluded float64) Bound {
	excluded *= 1 - safety
	return Bound{
		Length:      plane.Floor(excluded) + plane.Lattice,
		Kind:        kind,
		Certificate: Certificate{Length: excluded},
	}
}

// priceWork bounds the work of looking for prices; a term takes a few nanoseconds.
// As much again may go into raising lengths that were found to be impossible.
const priceWork = 200 << 20

// Lower returns the bounds found, the longest first; area and the longest piece
// are always among them. The result depends on the problem alone. A
// cancelled context returns those found so far.
func Lower(ctx context.Context, p Problem) []Bound {
	f := newFinder(ctx)
	f.try(p)
	slices.SortStableFunc(f.found, func(a, b Bound) int { return cmp.Compare(b.Length, a.Length) })
	return f.found
}

func newFinder(ctx context.Context) *finder {
	return &finder{ctx: ctx, work: priceWork, rowWork: rowsWork, penaltyWork: penaltiesWork, rectangleWork: rectanglesWork}
}

// try goes through the arguments, the cheapest first.
func (f *finder) try(p Problem) {
	settings := p.settings()
	f.simple(settings[0])
	f.walledRow(settings[0])
	for _, s := range settings {
		if f.stopped() {
			break
		}
		f.row(s)
		f.columns(s)
	}
	tied := p.tied()
	if tied != nil {
		f.row(tied)
		f.columns(tied)
	}
	if !f.stopped() {
		f.rectangles(settings[0])
	}
	for _, s := range settings {
		if f.stopped() {
			break
		}
		all := append(s.oneWay(f.ctx), s)
		for k, d := range all {
			f.sweep(d)
			f.within(len(all)-k, func() { f.price(d) })
		}
	}
	if !f.stopped() {
		f.abreast(settings[0])
	}
	if tied != nil && !f.stopped() {
		for _, s := range tied.idleGroups() {
			f.countIdle(s)
		}
	}
}

// within lets the first of some searches for prices take its share of the work that is left.
func (f *finder) within(searches int, first func()) {
	others := f.work - f.work/searches
	f.work -= others
	first()
	f.work += others
}

// Plain returns the longer of the two bounds that cost next to nothing: the area,
// and the longest piece.
func Plain(p Problem) Bound {
	f := finder{}
	f.simple(p.settings()[0])
	if f.found[1].Length > f.found[0].Length {
		return f.found[1]
	}
	return f.found[0]
}

// AtPin is the bound of a piece that is pinned and ends there, mm along the cloth, on the
// lattice.
func AtPin(name string, end float64) Bound {
	return Bound{
		Length: end, Kind: LastPin, Pieces: []string{name}, Certificate: Certificate{Length: end - plane.Lattice},
	}
}

// finder collects bounds.
type finder struct {
	ctx     context.Context
	best    float64
	work    int // left for prices, as cheapest counts it
	rowWork int // left for rows
	// Left for rows of many kinds.
	penaltyWork int
	// Left for rectangles.
	rectangleWork int
	found         []Bound
}

func (f *finder) add(b Bound) {
	f.found = append(f.found, b)
	f.best = max(f.best, b.Length)
}

// stopped says whether to stop.
func (f *finder) stopped() bool { return f.ctx.Err() != nil }

// simple adds area and the longest piece.
func (f *finder) simple(s *setting) {
	f.add(newBound(Area, s.area()/s.width))
	name, along := s.longest()
	b := newBound(LongestPiece, along)
	b.Pieces = []string{name}
	f.add(b)
}
