package draft

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// maxGores is the most gores a skirt is cut in; more is a slip of the pen.
const maxGores = 100

// gore is the finished shape of one panel of a skirt, symmetrical about the x
// axis. The flank is its upper seam line, from waist to hem; the lower one is its
// mirror image. Waist and hem are arcs that meet the flanks at right angles.
//
//	            ___---\
//	  waist .--" flank \ hem
//	--------)-----------)----- x, the grain
//	        "--.__     /
//	              """-/
type gore struct {
	flank      orb.LineString // mm
	waist, hem float64        // angles of the flank's ends to the grain, rad
	chord      float64        // chord error, mm
	trained    orb.LineString // instead of the arc at the hem, from the lower seam to the upper one; mm
}

// skirt is what the gores of a skirt have in common.
type skirt struct {
	gores     int
	opening   bool             // the centre back seam is one
	allowance shapes.Allowance // mm
	notches   []float64        // distances from the waist along every seam, mm
	list      []place          // from the back to the front
	onFold    bool             // a gore at the centre front lies on a fold
}

// checkGores refuses a number of gores that nobody cuts.
func checkGores(n int) error {
	if n < 1 || n > maxGores {
		return fmt.Errorf("gores: %d, must be from 1 to %d", n, maxGores)
	}
	return nil
}

// folded says whether what hangs at a place lies on a fold.
func (s skirt) folded(p place) bool { return s.onFold && !p.pair }

// piece makes that of a place from its shape; half of it where it lies on a fold.
func (s skirt) piece(p place, g gore) (shapes.Piece, error) {
	onFold := s.folded(p)
	upper, lower := s.seams(p, onFold)
	edges := g.whole(upper, lower, s.allowance)
	if onFold {
		edges = g.half(upper, s.allowance)
	}
	piece, err := shapes.NewPiece(p.pieceName(), edges)
	if err != nil {
		return shapes.Piece{}, err
	}
	if p.pair {
		piece.Count, piece.Pair, piece.Labels = 2, true, []string{"left", "right"}
	}
	return piece, nil
}

// seams names the upper and the lower seam of the gore at a place. Seen from
// outside with the waist up the piece as drawn has its upper seam on the right,
// so a gore of the left half has its back there.
func (s skirt) seams(p place, onFold bool) (upper, lower shapes.Edge) {
	upper.Allowance, lower.Allowance = s.allowance.For(shapes.Seam), s.allowance.For(shapes.Seam)
	switch {
	case p.pair:
		upper.Name, lower.Name = "back seam", "front seam"
		if p.back == 0 {
			upper.Name = "centre back"
		}
		if 2*(p.back+1) == s.gores {
			lower.Name = "centre front"
		}
	case p.wide == s.gores && onFold:
		upper.Name = "centre back"
	case p.wide == s.gores:
		upper.Name, lower.Name = "left centre back", "right centre back"
	case onFold:
		upper.Name = "side seam"
	default:
		upper.Name, lower.Name = "left seam", "right seam"
	}
	if s.opening && p.back == 0 {
		upper.Kind = shapes.Opening
		if !p.pair {
			lower.Kind = shapes.Opening
		}
	}
	return upper, lower
}

// whole returns the edges of the gore; upper and lower give the seams' names,
// kinds and allowances.
func (g gore) whole(upper, lower shapes.Edge, a shapes.Allowance) []shapes.Edge {
	n := len(g.flank) - 1
	mirror := plane.MirrorLine(g.flank, 0)
	slices.Reverse(mirror)
	lower.Line = mirror
	upper.Line = slices.Clone(g.flank)
	slices.Reverse(upper.Line)
	hem := squareArc(g.flank[n], g.hem, g.chord)
	slices.Reverse(hem)
	if g.trained != nil {
		hem = g.trained
		lower.Line[n], upper.Line[0] = hem[0], hem[len(hem)-1]
	}
	return []shapes.Edge{
		lower,
		{Name: "hem", Kind: shapes.Hem, Line: hem, Allowance: a.For(shapes.Hem)},
		upper,
		{Name: "waist", Kind: shapes.Waist, Line: squareArc(g.flank[0], g.waist, g.chord),
			Allowance: a.For(shapes.Waist)},
	}
}

// half returns the edges of the gore's upper half on a fold along the axis.
func (g gore) half(upper shapes.Edge, a shapes.Allowance) []shapes.Edge {
	edges := g.whole(upper, shapes.Edge{}, a)
	fold, hem, waist := &edges[0], &edges[1], &edges[3]
	hem.Line = upperHalf(hem.Line)
	slices.Reverse(waist.Line)
	waist.Line = upperHalf(waist.Line)
	slices.Reverse(waist.Line)
	*fold = shapes.Edge{Name: "fold", Kind: shapes.Fold,
		Line: orb.LineString{waist.Line[len(waist.Line)-1], hem.Line[0]}}
	return edges
}

// upperHalf returns the part of a symmetrical line above the axis, upward from it.
func upperHalf(line orb.LineString) orb.LineString {
	n := len(line)
	half := slices.Clone(line[n/2:])
	if n%2 == 1 {
		half[0][1] = 0
		return half
	}
	// The axis halves a chord.
	return append(orb.LineString{{half[0][0], 0}}, half...)
}

// squareArc returns the arc, symmetrical about the x axis, from p above the axis
// to its mirror image, that crosses the line of the given angle to the axis at p,
// and its mirror image, at right angles. Angles reach to half a turn, exclusive;
// a negative one bulges to the left.
func squareArc(p orb.Point, angle, chord float64) orb.LineString {
	mirror := orb.Point{p[0], -p[1]}
	if math.Abs(angle) < 1e-9 {
		return orb.LineString{p, mirror}
	}
	radius, from, to := p[1]/math.Sin(math.Abs(angle)), angle, -angle
	centre := orb.Point{p[0] - radius*math.Cos(angle), 0}
	if angle < 0 {
		centre[0] = p[0] + radius*math.Cos(angle)
		from, to = math.Pi+angle, math.Pi-angle
	}
	line := plane.Arc(centre, radius, from, to, chord)
	line[0], line[len(line)-1] = p, mirror
	return line
}

// pieceName is the place with what hangs there.
func (p place) pieceName() string {
	if p.wide > 0 && p.name == "skirt" || p.name == "skirt half" {
		return p.name
	}
	return p.name + " " + cmp.Or(p.cut, "gore")
}
