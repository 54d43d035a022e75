package draft

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Hood is a hood of two halves with a seam over the crown and down the back, or of
// two sides with a strip between them. A side as drafted, turned so that it hangs:
//
//	 top  .-----------..
//	      |    crown    '.   Round, the radius at the back of the head
//	front |               |
//	edge  |               |  Height
//	      |              /
//	      |             |    - -
//	      '-..___      _|    Drop: the front of the neck lies lower
//	         neck"\/""       than the back, and may have a dart
//	      |<--- Depth --->|
//
// The neck leaves the front edge squarely, rises as one arc (without a drop it is
// straight) and meets the back seam squarely, so that it runs smoothly over both
// edges; with a dart it is drawn so that it does when the dart is folded. The back is straight
// from the round half way down and curves in from there. The draft is our own, on
// common practice. The strip is a
// rectangle as long as the crown seam, turned from the front edge to the neck.
type Hood struct {
	Neck   float64 // length of the neckline that it is sewn to, darts sewn, mm
	Height float64 // from the top of the front edge down to the neck, mm
	Depth  float64 // from the front edge to the back of the head, of a side, mm
	Round  float64 // radius of the crown at the back, mm
	Drop   float64 // how much lower the neck lies in front than behind, mm

	Strip      float64 // width of a strip between the sides, mm; 0 for none
	Dart       float64 // width of a dart in the middle of each side's neck, mm; 0 for none
	DartLength float64 // from the neck up, mm; needed with a dart

	HemRaise  float64 // how far the front edge of this layer is set back, as a lining's is, mm
	Chord     float64 // chord error of curves, mm; 0 means DefaultChord
	Allowance shapes.Allowance
}

// steepestNeck is the most that the neck may rise at the back, rad: beyond 60
// degrees the back seam would lie on its side.
const steepestNeck = math.Pi / 3

// Draft returns the sides, left and right, and the strip, if there is one. The
// front edge takes the hem allowance, neck and crown that of the seams.
func (h Hood) Draft() (Result, error) { return named("hood")(h.draft()) }

func (h Hood) draft() (Result, error) {
	if err := h.check(); err != nil {
		return Result{}, err
	}
	neck, err := h.neck()
	if err != nil {
		return Result{}, err
	}
	name := "hood half"
	if h.Strip > 0 {
		name = "hood side"
	}
	edges := h.edges(neck)
	p, err := shapes.NewPiece(name, edges)
	if err != nil {
		return Result{}, err
	}
	p.Count, p.Pair, p.Labels = 2, true, []string{"left", "right"}
	// In the middle the arrow would run into the dart.
	corner := p.Edges[0].Line[0]
	for i, share := range []float64{0.2, 0.7} {
		p.Grain[i] = orb.Point{corner[0] + share*h.Height, corner[1] + (h.Depth-h.HemRaise)/4}
	}
	if h.Dart > 0 {
		if err := neck.trued.markOn(&p, "neck", p.Shift(edges)); err != nil {
			return Result{}, err
		}
	}
	crown, _ := p.Edge("crown")
	length := crown.Length()
	side, marks := along(name, "crown"), []float64{length / 3, 2 * length / 3}
	pieces, joins := []shapes.Piece{p}, []shapes.Join{seamOf("crown", 1, side, side, marks...)}
	if h.Strip > 0 {
		strip, err := h.strip(length)
		if err != nil {
			return Result{}, err
		}
		pieces = append(pieces, strip)
		joins = []shapes.Join{
			seamOf("left side to strip", 1, side, along(strip.Name, "upper edge"), marks...),
			seamOf("right side to strip", 1, side, against(strip.Name, "lower edge"), marks...),
		}
	}
	d := Result{Pieces: pieces, Joins: joins}
	if d.Neck, err = h.neckAround(pieces); err != nil {
		return Result{}, err
	}
	return d, d.notch(d.Neck)
}

// strip drafts it, from the front edge at low x to the neck.
func (h Hood) strip(length float64) (shapes.Piece, error) {
	side := func(name string, kind shapes.EdgeKind, allowance float64) side { return side{name, kind, allowance} }
	return panel{
		along: length, across: h.Strip,
		lower: side("lower edge", shapes.Seam, h.Allowance.Seam), far: side("neck", shapes.Top, h.Allowance.Seam),
		upper: side("upper edge", shapes.Seam, h.Allowance.Seam), near: side("front edge", shapes.Hem, h.Allowance.Hem),
	}.piece("hood strip")
}

// nape is how far below the top the back seam begins to curve in, mm: half way
// down, and straight above that to the round.
func (h Hood) nape() float64 { return (h.Height - h.Drop) / 2 }

// sideNeck is the length of a side's neck with its dart open, of the outer layer, mm.
func (h Hood) sideNeck() float64 { return (h.Neck-h.Strip)/2 + h.Dart }

// neckRule is the neck from the front edge back, of a length: an arc that rises by
// the drop, or without one a straight line.
func (h Hood) neckRule(length float64) rule {
	turn, _ := h.neckTurn(length)
	if turn == 0 {
		return func(t float64) (at, out orb.Point) { return orb.Point{h.Height, t * length}, orb.Point{1, 0} }
	}
	radius := length / turn
	return func(t float64) (at, out orb.Point) {
		sin, cos := math.Sincos(t * turn)
		rise := 2 * radius * math.Pow(math.Sin(t*turn/2), 2) // radius (1 - cos), not rounded by a great radius
		return orb.Point{h.Height - rise, radius * sin}, orb.Point{cos, sin}
	}
}

// neckTurn returns the angle by which a neck of a length turns: an arc of length n
// rises by n (1 - cos t)/t, the Drop.
func (h Hood) neckTurn(length float64) (float64, bool) {
	if h.Drop == 0 {
		return 0, true
	}
	return firstRoot(func(t float64) float64 { return length*math.Sin(t/2)*sinc(t/2) - h.Drop }, 0, steepestNeck)
}

// hoodNeck is the neck of a side as drawn.
type hoodNeck struct {
	line  orb.LineString // from the front edge back
	turn  float64        // of its end at the back, rad
	trued trued          // with a dart
}

// neck draws it, trued to its dart, from where it meets a front edge set back.
func (h Hood) neck() (hoodNeck, error) {
	n, chord := h.sideNeck(), chordError(h.Chord)
	if h.Dart == 0 {
		turn, _ := h.neckTurn(n)
		if turn == 0 {
			return hoodNeck{line: orb.LineString{{h.Height, h.HemRaise}, {h.Height, n}}}, nil
		}
		radius := n / turn
		front := math.Asin(h.HemRaise / radius)
		line := plane.Arc(orb.Point{h.Height - radius, 0}, radius, front, turn, chord)
		line[0] = orb.Point{h.Height - radius*(1-math.Cos(front)), h.HemRaise}
		return hoodNeck{line: line, turn: turn}, nil
	}
	half := (n - h.Dart) / 2
	e, err := trueDart(h.neckRule, n, darting{half, h.Dart, half, h.DartLength})
	if err != nil {
		return hoodNeck{}, err
	}
	// The neck rises steadily from the front edge: y grows along it.
	from := bisect(func(t float64) float64 { return e.at(t)[1] - h.HemRaise }, 0, e.first, 60)
	if h.HemRaise == 0 {
		from = 0
	}
	if e.at(e.first)[1]-h.HemRaise < leastDart {
		return hoodNeck{}, say.Errorf("a front edge set back by %.6g leaves nothing of the neck in front of the dart",
			say.MM(h.HemRaise))
	}
	line := e.line(from, 1, chord)
	line[0][1] = h.HemRaise
	way, _ := e.rates(1)
	return hoodNeck{line: line, turn: math.Atan2(-way[0], way[1]), trued: e}, nil
}

// edges returns those of the left side: x down, y from the front edge back.
func (h Hood) edges(drawn hoodNeck) []shapes.Edge {
	chord := chordError(h.Chord)
	neck, turn := drawn.line, drawn.turn
	foot := neck[len(neck)-1]
	back := orb.Point{h.nape(), h.Depth}
	handle := math.Hypot(back[0]-foot[0], back[1]-foot[1]) / 3
	sin, cos := math.Sincos(turn)
	up := cubic{foot, {foot[0] - handle*cos, foot[1] - handle*sin}, {back[0] + handle, back[1]}, back}
	crown := sampled(up.at, 0, 1, chord)
	if h.nape() == h.Round { // the round begins where the curve ends
		crown = crown[:len(crown)-1]
	}
	crown = append(crown, plane.Arc(orb.Point{h.Round, h.Depth - h.Round}, h.Round, math.Pi/2, math.Pi, chord)...)
	top := orb.Point{0, h.HemRaise}
	crown = append(crown, top)
	return []shapes.Edge{
		{Name: "front edge", Kind: shapes.Hem, Line: orb.LineString{top, neck[0]}, Allowance: h.Allowance.Hem},
		{Name: "neck", Kind: shapes.Top, Line: neck, Allowance: h.Allowance.Seam},
		{Name: "crown", Kind: shapes.Seam, Line: crown, Allowance: h.Allowance.Seam},
	}
}

func (h Hood) check() error {
	err := positive(measured{"neck", h.Neck}, measured{"height", h.Height}, measured{"depth", h.Depth},
		measured{"round", h.Round})
	if err != nil {
		return err
	}
	if err := notNegative(measured{"drop", h.Drop}, measured{"strip", h.Strip}, measured{"dart", h.Dart}); err != nil {
		return err
	}
	if h.Strip >= h.Neck {
		return say.Errorf("strip of %.6g leaves nothing of a neck of %.6g to the sides", say.MM(h.Strip),
			say.MM(h.Neck))
	}
	if h.Round >= h.Depth || h.Round > h.nape() {
		return say.Errorf("round of %.6g does not fit a side %.6g deep and the upper half, %.6g, of its back",
			say.MM(h.Round), say.MM(h.Depth), say.MM(h.nape()))
	}
	if err := checkHem(h.HemRaise, h.Depth-h.Round, h.Chord, h.Allowance); err != nil {
		return err
	}
	n := h.sideNeck()
	turn, ok := h.neckTurn(n)
	if !ok {
		return say.Errorf("a neck of %.1f a side cannot rise by a drop of %.1f", say.MM(n), say.MM(h.Drop))
	}
	if h.HemRaise >= n*sinc(turn) {
		return say.Errorf("a front edge set back by %.6g leaves nothing of the neck", say.MM(h.HemRaise))
	}
	return h.checkDart(n)
}

func (h Hood) checkDart(neck float64) error {
	if h.Dart == 0 {
		return nil
	}
	if err := positive(measured{"dart length", h.DartLength}); err != nil {
		return err
	}
	if h.Dart >= neck/2 {
		return say.Errorf("dart of %.6g takes more than half of a side's neck of %.1f", say.MM(h.Dart), say.MM(neck))
	}
	if h.DartLength > h.Height/2 {
		return say.Errorf("dart length of %.6g reaches above half the height of %.6g", say.MM(h.DartLength),
			say.MM(h.Height))
	}
	return nil
}

// neckAround is the neck from one side of the front edge to the other, darts folded.
func (h Hood) neckAround(pieces []shapes.Piece) (shapes.JoinSide, error) {
	neck := []shapes.SewnEdge{along(pieces[0].Name, neckName)}
	s := shapes.JoinSide{Edges: thereAndBack(neck), FromFront: true}
	if len(pieces) > 1 {
		s.Edges = thereAndBack(neck, along(pieces[1].Name, neckName))
	}
	return s, s.FoldDarts(pieces)
}
