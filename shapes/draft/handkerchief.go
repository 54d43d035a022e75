package draft

import (
	"cmp"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// Handkerchief is a skirt cut from a square with a round waist in its middle; it
// hangs in four points.
//
//	.-------------.      square  S = 2 (r + Length), r = W / (2 pi)
//	|             |
//	|    .---.    |      Length  from the waist to the middle of a side
//	|   ( r   )---|
//	|    '---'    |      point   from the waist to a corner:
//	|             |              sqrt 2 (r + Length) - r
//	'-------------'
//
// It is cut in one, in halves with two side seams, or in quarters with four, all
// from the waist to the middle of a side. A square cut in one is laid whole: the
// waist hole, and the slit of an opening, are marked inside it.
type Handkerchief struct {
	Waist    float64 // girth sewn to the waistband, mm
	Length   float64 // from the waist to the middle of a side, where it is shortest, mm
	Panels   int     // 1, 2 or 4
	Opening  bool    // one of the seams is an opening, or there is a slit
	Hip      float64 // girth that the skirt must clear, ease included, mm; 0 is not checked
	HipDepth float64 // from waist to hip, mm; needed with a hip
	HighHip  HighHip // that it must clear besides

	HemRaise  float64 // how much shorter this layer is than the outer, mm
	Chord     float64 // chord error of the waist, mm; 0 means DefaultChord
	Allowance shapes.Allowance
}

// Radius returns that of the waist, mm.
func (h Handkerchief) Radius() float64 { return h.Waist / (2 * math.Pi) }

// Point returns the length from the waist to a corner, where the skirt is longest, mm.
func (h Handkerchief) Point() float64 {
	return math.Sqrt2*(h.Radius()+h.Length-h.HemRaise) - h.Radius()
}

// Draft returns the one piece with its count.
func (h Handkerchief) Draft() (Result, error) { return named("handkerchief")(h.draft()) }

func (h Handkerchief) draft() (Result, error) {
	if err := h.check(); err != nil {
		return Result{}, err
	}
	if h.Panels == 1 {
		p, err := h.whole()
		return Result{Pieces: []shapes.Piece{p}, Rings: h.rings()}, err
	}
	name, edges := "skirt half", h.halfEdges()
	if h.Panels == 4 {
		name, edges = "skirt quarter", h.quarterEdges()
	}
	p, err := shapes.NewPiece(name, edges)
	if err != nil {
		return Result{}, err
	}
	p.Count = h.Panels
	joins := []shapes.Join{seamOf(name+" to "+name, h.Panels, against(name, "upper seam"),
		along(name, "lower seam"), (h.Length-h.HemRaise)/2)}
	d := Result{Pieces: []shapes.Piece{p}, Joins: joins, Rings: h.rings()}
	return d, d.notch(sideOf(shapes.SewnEdge{Piece: name, Edge: "waist", Copies: h.Panels, Reversed: true}))
}

// whole drafts the square cut in one.
func (h Handkerchief) whole() (shapes.Piece, error) {
	hem := func(name string) side { return side{name + " hem", shapes.Hem, h.Allowance.Hem} }
	half := h.reach()
	p, err := panel{along: 2 * half, across: 2 * half, lower: hem("lower"), far: hem("far"), upper: hem("upper"),
		near: hem("near")}.piece("skirt")
	if err != nil {
		return shapes.Piece{}, err
	}
	centre := orb.Point{h.Allowance.Hem + half, h.Allowance.Hem + half}
	p.Inside = hole(centre, h.Radius(), h.Allowance.Waist, chordError(h.Chord))
	if h.Opening {
		end := h.Radius() + min(slit, (half-h.Radius())/2)
		p.Inside = append(p.Inside, orb.LineString{{centre[0] - h.Radius() + h.Allowance.Waist, centre[1]},
			{centre[0] - end, centre[1]}})
	}
	// Beside the hole, not across it.
	y := centre[1] + (h.Radius()+half)/2
	p.Grain = orb.LineString{{centre[0] - 0.7*half, y}, {centre[0] + 0.7*half, y}}
	return p, nil
}

// reach is half the side of the square, mm.
func (h Handkerchief) reach() float64 { return h.Radius() + h.Length - h.HemRaise }

func (h Handkerchief) edge(name string, kind shapes.EdgeKind, line ...orb.Point) shapes.Edge {
	return shapes.Edge{Name: name, Kind: kind, Line: line, Allowance: h.Allowance.For(kind)}
}

func (h Handkerchief) halfEdges() []shapes.Edge {
	r, half := h.Radius(), h.reach()
	waist := plane.Arc(orb.Point{}, r, math.Pi/2, -math.Pi/2, chordError(h.Chord))
	waist[0], waist[len(waist)-1] = orb.Point{0, r}, orb.Point{0, -r}
	return []shapes.Edge{
		h.edge("lower hem", shapes.Hem, orb.Point{0, -half}, orb.Point{half, -half}),
		h.edge("far hem", shapes.Hem, orb.Point{half, -half}, orb.Point{half, half}),
		h.edge("upper hem", shapes.Hem, orb.Point{half, half}, orb.Point{0, half}),
		h.edge("upper seam", shapes.Seam, orb.Point{0, half}, orb.Point{0, r}),
		h.edge("waist", shapes.Waist, waist...),
		h.edge("lower seam", shapes.Seam, orb.Point{0, -r}, orb.Point{0, -half}),
	}
}

func (h Handkerchief) quarterEdges() []shapes.Edge {
	r, half := h.Radius(), h.reach()
	waist := plane.Arc(orb.Point{}, r, math.Pi/2, 0, chordError(h.Chord))
	waist[0] = orb.Point{0, r}
	return []shapes.Edge{
		h.edge("lower seam", shapes.Seam, orb.Point{r, 0}, orb.Point{half, 0}),
		h.edge("far hem", shapes.Hem, orb.Point{half, 0}, orb.Point{half, half}),
		h.edge("upper hem", shapes.Hem, orb.Point{half, half}, orb.Point{0, half}),
		h.edge("upper seam", shapes.Seam, orb.Point{0, half}, orb.Point{0, r}),
		h.edge("waist", shapes.Waist, waist...),
	}
}

func (h Handkerchief) check() error {
	if err := positive(measured{"waist", h.Waist}, measured{"length", h.Length}); err != nil {
		return err
	}
	if h.Panels != 1 && h.Panels != 2 && h.Panels != 4 {
		return fmt.Errorf("panels: %d, must be 1, 2 or 4", h.Panels)
	}
	if err := cmp.Or(
		checkHem(h.HemRaise, h.Length, h.Chord, h.Allowance),
		checkClears(h.Waist, 1, h.Hip, h.HipDepth, h.HighHip),
		checkWorn(h.rings(), h.Opening, h.Waist, h.Hip),
	); err != nil {
		return err
	}
	return checkInnerRadius("waist", h.Radius(), h.Allowance.Waist)
}

// rings returns the waist where the skirt has no opening, else the end of a slit.
func (h Handkerchief) rings() []Ring {
	rings := pulledOn(h.Opening, h.Waist, h.Hip)
	if h.Opening && h.Panels == 1 {
		rings = append(rings, endOfSlit(h.Waist, h.Length-h.HemRaise, h.Hip))
	}
	return rings
}
