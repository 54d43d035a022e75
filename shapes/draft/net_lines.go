package draft

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// lineName is what the seam line of a layer is called, 1 the lowest on its skirt.
func (n NetLayers) lineName(layer int) string { return fmt.Sprintf("net %d", n.Skirt.lines+layer) }

// markReach is half the length of a stroke over a seam line, mm: seen beside gathers.
const markReach = 10

// MarkSkirt draws the seam line of each layer on the pieces of the skirt that OnSkirt
// was given, by its name, and a stroke over it where the layer is pinned and no seam
// marks the place.
func (n NetLayers) MarkSkirt(pieces []shapes.Piece) error {
	if n.Skirt.climbed == nil {
		return ErrNotOnSkirt
	}
	layers, err := n.plan()
	if err != nil {
		return err
	}
	for _, l := range layers {
		from := 0.0 // the girth from the centre back to the piece, mm
		for i := range pieces {
			p := &pieces[i]
			line, span := n.Skirt.climbed.across(*p, i, l.Depth), n.Skirt.climbed.span(i, l.Depth)
			p.Names = append(p.Names, shapes.LineName{Line: len(p.Inside), Name: n.lineName(l.Layer)})
			p.Inside = append(p.Inside, line)
			shown := span
			if p.OnFold {
				shown /= 2
			}
			for k, q := range l.Quarters {
				if of := (q - from) / shown; l.Seams[k] == "" && of > 0 && of < 1 {
					p.Inside = append(p.Inside, strokeOver(line, of, l.Depth))
				}
			}
			from += span
		}
	}
	return nil
}

// strokeOver crosses a line at a share of it, of which the waist lies so far above.
func strokeOver(line orb.LineString, of, depth float64) orb.LineString {
	e := shapes.Edge{Line: line}
	at, up := e.At(of * e.Length())
	above := min(depth, markReach)
	return orb.LineString{{at[0] + above*up[0], at[1] + above*up[1]},
		{at[0] - markReach*up[0], at[1] - markReach*up[1]}}
}

func (c CircleSkirt) gores() []place { return places(c.Gores, c.FrontOnFold) }

func (c CircleSkirt) span(gore int, depth float64) float64 {
	waist, _ := c.Radii()
	return c.goreAngle(c.gores()[gore].wide) * (waist + depth)
}

func (c CircleSkirt) across(p shapes.Piece, gore int, depth float64) orb.LineString {
	waist, hem := c.Radii()
	radius, chord := waist+depth, c.chord()
	if c.inOne() {
		rim := p.Edges[0].Line[0]
		return plane.Arc(orb.Point{rim[0] + hem, rim[1]}, radius, math.Pi, -math.Pi, chord)
	}
	back := p.Edges[2].Line // from the hem to the waist
	end, before := back[len(back)-1], back[len(back)-2]
	from := c.goreAngle(c.gores()[gore].wide) / 2
	to := -from
	if p.OnFold {
		to = 0
	}
	run := math.Hypot(end[0]-before[0], end[1]-before[1])
	centre := orb.Point{end[0] + (end[0]-before[0])/run*waist, end[1] + (end[1]-before[1])/run*waist}
	return plane.Arc(centre, radius, from, to, chord)
}

// climbedGores is a gored skirt as drawn, with the flanks of its gores.
type climbedGores struct {
	skirt       GoredSkirt
	list        []place
	back, front curve // front is that of a gore at the centre front
}

func (g GoredSkirt) fitted() (*climbedGores, error) {
	if err := g.check(); err != nil {
		return nil, err
	}
	drawn, _, err := g.fit()
	if err != nil {
		return nil, err
	}
	c := &climbedGores{skirt: drawn, list: places(g.Gores, false)}
	back, front := drawn.hems()
	if c.back, err = drawn.flank(back); err != nil {
		return nil, err
	}
	c.front, err = drawn.flank(front)
	return c, err
}

func (c *climbedGores) gores() []place { return c.list }

func (c *climbedGores) flank(gore int) curve {
	if gore == len(c.list)-1 {
		return c.front
	}
	return c.back
}

func (c *climbedGores) waist() float64 { return c.skirt.Waist / float64(c.skirt.Gores) }

func (c *climbedGores) span(gore int, depth float64) float64 {
	return c.flank(gore).goreAt(c.waist(), depth)
}

// across returns the arc that meets both seams squarely, as girths are measured.
func (c *climbedGores) across(p shapes.Piece, gore int, depth float64) orb.LineString {
	whole := c.flank(gore)
	above := whole.upTo(depth)
	chord := chordError(c.skirt.Chord)
	flank := above.line(c.waist()/2*sinc(whole[0].from), chord)
	angle := whole[0].from
	if len(above) > 0 {
		angle = above[len(above)-1].to
	}
	line := squareArc(flank[len(flank)-1], angle, chord)
	back := p.Edges[2].Line // from the hem to the waist
	corner := back[len(back)-1]
	plane.MoveLine(line, orb.Point{corner[0] - flank[0][0], corner[1] - flank[0][1]})
	return line
}
