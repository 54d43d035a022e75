package outline

import (
	"strings"
	"unicode"

	"yardlay/shapes/say"
)

// within is the state of what stands in a group, which its label or id calls.
func (r *svgReader) within(n *svgNode, s svgState) (svgState, error) {
	name, err := n.label()
	if err != nil {
		return s, err
	}
	if name == "" {
		id, _ := n.attr("id")
		if name, err = svgName(id); err != nil {
			return s, err
		}
	}
	if name == "" {
		return s, nil
	}
	if s.group != "" {
		s.group += "/"
	}
	s.group += name
	if r.named += len(s.group); r.named > svgMostNamed {
		return s, say.Errorf("the names of groups in groups come to over %d MiB", svgMostNamed>>20).
			Hint("ungroup what stands here")
	}
	if n.foreign("groupmode") == "layer" {
		s.layer, s.mode = name, true
	} else if s.layer == "" && !s.mode {
		s.layer = name
	}
	return s, nil
}

// label is what a person called an element: its title, or an attribute that says so.
func (n *svgNode) label() (string, error) {
	for _, k := range n.kids {
		if k.name == "title" {
			if name, err := svgName(k.inner()); name != "" || err != nil {
				return name, err
			}
		}
	}
	aria, _ := n.attr("aria-label")
	data, _ := n.attr("data-name")
	for _, text := range []string{n.foreign("label"), aria, data} {
		if name, err := svgName(text); name != "" || err != nil {
			return name, err
		}
	}
	return "", nil
}

// inner is the text in an element, without that in elements in it.
func (n *svgNode) inner() string {
	var all strings.Builder
	for _, k := range n.kids {
		all.WriteString(k.chars)
	}
	return all.String()
}

// svgName is a name as lists show it: white space is one space, letters that only steer
// others (as the way of writing) are dropped, and what is too long is cut.
func svgName(text string) (string, error) { return svgPlain(text, maxNameLength) }

func svgPlain(text string, most int) (string, error) {
	if len(text) > 8*most { // it is cut in any case, and there may be many
		text = strings.ToValidUTF8(text[:8*most], "")
	}
	letters := make([]rune, 0, min(len(text), most+1))
	for _, word := range strings.Fields(text) {
		if len(letters) > 0 {
			letters = append(letters, ' ')
		}
		for _, c := range word {
			switch {
			case unicode.Is(unicode.Cf, c):
			case !unicode.IsPrint(c):
				return "", say.Errorf("the name %.60q holds a letter that cannot be printed", text).
					Hint("give it another name")
			default:
				letters = append(letters, c)
			}
		}
	}
	if len(letters) > most {
		letters = append(letters[:most-1], '…')
	}
	return string(letters), nil
}

// marks are those of a shape or a text. The use that draws it comes before itself.
func (r *svgReader) marks(n *svgNode, s svgState) (Marks, error) {
	m := Marks{Group: s.group, Layer: s.layer, Colour: r.colour(s.style), Dashed: s.style.dashed()}
	for _, of := range []*svgNode{s.use, n} {
		if of == nil {
			continue
		}
		id, _ := of.attr("id")
		id, err := svgName(id)
		if err != nil {
			return m, err
		}
		label, err := of.label()
		if err != nil {
			return m, err
		}
		if m.ID == "" {
			m.ID = id
		}
		if m.Label == "" {
			m.Label = label
		}
	}
	return m, nil
}

// remark notes what hides part of an element in a way that is not followed.
func (r *svgReader) remark(n *svgNode, style svgStyle) {
	if v := style.own[svgClip]; v != "" && v != "none" {
		r.notes.add("clip path", n.line)
	}
	if v := style.own[svgMask]; v != "" && v != "none" {
		r.notes.add("mask", n.line)
	}
}
