package draft

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Bone is what goes into a boning channel. Lengths are in mm, along the channel.
type Bone struct {
	Channel string  // where it runs: "front to side front", "middle of the side panel"
	Count   int     // alike: on the left and on the right
	Edge    float64 // from finished edge to finished edge
	Ends    float64 // how far the bone ends from each
	Length  float64 // of the bone: Edge less both ends
	Casing  float64 // of a tape sewn on for it, caught in both edges: Edge and their allowances
}

// Tape is a tape that is sewn on inside.
type Tape struct {
	Name   string
	Count  int     // alike
	Width  float64 // mm
	Length float64 // from finished edge to finished edge, mm
	Ends   float64 // on top of that at each end, mm
}

// Cut is how long each is cut, mm.
func (t Tape) Cut() float64 { return t.Length + 2*t.Ends }

// DefaultBoneEnds is how far a bone ends from the finished edge, mm: bones are cut short of
// the edges that are turned or bound (common practice).
const DefaultBoneEnds = 8

// eyeletStrip is the room for eyelets between two bones at a laced edge, mm (common
// practice).
const eyeletStrip = 15

// channel is a boning channel of a panel.
type channel struct {
	name  string
	walls []func(x float64) orb.Point // stitched on both sides, or along a seam on one
}

// boneEnds is how far bones end from the finished edges, mm.
func (p PanelledBody) boneEnds() float64 {
	if p.BoneEnds == 0 {
		return DefaultBoneEnds
	}
	return p.BoneEnds
}

// channels returns those of panel i: along a laced centre front, along the seam behind it,
// and in its middle.
func (b *panelled) channels(i int) []channel {
	c := b.Channel
	if c == 0 {
		return nil
	}
	names := panelNames(len(b.shares))
	var out []channel
	front := i == 0 && b.laced && b.backSeam
	if front {
		out = append(out, channel{"centre front, at the edge", b.beside(i, -1, c)},
			channel{"centre front, beyond the eyelets", b.beside(i, -1, c+eyeletStrip, 2*c+eyeletStrip)})
	}
	back := i == len(b.springs) && b.laced && !b.backSeam
	switch {
	case i < len(b.springs): // its own stitches are the other wall
		out = append(out, channel{names[i] + " to " + names[i+1], b.beside(i, 1, c)})
	case back:
		out = append(out, channel{"centre back, at the edge", b.beside(i, 1, c)},
			channel{"centre back, beyond the eyelets", b.beside(i, 1, c+eyeletStrip, 2*c+eyeletStrip)})
	default:
		out = append(out, channel{"centre back", b.beside(i, 1, c)})
	}
	if !b.MidBones || b.slitIn(i) {
		return out
	}
	taken := 0.0 // of a laced edge, by its bones
	switch {
	case back:
		taken = 2*c + eyeletStrip
	case front:
		taken = -(2*c + eyeletStrip)
	}
	middle := channel{name: "middle of the " + names[i] + " panel"}
	for _, d := range []float64{-c / 2, c / 2} {
		middle.walls = append(middle.walls, func(x float64) orb.Point {
			lower, upper := b.bounds(i, x)
			return orb.Point{x, (lower+upper-taken)/2 + d}
		})
	}
	return append(out, middle)
}

// beside returns lines at distances (mm) inside panel i beside its edge behind, or in front
// where sign is -1.
func (b *panelled) beside(i int, sign float64, distances ...float64) []func(x float64) orb.Point {
	edge := func(x float64) float64 {
		lower, upper := b.bounds(i, x)
		if sign < 0 {
			return lower
		}
		return upper
	}
	var out []func(x float64) orb.Point
	for _, d := range distances {
		out = append(out, func(x float64) orb.Point {
			at := edge(x)
			lean := math.Atan2(edge(x+0.01)-at, 0.01)
			return orb.Point{x + sign*d*math.Sin(lean), at - sign*d*math.Cos(lean)}
		})
	}
	return out
}

// checkChannels refuses boning channels that would run into each other or out of
// their panel.
func (b *panelled) checkChannels() error {
	c := b.Channel
	if c == 0 {
		return nil
	}
	for i, name := range panelNames(len(b.shares)) {
		needs := c
		if b.MidBones && !b.slitIn(i) {
			needs = 3 * c // in the middle of the panel, the one at the seam above it
		}
		back := i == len(b.springs) && !b.backSeam
		if b.laced && (back || i == 0 && b.backSeam) {
			needs = 2*c + eyeletStrip
			if i == 0 {
				needs += c // at its other seam
			}
			if b.MidBones && !b.slitIn(i) {
				needs += c
			}
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

// within draws a line of panel i from its top to its lower edge.
func (b *panelled) within(i int, curve func(x float64) orb.Point) orb.LineString {
	// off is how far above an edge the line is at x, along the grain.
	off := func(c contour, x float64) float64 {
		v := curve(x)
		lower, upper := b.bounds(i, v[0])
		return c.at(b.position(i)+b.shares[i]*(v[1]-lower)/(upper-lower)) - v[0]
	}
	// A steep edge and a seam that leans cross where no fixed point is: halve. The waist lies
	// between them, or is the lower edge.
	meets := func(c contour, above, below float64) float64 {
		for range 40 {
			if middle := (above + below) / 2; off(c, middle) > 0 {
				above = middle
			} else {
				below = middle
			}
		}
		return (above + below) / 2
	}
	const beyond = mostChannel * 4
	from := meets(b.top, b.levels[atOverBust].x-b.FrontPeak-beyond, b.levels[atUnderBust].x+beyond)
	to := meets(b.bottom, b.levels[atUnderBust].x-beyond, b.levels[len(b.levels)-1].x+b.FrontPoint+beyond)
	return sampled(curve, from, to, b.chord)
}

// trimmed is a line without so much of both its ends, mm, which is less than all of it.
func trimmed(line orb.LineString, ends float64) orb.LineString {
	e := shapes.Edge{Line: line}
	whole, at := e.Length(), 0.0
	first, _ := e.At(ends)
	last, _ := e.At(whole - ends)
	out := orb.LineString{first}
	for i := 1; i < len(line)-1; i++ {
		if at += planar.Distance(line[i-1], line[i]); at > ends+1e-9 && at < whole-ends-1e-9 {
			out = append(out, line[i])
		}
	}
	return append(out, last)
}

// mark marks panel i: the centre back where a facing is grown on, the boning channels, the
// waist tape, and the slits of gussets.
func (b *panelled) mark(p *shapes.Piece, i int, edges []shapes.Edge) {
	waist := b.levels[atWaist].x
	lower, upper := b.bounds(i, waist)
	if i == len(b.springs) && b.Facing > 0 {
		p.Mark(edges, orb.LineString{{b.top.at(1), upper}, {b.bottom.at(1), upper}})
	}
	if i == len(b.springs) && b.EasePleat > 0 {
		p.Names = append(p.Names, shapes.LineName{Line: len(p.Inside), Name: centreLine})
		p.Mark(edges, orb.LineString{{b.top.at(1), upper}, {b.bottom.at(1), upper}})
	}
	for _, c := range b.channels(i) {
		for _, wall := range c.walls {
			p.Mark(edges, trimmed(b.within(i, wall), b.boneEnds()))
		}
	}
	if b.WaistTape > 0 && b.bottom.at(b.position(i)+b.shares[i]/2) > waist+1 {
		p.Names = append(p.Names, shapes.LineName{Line: len(p.Inside), Name: waistTape})
		p.Mark(edges, orb.LineString{{waist, lower}, {waist, upper}})
	}
	b.markSlits(p, i, edges)
}

// bones measures the channels, from the centre front to the centre back; a bone is as long
// as the longer wall of its channel.
func (b *panelled) bones() []Bone {
	var all []Bone
	for i := range b.shares {
		for _, c := range b.channels(i) {
			bone := Bone{Channel: c.name, Count: 2, Ends: b.boneEnds()}
			for _, wall := range c.walls {
				bone.Edge = max(bone.Edge, plane.Length(b.within(i, wall)))
			}
			bone.Length = bone.Edge - 2*bone.Ends
			bone.Casing = bone.Edge + b.Allowance.Seam + b.bottomEdge.allowance
			all = append(all, bone)
		}
	}
	return all
}

const waistTape = "waist tape"

// tapes returns the waist tape: round the body from opening to opening, each end caught in
// the allowance there.
func (b *panelled) tapes() []Tape {
	if b.WaistTape == 0 {
		return nil
	}
	t := Tape{Name: waistTape, Count: 1, Width: b.WaistTape, Length: 2 * b.waist, Ends: b.Allowance.Seam}
	if b.frontOpening && !b.backSeam {
		t.Count, t.Length = 2, b.waist
	}
	return []Tape{t}
}

// mostTape is the widest waist tape, mm: a wider one does not lie flat in the hollow
// (common practice: 20 to 30 mm).
const mostTape = 60

// checkBones refuses bones that are all ends, and a tape that is none.
func (p PanelledBody) checkBones() error {
	if err := notNegative(measured{"bones' ends", p.BoneEnds}, measured{"waist tape", p.WaistTape}); err != nil {
		return err
	}
	f := p.Figure
	switch least := f.OverBustUp + f.HighHipDown - max(p.FrontDip, p.SideDip, p.BackDip) -
		max(p.FrontRise, p.SideRise, p.BackRise) - p.HemRaise; {
	case p.Channel > 0 && least < 2*p.boneEnds()+leastBone:
		return say.Errorf("bones that end %.1f from both edges leave less than %v of a body %.1f high",
			say.MM(p.boneEnds()), say.MM(leastBone), say.MM(least)).
			Hint("shorter ends, or a body that is cut out less")
	case p.WaistTape > mostTape:
		return say.Errorf("waist tape is %.1f wide, must be at most %v", say.MM(p.WaistTape), say.MM(mostTape))
	}
	return nil
}

// leastBone is the shortest bone, mm.
const leastBone = 20
