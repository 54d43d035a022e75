package draft

import (
	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// A two-piece sleeve is divided along a front and a back seam, a fifth of the bicep on
// both sides of the underarm, and has no seam there:
//
//	    .--""--.                upper: the cap between its seams
//	.--'        '--.            under: both ends of the cap, joined at the underarm;
//	|     upper    |               drawn from outside, its back on the lower side
//	 \   elbow      \
//	  \______________\          both bend to the front below the elbow
//
// Upper and under have the same curves for seams, so that these agree; each comes in by
// half of what the hem is narrower than the bicep. Shares from memory of tailors' drafts.
const (
	underShare = 0.2 // of the bicep, on each side of the underarm
	elbowBend  = 0.1 // of the depth below the elbow, by which the hem lies further in front
	leastUnder = 30  // width of the under sleeve at its hem, mm
)

// divided is the two pieces of a sleeve.
type divided struct {
	s     Sleeve
	c     sleeveCap
	width float64 // of the under sleeve on each side of the underarm, mm
}

// split samples one half of the cap down to the seam, and on from there to the underarm.
func (d divided) split(width float64) (upper, under orb.LineString) {
	half := capHalf(d.c.height, width)
	t := bisect(func(t float64) float64 { return half.at(t)[1] - (width - d.width) }, 0, 1, 60)
	chord := chordError(d.s.Chord)
	return sampled(half.at, 0, t, chord), sampled(half.at, t, 1, chord)
}

// seam runs from a point of the cap to the hem; in is +1 where y grows into the piece, front
// is the way to the front.
func (d divided) seam(from orb.Point, in, front float64) orb.LineString {
	end := d.s.Length - d.s.HemRaise
	elbow := d.c.height + (d.s.Length-d.c.height)*elbowAt
	lean := (d.s.Bicep - d.s.Hem) / 4 / (d.s.Length - d.c.height)
	line := sampled(func(x float64) orb.Point {
		y := from[1] + in*lean*max(0, x-d.c.height)
		if below := x - elbow; below > 0 {
			y += front * elbowBend * below * below / (d.s.Length - elbow)
		}
		return orb.Point{x, y}
	}, d.c.height, end, chordError(d.s.Chord))
	return append(orb.LineString{from}, line...)
}

// piece makes one of its lower seam, its upper one, and the two parts of its cap from the
// upper seam on.
func (d divided) piece(name string, names [2]string, lower, upper orb.LineString,
	caps [2]orb.LineString,
) (shapes.Piece, error) {
	a := d.s.Allowance
	hem := orb.LineString{lower[len(lower)-1], upper[len(upper)-1]}
	upper.Reverse()
	p, err := shapes.NewPiece(name, []shapes.Edge{
		{Name: names[0] + " seam", Line: lower, Allowance: a.For(shapes.Seam)},
		{Name: "hem", Kind: shapes.Hem, Line: hem, Allowance: a.For(shapes.Hem)},
		{Name: names[1] + " seam", Line: upper, Allowance: a.For(shapes.Seam)},
		{Name: names[1] + " cap", Line: caps[0], Allowance: a.For(shapes.Seam)},
		{Name: names[0] + " cap", Line: caps[1], Allowance: a.For(shapes.Seam)},
	})
	p.Count, p.Pair, p.Labels = 2, true, []string{"left", "right"}
	return p, err
}

const upperSleeve, underSleeve = "upper sleeve", "under sleeve"

// twoPiece drafts the sleeve in two.
func (s Sleeve) twoPiece() (Result, error) {
	c, err := s.cap()
	if err != nil {
		return Result{}, err
	}
	if below := s.Length - c.height - s.HemRaise; below < leastSeam {
		return Result{}, say.Errorf("a cap of %.1f leaves %.1f below the underarm, needs %v", say.MM(c.height),
			say.MM(below), say.MM(leastSeam)).
			Hint("a longer sleeve, or a wider bicep for a lower cap")
	}
	if under := 2*underShare*s.Bicep - (s.Bicep-s.Hem)/2; under < leastUnder {
		return Result{}, say.Errorf("a hem of %.1f leaves %.1f of it to the under sleeve, needs %v", say.MM(s.Hem),
			say.MM(under), say.MM(leastUnder)).
			Hint("a wider hem, or less ease of the bicep")
	}
	d := divided{s: s, c: c, width: underShare * s.Bicep}
	front, underFront := d.split(c.front)
	back, underBack := d.split(c.back)
	// The upper sleeve has its front on the lower side.
	front = plane.MirrorLine(front, 0) // from the seam to the crown
	lower, upper := d.seam(front[0], 1, -1), d.seam(back[len(back)-1], -1, -1)
	front.Reverse()
	back.Reverse()
	top, err := d.piece(upperSleeve, [2]string{"front", "back"}, lower, upper, [2]orb.LineString{back, front})
	if err != nil {
		return Result{}, err
	}
	// The under sleeve has its back there, the underarm at y = 0.
	plane.MoveLine(underBack, orb.Point{0, -c.back}) // from the seam to the underarm
	underFront = plane.MirrorLine(underFront, c.front/2)
	underFront.Reverse() // from the seam to the underarm
	lower, upper = d.seam(underBack[0], 1, 1), d.seam(underFront[0], -1, 1)
	underBack.Reverse()
	bottom, err := d.piece(underSleeve, [2]string{"back", "front"}, lower, upper, [2]orb.LineString{underFront, underBack})
	if err != nil {
		return Result{}, err
	}
	return d.sewn(top, bottom)
}

// sewn joins both pieces, notched at the elbow and in the cap.
func (d divided) sewn(top, bottom shapes.Piece) (Result, error) {
	out := Result{Pieces: []shapes.Piece{top, bottom}, Rings: d.s.rings(), Rounds: 2}
	seam, _ := top.Edge("front seam")
	out.Joins = []shapes.Join{
		seamOf("front seam", 2, along(upperSleeve, "front seam"), against(underSleeve, "front seam"), seam.Length()/2),
		seamOf("back seam", 2, against(upperSleeve, "back seam"), along(underSleeve, "back seam"), seam.Length()/2,
			seam.Length()/2+notchPair),
	}
	out.Cap = shapes.JoinSide{
		Edges: []shapes.SewnEdge{against(underSleeve, "front cap"), against(upperSleeve, "front cap"),
			against(upperSleeve, "back cap"), against(underSleeve, "back cap")},
		Treatment: shapes.Treatment{Ease: d.s.CapEase},
	}
	if err := out.Cap.Notch(out.Pieces, armholeMarks(d.s.FrontArmhole, d.s.BackArmhole)); err != nil {
		return Result{}, err
	}
	return out, out.notch()
}
