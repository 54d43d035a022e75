package outline

import (
	"fmt"
	"io"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// Limits of SVG's own, besides those of any drawing.
const (
	svgMostElements   = 200_000   // in the file, and drawn: what is used twice counts twice
	svgMostAttributes = 1_000_000 // 64 bytes each in memory
	svgMostNested     = 200       // elements within each other, those that are used too
	svgMostNamed      = 16 << 20  // letters of all Marks.Group of one drawing
	svgMostRules      = 20_000    // of style
	svgMostMatched    = 5_000_000 // rules of style held against elements
)

// ReadSVG reads a drawing in SVG 1.1 or 2: paths and basic shapes in nested groups,
// symbols and viewports, each line as it is painted, in mm where the page has a width or
// height in a unit of length (Drawing.Unit). The origin is the top left corner of the
// page; as y points up, what lies on the page has y below 0.
//
// Style is read as far as it hides lines and gives them a colour. What clips or masks
// does not cut lines, and lines beyond the page are read. Left out, and said so
// in Notes: what is hidden, pictures, text along paths, what other files hold. Of a text
// the place is that of its anchor, which is the first letter unless it is centred.
//
// Marks: ID is the element's own, or that of the use that draws it; Label the title, or
// an attribute "label" of any name space, "aria-label" or "data-name"; the groups
// are called by label or id. Layer is the innermost group with an attribute "groupmode"
// that says so, in any name space, or else the outermost group with a name.
//
// Curves are within ChordError. Where the unit is not known, they are so in the unit that the
// drawing is most likely in (GuessUnit), and in any that is shorter.
//
// Errors say the line of the file and what would mend it.
func ReadSVG(r io.Reader) (Drawing, error) { return readSVG(r, 0) }

// ReadSVGWithin is ReadSVG with curves at most chordError from their chords, in the unit
// of the coordinates returned: whoever scales a drawing up asks for as much less.
func ReadSVGWithin(r io.Reader, chordError float64) (Drawing, error) {
	if !(chordError > 0) {
		return Drawing{}, fmt.Errorf("the chord error %g is not above 0", chordError)
	}
	return readSVG(r, chordError)
}

// readSVG reads a drawing; the chord error 0 stands for what ReadSVG promises.
func readSVG(r io.Reader, chordError float64) (Drawing, error) {
	text, err := readSVGText(r)
	if err != nil {
		return Drawing{}, err
	}
	tree, err := parseSVG(text)
	if err != nil {
		return Drawing{}, err
	}
	if chordError > 0 {
		return tree.drawing(chordError)
	}
	d, err := tree.drawing(ChordError)
	if err != nil || d.Unit.Millimetres > 0 {
		return d, err
	}
	if unit := GuessUnit(d).Millimetres; unit > 1 {
		return tree.drawing(ChordError / unit)
	}
	return d, nil
}

// drawing draws all that is seen of a file.
func (t svgTree) drawing(chordError float64) (Drawing, error) {
	d := svgReader{svgTree: t, using: map[*svgNode]bool{}, colours: map[string]string{}}
	d.pen = svgPen{chordError: chordError, left: MaxDrawingVertices}
	if err := d.rules.read(t, &d.notes); err != nil {
		return Drawing{}, err
	}
	if err := d.page(); err != nil {
		return Drawing{}, err
	}
	d.out.Notes = d.notes.words()
	return d.out, nil
}

// svgReader draws the tree of a file into a Drawing.
type svgReader struct {
	svgTree
	out     Drawing
	rules   svgRules
	notes   svgNotes
	pen     svgPen
	colours map[string]string // of a style, as in Marks
	using   map[*svgNode]bool // what is being drawn by a use

	drawn, named, matched int // held to the limits above
}

// svgState is what an element has of those around it.
type svgState struct {
	m     affine    // from its coordinates to those of the Drawing
	view  orb.Point // width and height of the viewport in its coordinates; NaN: not known
	style svgStyle
	group string // as in Marks
	layer string
	mode  bool // the layer says itself that it is one
	deep  int
	use   *svgNode // the use that draws it, where that does
}

// page draws the outermost element.
func (r *svgReader) page() error {
	m, view, unit, err := svgPage(r.root)
	if err != nil {
		return r.root.fail(err)
	}
	r.out.Unit = unit
	shapes := 0
	for _, n := range r.all {
		if svgShapes[n.name] != nil {
			shapes++
		}
	}
	r.out.Lines = make([]Line, 0, shapes)
	style, hidden, err := r.styled(r.root, svgStyle{})
	if err != nil {
		return r.root.fail(err)
	}
	if hidden {
		r.notes.add("hidden element", r.root.line)
		return nil
	}
	return r.children(r.root, svgState{m: m, view: view, style: style})
}

func (r *svgReader) children(n *svgNode, s svgState) error {
	s.use = nil
	for _, k := range n.kids {
		if err := r.draw(k, s); err != nil {
			return err
		}
	}
	return nil
}

// draw draws an element and what stands in it.
func (r *svgReader) draw(n *svgNode, s svgState) error {
	if !svgPainted[n.name] && (n.name != "symbol" || s.use == nil) {
		return nil
	}
	r.drawn++
	s.deep++
	switch {
	case r.drawn > svgMostElements:
		return n.fail(say.Errorf("over %d elements are drawn, with those that are used again", svgMostElements).
			Hint("draw what is used often as one path"))
	case s.deep > svgMostNested:
		return n.fail(say.Errorf("over %d elements stand within each other", svgMostNested).
			Hint("ungroup what stands here"))
	}
	style, hidden, err := r.styled(n, s.style)
	if err != nil {
		return n.fail(err)
	}
	if hidden {
		r.notes.add("hidden element", n.line)
		return nil
	}
	s.style = style
	if s.m, err = n.moved(s, style); err != nil {
		return n.fail(err)
	}
	r.remark(n, style)
	switch n.name {
	case "g", "a":
		return r.group(n, s)
	case "svg", "symbol":
		return r.nested(n, s)
	case "use":
		return r.use(n, s)
	case "switch":
		return r.choose(n, s)
	case "text":
		return r.text(n, s)
	case "image", "foreignObject":
		r.notes.add(map[string]string{"image": "picture", "foreignObject": "embedded page"}[n.name], n.line)
		return nil
	}
	return r.shape(n, s)
}

// svgPainted are the elements that are drawn where they stand. All others are never
// drawn, or only by those that refer to them (SVG 2, 5.3: never-rendered elements), and
// elements that SVG does not know are not rendered.
var svgPainted = map[string]bool{"g": true, "a": true, "svg": true, "use": true, "switch": true, "text": true,
	"image": true, "foreignObject": true, "path": true, "rect": true, "circle": true, "ellipse": true, "line": true,
	"polyline": true, "polygon": true}

// group draws what stands in a group.
func (r *svgReader) group(n *svgNode, s svgState) error {
	s, err := r.within(n, s)
	if err != nil {
		return n.fail(err)
	}
	return r.children(n, s)
}

// choose draws the first child of a switch that asks for nothing that we are not sure to
// have: no extension and no language; else the first that asks for a language alone.
func (r *svgReader) choose(n *svgNode, s svgState) error {
	s, err := r.within(n, s)
	if err != nil {
		return n.fail(err)
	}
	var second *svgNode
	for _, k := range n.kids {
		_, language := k.attr("systemLanguage")
		if extension, _ := k.attr("requiredExtensions"); extension != "" || !svgPainted[k.name] {
			continue
		}
		if !language {
			return r.draw(k, s)
		}
		if second == nil {
			second = k
		}
	}
	if second == nil {
		return nil
	}
	return r.draw(second, s)
}

// beyond is the error of a coordinate that no drawing has.
func beyond(p orb.Point) error {
	for _, v := range p {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return say.Errorf("its coordinates are too large for a number").Hint("mend its transform")
		}
		if math.Abs(v) > MaxCoordinate {
			return say.Errorf("coordinate %.6g lies beyond %.0f m", v, MaxCoordinate/1000).
				Hint("check the unit of the page's width and height, and the transforms around it")
		}
	}
	return nil
}
