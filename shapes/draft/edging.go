package draft

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// Edging is lace with one worked edge that is laid along straight edges of a draft:
//
//	laid on                        beyond
//	 cloth                          cloth
//	.-.-.-.-.-.  its worked edge   =============  its plain edge, sewn to the edge
//	  lace       along the edge      lace
//	                               .-.-.-.-.-.-.
//
// Its ends, and those of the lengths that it comes in, are lapped. At a corner it is mitred:
// where its outer edge has further to go than the cloth, by a turn of a,
//
//	more = 2 Width tan(a/2)
//
// for each corner; where its inner edge has less, the mitre takes that up.
type Edging struct {
	At     Place
	Width  float64 // mm
	Lap    float64 // of two ends over each other, mm
	Piece  float64 // length of one piece as it is sold, mm; 0: as long as is needed
	Beyond bool    // it is sewn to the edge by its plain edge, and hangs beyond it
}

// Edged is lace as laid.
type Edged struct {
	Edging
	Side    shapes.JoinSide // the edges that it is laid along
	Along   float64         // the length of those, all of one such part, mm
	Corners int             // mitred, of all of them
	Rounds  int             // of rounds that are apart from each other, as the hems of two sleeves
	Joins   int             // laps of lace over lace
	Cut     float64         // of lace in all, mm
}

// Lace does not bend: by how much one of its edges may be longer than the other where it
// is laid in a curve, as a share of that (our own figure: what pressing takes up). A chord
// that turns by more is a corner; one that turns by more than mostTurn is not mitred.
const (
	mostBentLace = 0.02
	cornerTurn   = math.Pi / 9
	mostTurn     = 1.75
	mostJoins    = 500
)

// of reckons the lace of a draft.
func (e Edging) of(d Result) (Edged, error) {
	out := Edged{Edging: e, Rounds: max(d.Rounds, 1)}
	if err := positive(measured{"width of the lace", e.Width}); err != nil {
		return out, err
	}
	if err := notNegative(measured{"lap of the lace", e.Lap}, measured{"length of a piece of lace", e.Piece}); err != nil {
		return out, err
	}
	for _, p := range d.Pieces {
		if err := e.along(p, &out); err != nil {
			return out, say.Errorf("%s: %w", p.Name, err)
		}
	}
	if out.Along == 0 {
		return out, say.Errorf("there is no edge at the %s for lace", string(e.At)).Hint("%s", placesOf(d.Pieces))
	}
	return out, out.join(d.Ends != nil)
}

// along adds the edges of a piece.
func (e Edging) along(p shapes.Piece, out *Edged) error {
	whole := p.Unfold()
	var run orb.LineString
	n := len(whole.Edges)
	closed := true
	for _, edge := range whole.Edges {
		closed = closed && e.At.has(edge)
	}
	start := 0
	for i, edge := range whole.Edges { // begin where a run does
		if e.At.has(edge) && !e.At.has(whole.Edges[(i+n-1)%n]) {
			start = i
		}
	}
	end := func() error {
		if len(run) == 0 {
			return nil
		}
		length, corners, err := e.lay(run, closed)
		out.Along += length * float64(p.Count)
		out.Corners += len(corners) * p.Count
		for _, turn := range corners {
			if (turn > 0) == e.Beyond {
				out.Cut += 2 * e.Width * math.Tan(math.Abs(turn)/2) * float64(p.Count)
			}
		}
		run = nil
		return err
	}
	for i := range n {
		edge := whole.Edges[(start+i)%n]
		if !e.At.has(edge) {
			if err := end(); err != nil {
				return err
			}
			continue
		}
		run = joinLines(run, edge.Line)
	}
	if err := end(); err != nil {
		return err
	}
	for _, edge := range p.Edges {
		if !e.At.has(edge) {
			continue
		}
		for _, d := range p.Darts {
			if d.Edge == edge.Name {
				return say.Errorf("a dart opens on its %s, along which lace is laid", edge.Name).
					Hint("a facing there, or the dart elsewhere")
			}
		}
		out.Side.Edges = append(out.Side.Edges, copiesOf(p, edge.Name)...)
	}
	return nil
}

// lay measures a run of edges and lists the turns at its corners, rad, to the left positive.
func (e Edging) lay(run orb.LineString, closed bool) (length float64, corners []float64, err error) {
	bend := 0.0
	if closed && run[0] == run[len(run)-1] { // its first corner lies between its last chord and its first
		run = append(run, run[1])
	}
	for i := 1; i < len(run); i++ {
		if i < len(run)-1 || !closed {
			length += planar.Distance(run[i-1], run[i])
		}
		if i == 1 {
			continue
		}
		u, v := sub2(run[i-1], run[i-2]), sub2(run[i], run[i-1])
		turn := math.Atan2(u[0]*v[1]-u[1]*v[0], dot(u, v))
		switch {
		case math.Abs(turn) > mostTurn:
			return 0, nil, say.Errorf("its %s turns by %.0f degrees, and lace is mitred up to %.0f", string(e.At),
				math.Abs(turn)*180/math.Pi, mostTurn*180/math.Pi).Hint("end the lace at that corner, by hand")
		case math.Abs(turn) > cornerTurn:
			corners = append(corners, turn)
		default:
			bend += math.Abs(turn)
		}
	}
	if share := bend * e.Width / length; share > mostBentLace {
		return 0, nil, say.Errorf("its %s bends: one edge of lace %.1f wide would be %.0f %% longer than the other, the "+
			"most is %.0f", string(e.At), say.MM(e.Width), 100*share, 100*mostBentLace).
			Hint("lace of at most %.1f lies flat there; a `strip` is gathered on, a `flounce` is cut to the curve",
				say.MM(mostBentLace*length/bend))
	}
	return length, corners, nil
}

// join adds laps: one to close each round, or both ends turned in where it does not go round; and
// those of the pieces that it comes in.
func (e *Edged) join(open bool) error {
	e.Cut += e.Along
	each := e.Cut / float64(e.Rounds)
	e.Joins = e.Rounds
	if open {
		e.Joins = 0
		each += 2 * e.Lap // turned in
	}
	if e.Piece > 0 {
		if e.Piece <= 2*e.Lap {
			return say.Errorf("a piece of lace %.1f long has no room for two laps of %.1f", say.MM(e.Piece), say.MM(e.Lap)).
				Hint("longer pieces, or less of a lap")
		}
		pieces := math.Ceil(each/(e.Piece-e.Lap) - 1e-9)
		if open {
			pieces = math.Max(1, math.Ceil((each-e.Lap)/(e.Piece-e.Lap)-1e-9))
			e.Joins += int(pieces-1) * e.Rounds
		} else {
			e.Joins = int(pieces) * e.Rounds
		}
		if pieces > mostJoins {
			return say.Errorf("%.0f pieces of lace, at most %d", pieces, mostJoins).Hint("longer pieces")
		}
	}
	e.Cut = each*float64(e.Rounds) + float64(e.Joins)*e.Lap
	return nil
}

// note says how it is laid.
func (e Edged) note() say.Text {
	how := "with its worked edge along the edge of the cloth"
	if e.Beyond {
		how = "sewn on by its plain edge"
	}
	text := say.Textf("Lace %.1f wide along the %s, %s: %.1f in all, on %.1f of edge", say.MM(e.Width), string(e.At), how,
		say.MM(e.Cut), say.MM(e.Along))
	if e.Joins > 0 {
		text = say.Textf("%v, joins: %d, lapped by %.1f", text, e.Joins, say.MM(e.Lap))
	}
	if e.Corners > 0 {
		text = say.Textf("%v, corners to mitre: %d", text, e.Corners)
	}
	return say.Textf("%v.", text)
}
