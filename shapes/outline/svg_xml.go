package outline

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"

	"yardlay/shapes/say"
)

// svgTree is a file as elements, before anything is drawn.
type svgTree struct {
	root *svgNode
	ids  map[string]*svgNode // the first one of each id
	all  []*svgNode          // in the order of the file
}

// svgNode is an element, or a text in one whose text counts.
type svgNode struct {
	name  string // "" for a text and for elements that are not SVG's
	attrs []xml.Attr
	kids  []*svgNode
	chars string // of a text
	line  int    // of the file, where its tag begins
}

const svgSpace = "http://www.w3.org/2000/svg"

// attr is an attribute of SVG's own.
func (n *svgNode) attr(name string) (string, bool) {
	for i := range n.attrs {
		if a := &n.attrs[i]; a.Name.Local == name && a.Name.Space == "" {
			return a.Value, true
		}
	}
	return "", false
}

// foreign is an attribute of any name space but SVG's own.
func (n *svgNode) foreign(name string) string {
	for i := range n.attrs {
		if a := &n.attrs[i]; a.Name.Local == name && a.Name.Space != "" {
			return a.Value
		}
	}
	return ""
}

// fail says where an error is: line 12, path "sleeve".
func (n *svgNode) fail(err error) error {
	what := n.name
	if id, ok := n.attr("id"); ok {
		if id, err := svgName(id); err == nil && id != "" {
			what += fmt.Sprintf(" %q", id)
		}
	}
	return say.Errorf("SVG, line %d, %s: %w", n.line, what, err)
}

// readSVGText reads a file as bytes and refuses what is not SVG at first sight.
func readSVGText(r io.Reader) ([]byte, error) {
	text, err := io.ReadAll(io.LimitReader(r, MaxDrawingBytes+1))
	if err != nil {
		return nil, say.Errorf("read SVG: %w", err)
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	start := bytes.TrimLeft(text, " \t\r\n")
	switch {
	case len(text) > MaxDrawingBytes:
		return nil, say.Errorf("SVG text is over %d MiB, the most that is read", MaxDrawingBytes>>20).
			Hint("leave out pictures that are part of the file, or split the drawing")
	case bytes.HasPrefix(text, []byte{0x1f, 0x8b}):
		return nil, say.Errorf("SVG is packed by gzip (.svgz)").Hint("save it as plain SVG, or unpack it by gunzip")
	case bytes.HasPrefix(text, []byte{0xfe, 0xff}), bytes.HasPrefix(text, []byte{0xff, 0xfe}):
		return nil, say.Errorf("SVG text is in UTF-16").Hint("save it in UTF-8")
	case len(start) == 0:
		return nil, errors.New("SVG text is empty")
	case start[0] != '<':
		return nil, say.Errorf("this is not SVG: it begins with %q, not with <", start[:min(len(start), 8)]).
			Hint("save the drawing as SVG")
	case bytes.Count(text, []byte("=")) > svgMostAttributes:
		return nil, say.Errorf("SVG has over %d attributes, the most that is read", svgMostAttributes).
			Hint("split the drawing, or draw many small lines as one path")
	}
	return text, nil
}

// parseSVG reads the elements of a file.
func parseSVG(text []byte) (svgTree, error) {
	d := xml.NewDecoder(bytes.NewReader(text))
	d.CharsetReader = svgCharset
	p := svgParser{tree: svgTree{ids: map[string]*svgNode{}}, text: text, decoder: d}
	for {
		line, _ := d.InputPos() // the last token ended where this one begins
		t, err := d.Token()
		if err == io.EOF {
			break
		}
		if err == nil {
			err = p.token(t, line)
		} else {
			err = notXML(d, err)
		}
		if err != nil {
			return svgTree{}, err
		}
	}
	if p.tree.root == nil {
		return svgTree{}, say.Errorf("SVG text has no element").Hint("save the drawing as SVG")
	}
	return p.tree, nil
}

// svgParser builds the tree of elements.
type svgParser struct {
	tree    svgTree
	open    []*svgNode
	text    []byte
	decoder *xml.Decoder
}

func (p *svgParser) token(t xml.Token, line int) error {
	switch t := t.(type) {
	case xml.StartElement:
		return p.begin(t, line)
	case xml.EndElement:
		p.open = p.open[:len(p.open)-1]
	case xml.CharData:
		if len(p.open) == 0 {
			break
		}
		switch in := p.open[len(p.open)-1]; in.name {
		case "text", "tspan", "a", "title", "style":
			in.kids = append(in.kids, &svgNode{chars: string(t), line: line})
		}
	case xml.Directive:
		entities, err := svgEntities(t, p.text)
		if err != nil {
			return say.Errorf("SVG, line %d: %w", line, err)
		}
		p.decoder.Entity = entities
	}
	return nil
}

func (p *svgParser) begin(t xml.StartElement, line int) error {
	n := &svgNode{name: t.Name.Local, attrs: t.Attr, line: line}
	if t.Name.Space != svgSpace && t.Name.Space != "" {
		n.name = ""
	}
	p.tree.all = append(p.tree.all, n)
	switch {
	case len(p.tree.all) > svgMostElements:
		return say.Errorf("SVG, line %d: over %d elements, the most that is read", line, svgMostElements).
			Hint("split the drawing, or draw many small lines as one path")
	case len(p.open) >= svgMostNested:
		return say.Errorf("SVG, line %d: over %d elements stand within each other", line, svgMostNested).
			Hint("ungroup what stands there")
	case len(p.open) > 0:
		in := p.open[len(p.open)-1]
		in.kids = append(in.kids, n)
	case p.tree.root != nil:
		return say.Errorf("SVG, line %d: a second outermost element", line).Hint("save one drawing in a file")
	case n.name != "svg":
		return say.Errorf("SVG, line %d: the outermost element is %.40q, not svg", line, t.Name.Local).
			Hint("save the drawing as SVG")
	default:
		p.tree.root = n
	}
	p.open = append(p.open, n)
	if id, ok := n.attr("id"); ok && p.tree.ids[id] == nil {
		p.tree.ids[id] = n
	}
	return nil
}

// notXML says where a text stops being XML.
func notXML(d *xml.Decoder, err error) error {
	line, column := d.InputPos()
	var syntax *xml.SyntaxError
	if !errors.As(err, &syntax) {
		return say.Errorf("SVG, line %d: %w", line, err).Hint("save the drawing in UTF-8")
	}
	if syntax.Msg == "unexpected EOF" {
		return say.Errorf("SVG, line %d: the text ends here, before its last element is closed", line).
			Hint("save the file again, or fetch it again: it is cut off")
	}
	return say.Errorf("SVG, line %d, column %d: this is not XML: %s", line, column, syntax.Msg).
		Hint("save the drawing again as plain SVG")
}

// svgCharset reads texts that say they are not in UTF-8. ISO 8859-1 is what some drawing
// programs write; its bytes are the first letters of Unicode.
func svgCharset(charset string, r io.Reader) (io.Reader, error) {
	switch strings.ToLower(charset) {
	case "iso-8859-1", "iso_8859-1", "latin1", "us-ascii", "ascii":
		return &latin1{from: r}, nil
	}
	return nil, fmt.Errorf("letters in %.40q are not read", charset)
}

// latin1 reads ISO 8859-1 as UTF-8.
type latin1 struct {
	from io.Reader
	rest []byte
}

func (l *latin1) Read(to []byte) (int, error) {
	if len(l.rest) == 0 {
		var buf [1024]byte
		n, err := l.from.Read(buf[:])
		if n == 0 {
			return 0, err
		}
		for _, b := range buf[:n] {
			l.rest = append(l.rest, string(rune(b))...)
		}
	}
	n := copy(to, l.rest)
	l.rest = l.rest[n:]
	return n, nil
}
