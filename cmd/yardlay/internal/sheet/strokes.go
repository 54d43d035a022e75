package sheet

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Strokes is line work for machines: no fills, no widths, at true size. Lengths are mm,
// x to the right and y up. What is cut several times is drawn once, as a part, and placed.
type Strokes struct {
	Title       string
	Description string
	Notes       []string // what to mind; for whoever opens the file, not drawn
	Page        orb.Bound
	Parts       []StrokePart
	Places      []Place
	Loose       []Stroke // outside of any part
	Texts       []Text   // likewise
}

// StrokePart is one outline with all that it bears, in coordinates of its own. The Y of
// its texts points up as all others do.
type StrokePart struct {
	Name    string
	Strokes []Stroke
	Texts   []Text
	Copy    *Text // where the name of the copy stands; nil: nowhere
}

// Place is where a copy of a part lies: turned about its origin, which comes to At.
type Place struct {
	Part int
	At   orb.Point
	Turn float64 // degrees counter-clockwise
	Copy string  // "left", "2 of 4"; may be empty
}

// Stroke is a line; one whose ends meet is closed.
type Stroke struct {
	Layer Layer
	Path  orb.LineString
}

// Closed says whether the ends of the line meet.
func (s Stroke) Closed() bool { return len(s.Path) > 2 && s.Path[0] == s.Path[len(s.Path)-1] }

// Layer says what a machine does along a line.
type Layer uint8

// The layers, in the order in which a machine works: what is cut comes last, since the
// cloth may move then.
const (
	LayerCloth  Layer = iota // edges of the cloth, flaws: for the eye
	LayerWords               // names, signs
	LayerGrain               // grain line
	LayerInside              // darts and other lines marked inside
	LayerSew                 // seam line
	LayerFold                // edge on a fold: not cut
	LayerNotch               // short lines from the cut line inwards
	LayerCut                 // cut line
	layerCount
)

// layerLook is how a layer is called and drawn. DXF numbers are those of ASTM D6673-10 as
// reproduced second-hand (conformity is not claimed); the edges of the cloth have
// none there. Colours of DXF are numbers of the index (1 red, 2 yellow, 3 green, 4 cyan,
// 5 blue, 6 magenta, 7 black or white, 8 grey), one for each layer, as those of SVG are:
// many machines choose what to do by colour.
type layerLook struct {
	dxf     string
	colour  int
	id      string
	title   string
	strokes string
}

var layers = [layerCount]layerLook{
	LayerCloth:  {"CLOTH", 8, "cloth", "Edges of the cloth, flaws: do not cut", "#808080"},
	LayerWords:  {"15", 4, "words", "Names and signs: leave out or mark", "#008b8b"},
	LayerGrain:  {"7", 5, "grain", "Grain lines, along the warp: do not cut", "#0000ff"},
	LayerInside: {"8", 6, "inside", "Lines marked inside, darts: mark, do not cut", "#ff00ff"},
	LayerSew:    {"14", 3, "sew", "Seam lines: do not cut", "#008000"},
	LayerFold:   {"6", 2, "fold", "Edges on a fold: do not cut", "#b8860b"},
	LayerNotch:  {"4", 1, "notches", "Notches: snip or mark", "#ff0000"},
	LayerCut:    {"1", 7, "cut", "Cut line", "#000000"},
}

// used tells which layers hold something.
func (s Strokes) used() (used [layerCount]bool) {
	for _, l := range s.Loose {
		used[l.Layer] = true
	}
	used[LayerWords] = used[LayerWords] || len(s.Texts) > 0
	for _, p := range s.Parts {
		for _, l := range p.Strokes {
			used[l.Layer] = true
		}
		used[LayerWords] = used[LayerWords] || len(p.Texts) > 0 || p.Copy != nil
	}
	return used
}

// finite says whether all coordinates are finite numbers.
func (s Strokes) finite() bool {
	sum := 0.0 // of anything that is not finite with 0, not a number
	line := func(points ...orb.Point) {
		for _, p := range points {
			sum += 0*p[0] + 0*p[1]
		}
	}
	texts := func(list []Text) {
		for _, t := range list {
			line(t.At, orb.Point{t.Size, t.Turn})
		}
	}
	line(s.Page.Min, s.Page.Max)
	for _, l := range s.Loose {
		line(l.Path...)
	}
	texts(s.Texts)
	for _, p := range s.Parts {
		for _, l := range p.Strokes {
			line(l.Path...)
		}
		texts(p.Texts)
		if p.Copy != nil {
			texts([]Text{*p.Copy})
		}
	}
	for _, pl := range s.Places {
		line(pl.At, orb.Point{pl.Turn, 0})
	}
	return !math.IsNaN(sum)
}

// pose is where a place puts its part.
func (p Place) pose() plane.Pose { return plane.Pose{Turn: p.Turn, At: p.At} }

// text is a text of the part as placed.
func (p Place) text(t Text) Text {
	t.At, t.Turn = p.pose().ApplyPoint(t.At), math.Mod(t.Turn+p.Turn, 360)
	return t
}

// copyText is the name of the copy as placed, if it has one.
func (s Strokes) copyText(p Place) (Text, bool) {
	at := s.Parts[p.Part].Copy
	if at == nil || p.Copy == "" {
		return Text{}, false
	}
	t := p.text(*at)
	t.Body = p.Copy
	return t, true
}

// Label is words in a piece, with a grain line beside them.
type Label struct {
	Texts []Text // line by line
	Names []Text // of the lines marked inside that have room for theirs
	Grain orb.LineString
}

// Sizes of labels of line work: a scale as of a drawing, from words read at an arm's
// length down to those of small pieces.
var labelScales = []float64{3, 2, 1.4, 1, 0.6}

// Labelled finds a place inside the outline for lines of words, each a Text of its own,
// clear of the lines marked and of the grain line where that can be, and for the names of
// those lines beside them. Where nothing fits the words stand small on the grain line.
// Coordinates are those of the outline, y up.
func (o Outline) Labelled(lines []string) Label {
	flipped := o.onto(orb.Point{})
	l, ok, scale := label{grain: flipped.Grain}, len(lines) == 0, 1.0
	for _, k := range labelScales {
		if ok {
			break
		}
		l, ok = labelled(flipped, [][]string{lines}, k)
		scale = k
	}
	if !ok {
		l = label{lines: lines, at: o.middle(), size: least, line: lineHeight, grain: flipped.Grain}
	}
	l.plate = false
	words := l.items(RoleNote, 0)
	taken := append(flipped.items(0, scale), grainItems(l.grain, scale, true)...)
	taken = append(taken, words...)
	made := Label{Texts: upright(words), Names: upright(flipped.names(grounds(taken), scale))}
	for _, p := range l.grain {
		made.Grain = append(made.Grain, orb.Point{p[0], -p[1]})
	}
	return made
}

// upright turns the texts of a drawing, whose y points down, to line work.
func upright(items []Item) (texts []Text) {
	for _, it := range items {
		if t, ok := it.(Text); ok {
			t.At[1] = -t.At[1]
			texts = append(texts, t)
		}
	}
	return texts
}

// least is the size of words that have no room, mm.
const least = 1.0

// middle is the middle of the grain line or of the box of the outline, y down.
func (o Outline) middle() orb.Point {
	at := o.Cut.Bound().Center()
	if len(o.Grain) == 2 {
		at = orb.Bound{Min: o.Grain[0], Max: o.Grain[0]}.Extend(o.Grain[1]).Center()
	}
	return orb.Point{at[0], -at[1]}
}

// Without returns the line work with nothing on a layer.
func (s Strokes) Without(layer Layer) Strokes {
	kept := func(all []Stroke) (list []Stroke) {
		for _, l := range all {
			if l.Layer != layer {
				list = append(list, l)
			}
		}
		return list
	}
	s.Loose = kept(s.Loose)
	s.Parts = slices.Clone(s.Parts)
	for i, p := range s.Parts {
		p.Strokes = kept(p.Strokes)
		if layer == LayerWords {
			p.Texts, p.Copy = nil, nil
		}
		s.Parts[i] = p
	}
	if layer == LayerWords {
		s.Texts = nil
	}
	return s
}
