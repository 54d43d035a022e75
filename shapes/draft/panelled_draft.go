package draft

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// panelNames names the panels of a half body from the front to the back.
func panelNames(half int) []string {
	switch half {
	case 3:
		return []string{"front", "side", "back"}
	case 4:
		return []string{"front", "side front", "side back", "back"}
	case 5:
		return []string{"front", "side front", "side", "side back", "back"}
	}
	return []string{"centre front", "front", "side front", "side back", "back", "centre back"}
}

// draft makes the panels from the centre front to the centre back, and their joins.
func (b *panelled) draft() (Result, error) {
	var pieces []shapes.Piece
	names := panelNames(len(b.shares))
	for i, name := range names {
		edges := b.edges(i)
		p, err := shapes.NewPiece(name+" panel", edges)
		if err != nil {
			return Result{}, err
		}
		if i > 0 || !b.FrontOnFold {
			p.Count, p.Pair, p.Labels = 2, true, []string{"left", "right"}
		}
		p.Mark(edges, b.marks(i)...)
		pieces = append(pieces, p)
	}
	d := Result{Pieces: pieces, Joins: b.joins(names), Bones: b.bones()}
	if b.laced && b.Channel > 0 {
		d.EyeletsIn = b.Channel + eyeletStrip/2.0
	}
	if b.bottomEdge.kind != shapes.Waist {
		return d, d.notch()
	}
	d.Waist = b.lowerAround()
	return d, d.notch(d.Waist)
}

// joins returns the seams from the centre front to the centre back, notched at
// the bust, the under-bust and the waist.
func (b *panelled) joins(names []string) []shapes.Join {
	var out []shapes.Join
	sewn := func(i int, edge string, reversed bool) shapes.SewnEdge {
		return shapes.SewnEdge{Piece: names[i] + " panel", Edge: edge, Reversed: reversed}
	}
	if !b.FrontOnFold {
		front := sewn(0, "centre front", false)
		out = append(out, seamOf("centre front", 1, front, front, b.straightMarks(-1, 0)...))
	}
	for k := range b.springs {
		name := names[k] + " to " + names[k+1]
		out = append(out, seamOf(name, 2, sewn(k, "back seam", true), sewn(k+1, "front seam", false),
			b.seamMarks(k)...))
	}
	if b.Facing == 0 && !b.laced {
		back := sewn(len(names)-1, "centre back", true)
		out = append(out, seamOf("centre back", 1, back, back, b.straightMarks(len(b.springs), 1)...))
	}
	return out
}

// seamMarks returns the notches of the levels along the seam behind panel k, from the top.
func (b *panelled) seamMarks(k int) []float64 {
	line := b.seam(k)
	var out []float64
	for _, l := range b.levels[atBust : atWaist+1] {
		for i := 1; i < len(line)-1; i++ {
			if line[i][0] == l.x {
				out = append(out, plane.Length(line[:i+1]))
			}
		}
	}
	return b.notched(k, out)
}

// notched sets notches at distances along the seam behind panel k; the centre front is
// that behind panel -1.
func (b *panelled) notched(k int, distances []float64) []float64 {
	behind := 1 // with the centre back
	for i := range b.springs {
		if b.position(i+1) > 0.5 {
			behind++
		}
	}
	return seamNotches(len(b.springs)-k, behind, distances...)
}

// straightMarks returns the notches of the levels from the top behind panel k, at a
// position where the edge is straight.
func (b *panelled) straightMarks(k int, position float64) []float64 {
	var out []float64
	for _, l := range b.levels[atBust : atWaist+1] {
		if top, bottom := b.top.at(position), b.bottom.at(position); l.x > top && l.x < bottom {
			out = append(out, l.x-top)
		}
	}
	return b.notched(k, out)
}

// boneClear is how far a boning channel ends from the finished edge, mm: bones are
// cut short of the edges that are turned or bound (common practice).
const boneClear = 8

// eyeletStrip is the room for eyelets between two bones at a laced centre back, mm
// (common practice).
const eyeletStrip = 15

// marks returns the lines inside panel i: the centre back where a facing is grown
// on, and the boning channels.
func (b *panelled) marks(i int) []orb.LineString {
	var out []orb.LineString
	last := i == len(b.springs)
	if _, upper := b.bounds(i, b.levels[atWaist].x); last && b.Facing > 0 {
		out = append(out, orb.LineString{{b.top.at(1), upper}, {b.bottom.at(1), upper}})
	}
	c := b.Channel
	if c == 0 {
		return out
	}
	// Along the seam behind: its own stitches are the other wall.
	walls := b.walls(i)
	for _, d := range walls {
		out = append(out, b.channelLine(i, func(x float64) orb.Point {
			_, upper := b.bounds(i, x)
			_, beside := b.bounds(i, x+0.01)
			lean := math.Atan2(beside-upper, 0.01)
			return orb.Point{x + d*math.Sin(lean), upper - d*math.Cos(lean)}
		}))
	}
	if b.MidBones {
		taken := 0.0 // of a laced centre back, by its bones
		if len(walls) > 1 {
			taken = walls[len(walls)-1]
		}
		for _, d := range []float64{-c / 2, c / 2} {
			out = append(out, b.channelLine(i, func(x float64) orb.Point {
				lower, upper := b.bounds(i, x)
				return orb.Point{x, (lower+upper-taken)/2 + d}
			}))
		}
	}
	return out
}

// walls returns how far from the seam behind panel i, or from the centre back, the
// walls of the channels beside it run, mm.
func (b *panelled) walls(i int) []float64 {
	c := b.Channel
	if i == len(b.springs) && b.laced {
		return []float64{c, c + eyeletStrip, 2*c + eyeletStrip}
	}
	return []float64{c}
}

// checkChannels refuses boning channels that would run into each other or out of
// their panel.
func (b *panelled) checkChannels() error {
	c := b.Channel
	if c == 0 {
		return nil
	}
	for i, name := range panelNames(len(b.shares)) {
		walls := b.walls(i)
		needs := walls[len(walls)-1]
		if b.MidBones && len(walls) > 1 {
			needs += c
		} else if b.MidBones { // in the middle of the panel, the one at the seam above it
			needs = 3 * c
		}
		for _, l := range b.levels {
			if lower, upper := b.bounds(i, l.x); upper-lower < needs {
				return say.Errorf("boning channels of %.1f take %.1f of the %s panel, %.1f wide at the %s", say.MM(c),
					say.MM(needs), name, say.MM(upper-lower), l.name).
					Hint("narrower channels, fewer panels, or none in the middle")
			}
		}
	}
	return nil
}

// channelLine draws a line of panel i from clear of its top to clear of its bottom.
func (b *panelled) channelLine(i int, curve func(x float64) orb.Point) orb.LineString {
	at := func(x float64) float64 {
		lower, upper := b.bounds(i, x)
		return b.position(i) + b.shares[i]*(curve(x)[1]-lower)/(upper-lower)
	}
	from, to := b.levels[atOverBust].x, b.levels[len(b.levels)-1].x
	for range 8 { // where the line meets top and bottom: both are nearly level
		from, to = b.top.at(at(from)), b.bottom.at(at(to))
	}
	return sampled(curve, from+boneClear, to-boneClear, b.chord)
}

// lowerAround strings the lower edges of the panels as they are sewn at the waist, round
// the body from the centre back, facings laid back.
func (b *panelled) lowerAround() shapes.JoinSide {
	var half []shapes.SewnEdge
	for _, name := range panelNames(len(b.shares)) {
		half = append([]shapes.SewnEdge{against(name+" panel", b.bottomEdge.name)}, half...)
	}
	return shapes.JoinSide{Edges: thereAndBack(half), Treatment: lapAtEnds(b.Facing)}
}
