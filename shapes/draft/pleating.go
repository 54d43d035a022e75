package draft

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// PleatStyle is how pleats are folded.
type PleatStyle string

// Styles of pleats.
const (
	KnifePleats    PleatStyle = "knife"    // all folded one way
	BoxPleats      PleatStyle = "box"      // pairs folded away from each other: a box stands on the cloth
	InvertedPleats PleatStyle = "inverted" // pairs folded towards each other, which meet
)

// pleating is a run of straight cloth laid in pleats, all alike. One repeat of it, flat
// and folded, from one seam to the next; V are inner folds, M outer ones, P the lines
// that outer folds are laid on:
//
//	knife   V    P          M    V      box   V   P  P   V   M      M   V
//	        |    |   face   |    |            |   |  |   |   | face |   |
//	        '----+----------+----'            '---+--+---+---+------+---'
//	          d      c        d                 d  gap d   d    c-gap  d
//
// so that a repeat is c + 2 d wide flat where a pleat is folded one way, and c + 4 d
// where a pair is. Inverted pleats are pairs without a gap: both outer folds meet on P.
//
// Seams lie on inner folds, where nobody sees them.
type pleating struct {
	style  PleatStyle
	count  int     // pleats, or pairs of them
	gap    float64 // cloth between neighbouring boxes, folded, mm
	repeat float64 // flat, mm
	levels []pleatLevel
}

// pleatLevel is how wide the run is folded so far down from its upper edge, mm.
type pleatLevel struct {
	down, girth float64
}

// folds is how many a repeat has: two depths of cloth each.
func (p pleating) folds() int {
	if p.style == KnifePleats {
		return 1
	}
	return 2
}

// depth is that of a pleat at a level, from fold to fold, mm: half of what a fold takes
// up of the repeat.
func (p pleating) depth(l pleatLevel) float64 {
	return (p.repeat - l.girth/float64(p.count)) / float64(2*p.folds())
}

// flat is the whole run, mm: its girth folded and two depths for every fold.
func (p pleating) flat() float64 { return p.repeat * float64(p.count) }

// Limits of pleats. Thicker than seven layers no domestic machine sews evenly (from
// memory); shallower than 3 mm is a tuck.
const (
	mostLayers   = 7.0
	leastPleat   = 3.0
	threeLayers  = 3.0 // a pleat that reaches the next: the usual most (common practice)
	mostPleats   = 500
	leastFaceGap = 2.0 // of cloth that shows of a pleat, mm
)

// pleatStyles are all.
var pleatStyles = []PleatStyle{KnifePleats, BoxPleats, InvertedPleats}

// check refuses pleats that cannot be folded, or sewn over in so many layers.
func (p pleating) check(mostLayers float64) error {
	if p.count < 1 || p.count > mostPleats {
		return fmt.Errorf("pleats: %d, must be from 1 to %d", p.count, mostPleats)
	}
	if p.gap > 0 && p.style != BoxPleats {
		return say.Errorf("a gap of %.6g is left between box pleats, %s pleats have none", say.MM(p.gap),
			string(p.style))
	}
	for _, l := range p.levels {
		share := l.girth / float64(p.count)
		face := share - p.gap
		switch d := p.depth(l); {
		case face < leastFaceGap:
			return say.Errorf("%d pleats of a girth of %.1f with gaps of %.6g show %.1f of each, at least %v", p.count,
				say.MM(l.girth), say.MM(p.gap), say.MM(face), say.MM(leastFaceGap)).
				Hint("fewer pleats, or a smaller gap")
		case d < leastPleat:
			return say.Errorf("pleats are %.1f deep where it is %.1f round, at least %v", say.MM(d),
				say.MM(l.girth), say.MM(leastPleat)).
				Hint("deeper pleats, or fewer")
		case p.repeat > mostLayers*share:
			return say.Errorf("%.1f layers lie on each other where it is %.1f round, at most %g", p.repeat/share,
				say.MM(l.girth), mostLayers).
				Hint("shallower pleats, or fewer")
		case p.style != KnifePleats && 2*d < p.depth(p.hung())+leastPleat:
			return say.Errorf("pleats %.1f deep are %.1f deep where it is %.1f round: the seams in them would show",
				say.MM(p.depth(p.hung())), say.MM(d), say.MM(l.girth)).
				Hint("deeper pleats, or a smaller hem sweep")
		}
	}
	return nil
}

// notes say how the pleats are folded, and where they lie over each other.
func (p pleating) notes() []say.Text {
	how := map[PleatStyle]string{
		KnifePleats:    "fold each outer fold onto the placement line beside it, all one way",
		BoxPleats:      "fold both outer folds of a box away from each other, each onto the placement line beside it",
		InvertedPleats: "fold both outer folds of a pair towards each other, onto the one placement line between them",
	}[p.style]
	top, deep := p.levels[0], say.Textf("")
	if hung := p.hung(); hung != top {
		deep = say.Textf(", %.4g at the hip", say.MM(p.depth(hung)))
	}
	notes := []say.Text{say.Textf("%d %s pleats, %.4g deep at the top%v: %s.", p.count, string(p.style),
		say.MM(p.depth(top)), deep, how)}
	if layers := p.repeat * float64(p.count) / p.hung().girth; layers > threeLayers+roundingError {
		notes = append(notes, say.Textf("The pleats lie over each other: %.1f layers.", layers))
	}
	return notes
}

// pleatLine is one that is marked on every repeat.
type pleatLine struct {
	name string
	at   func(l pleatLevel) float64 // from the start of the repeat, mm
}

const (
	outerFold = "outer fold"
	innerFold = "inner fold"
	placement = "placement line"
)

// lines of a repeat from its start on. Faces and gaps keep their middle on the grain: the
// flare of the skirt is taken up on both sides of them alike.
func (p pleating) lines() []pleatLine {
	half := p.repeat / 2
	if p.style == KnifePleats {
		face := func(l pleatLevel) float64 { return l.girth / float64(p.count) / 2 }
		return []pleatLine{
			{placement, func(l pleatLevel) float64 { return half - face(l) }},
			{outerFold, func(l pleatLevel) float64 { return half + face(l) }},
		}
	}
	// The seam is straight, on the inner fold of the level that the depth is given at.
	seam := p.depth(p.hung()) + p.gap/2 // before the middle of the gap
	face := func(l pleatLevel) float64 { return (l.girth/float64(p.count) - p.gap) / 2 }
	box := seam + half // the middle of the box
	all := []pleatLine{
		{placement, func(pleatLevel) float64 { return seam - p.gap/2 }},
		{placement, func(pleatLevel) float64 { return seam + p.gap/2 }},
		{innerFold, func(l pleatLevel) float64 { return seam + p.gap/2 + p.depth(l) }},
		{outerFold, func(l pleatLevel) float64 { return box - face(l) }},
		{outerFold, func(l pleatLevel) float64 { return box + face(l) }},
	}
	if p.gap == 0 {
		return all[1:]
	}
	return all
}

// seam is the inner fold at which a repeat starts.
func (p pleating) seam() pleatLine {
	return pleatLine{innerFold, func(l pleatLevel) float64 {
		if p.style == KnifePleats {
			return 0
		}
		return p.depth(p.hung()) - p.depth(l)
	}}
}

// hung is the level from which pleats hang free.
func (p pleating) hung() pleatLevel {
	if n := len(p.levels); n > 1 {
		return p.levels[n-2]
	}
	return p.levels[0]
}

// taken is what the pleats take up of the run along its upper edge, from its start on.
func (p pleating) taken() shapes.Treatment {
	l := p.levels[0]
	t := shapes.Treatment{Pleats: p.count * p.folds(), PleatDepth: p.depth(l)}
	var at []float64 // of the ends of what is taken up
	var lines []pleatLine
	for _, m := range p.lines() {
		if m.name != innerFold {
			lines = append(lines, m)
		}
	}
	for i := range p.count {
		from := p.repeat * float64(i)
		for _, m := range lines {
			at = append(at, from+m.at(l))
		}
		if p.style == InvertedPleats || p.style == BoxPleats && p.gap == 0 {
			// Both outer folds lie on the one line: it ends and begins what is taken up.
			at = slices.Insert(at, len(at)-len(lines)+1, at[len(at)-len(lines)])
		}
	}
	at = append(append([]float64{0}, at...), p.flat())
	for i := 0; i+1 < len(at); i += 2 {
		t.Folds = append(t.Folds, shapes.Mouth{From: at[i], Width: at[i+1] - at[i]})
	}
	return t
}

// pleated is the run divided up into widths.
type pleated struct {
	pleating
	perWidth []int // repeats in each width, from the start of the run
}

// over divides the run into widths of cloth of whole repeats.
func (p pleating) over(cloth, seam float64) (pleated, error) {
	most := int(math.Floor((cloth - 2*seam) / p.repeat * (1 + 1e-12)))
	if most < 1 {
		return pleated{}, say.Errorf("one repeat of the pleats is %.1f wide flat, more than a width of %.1f takes "+
			"between its seams", say.MM(p.repeat), say.MM(cloth)).
			Hint("shallower pleats, or more of them")
	}
	out := pleated{pleating: p}
	for left := p.count; left > 0; left -= most {
		out.perWidth = append(out.perWidth, min(left, most))
	}
	if len(out.perWidth) > MaxCount {
		return pleated{}, fmt.Errorf("takes %d widths, the most is %d", len(out.perWidth), MaxCount)
	}
	return out, nil
}

// mark draws the folds and placement lines of so many repeats on a piece that runs from
// low y on, one level under the other towards high x; without those on the seams.
func (p pleating) mark(piece *shapes.Piece, origin orb.Point, repeats int, length float64) {
	// The arrow stands on a face, clear of the folds.
	face := p.repeat / 2
	if p.style != KnifePleats {
		face = p.repeat - p.depth(p.hung()) - (p.hung().girth/float64(p.count)-p.gap)/2
	}
	for i := range piece.Grain {
		piece.Grain[i][1] = origin[1] + p.repeat*float64(repeats/2) + face
	}
	for i := range repeats {
		for k, m := range append([]pleatLine{p.seam()}, p.lines()...) {
			if i == 0 && k == 0 {
				continue // the seam
			}
			var line orb.LineString
			for n, l := range p.levels {
				if n > 0 && l.down > length {
					break
				}
				line = append(line, orb.Point{origin[0] + l.down, origin[1] + p.repeat*float64(i) + m.at(l)})
			}
			if last := line[len(line)-1]; last[0] < origin[0]+length {
				line = append(line, orb.Point{origin[0] + length, last[1]})
			}
			piece.Names = append(piece.Names, shapes.LineName{Line: len(piece.Inside), Name: m.name})
			piece.Inside = append(piece.Inside, tidyLine(line))
		}
	}
}

// tidyLine leaves out points within straight stretches.
func tidyLine(line orb.LineString) orb.LineString {
	out := line[:1:1]
	for i := 1; i < len(line); i++ {
		if i+1 < len(line) {
			a, b := sub2(line[i], out[len(out)-1]), sub2(line[i+1], line[i])
			if math.Abs(a[0]*b[1]-a[1]*b[0]) < plane.Lattice {
				continue
			}
		}
		out = append(out, line[i])
	}
	return out
}
