package draft

import (
	"yardlay/shapes"
	"yardlay/shapes/plane"
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
		b.mark(&p, i, edges)
		pieces = append(pieces, p)
	}
	wedges, into, err := b.gussetPieces()
	if err != nil {
		return Result{}, err
	}
	d := Result{Pieces: append(pieces, wedges...), Joins: append(into, b.joins(names)...),
		Gusseted:  b.gusseted(),
		EasePleat: b.EasePleat, Bones: b.bones(), Tapes: b.tapes(), LacingGap: b.LacingGap}
	if b.laced && b.Channel > 0 {
		d.EyeletsIn, d.LacedAt = b.Channel+eyeletStrip/2.0, "centre back"
		if b.backSeam {
			d.LacedAt = "centre front"
		}
	}
	if b.bottomEdge.kind != shapes.Waist {
		return d, d.notch()
	}
	d.Waist = b.lowerAround()
	return d, d.notch(pinnedPleat(d.Waist, b.EasePleat))
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
	if b.backSeam || b.Facing == 0 && !b.laced {
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

// lowerAround strings the lower edges of the panels as they are sewn at the waist, round
// the body from the centre back, facings laid back.
func (b *panelled) lowerAround() shapes.JoinSide {
	var half []shapes.SewnEdge
	for _, name := range panelNames(len(b.shares)) {
		half = append([]shapes.SewnEdge{against(name+" panel", b.bottomEdge.name)}, half...)
	}
	s := shapes.JoinSide{Edges: thereAndBack(half), Treatment: lapAtEnds(b.Facing)}
	if b.EasePleat > 0 {
		s.Treatment.Pleats, s.Treatment.PleatDepth = 1, b.EasePleat
	}
	return s
}
