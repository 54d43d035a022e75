package outline

import (
	"strings"

	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// svgMostLetters is how much is kept of one text.
const svgMostLetters = 1000

// svgRun is a text from one place on, up to one that has a place of its own.
type svgRun struct {
	at    orb.Point // in the coordinates of the text
	chars strings.Builder
}

// text reads a text: each part with a place of its own as one, as lines of a block have.
func (r *svgReader) text(n *svgNode, s svgState) error {
	marks, err := r.marks(n, s)
	if err != nil {
		return n.fail(err)
	}
	runs := []*svgRun{{}}
	if err := r.run(n, s, &runs); err != nil {
		return n.fail(err)
	}
	for _, run := range runs {
		words, err := svgPlain(run.chars.String(), svgMostLetters)
		if err != nil {
			return n.fail(err)
		}
		if words == "" {
			continue
		}
		at := s.m.apply(run.at)
		if err := beyond(at); err != nil {
			return n.fail(err)
		}
		r.out.Texts = append(r.out.Texts, Text{At: at, Text: words, Marks: marks})
	}
	return nil
}

// run reads an element of a text and those in it.
func (r *svgReader) run(n *svgNode, s svgState, runs *[]*svgRun) error {
	if err := n.place(s, runs); err != nil {
		return err
	}
	for _, k := range n.kids {
		switch k.name {
		case "":
			if !s.style.unseen() {
				(*runs)[len(*runs)-1].chars.WriteString(k.chars)
			}
		case "textPath":
			r.notes.add("text along a path", k.line)
		case "tspan", "a":
			if r.drawn++; r.drawn > svgMostElements {
				return say.Errorf("over %d elements are drawn, with those that are used again", svgMostElements)
			}
			inner := s
			var hidden bool
			var err error
			if inner.style, hidden, err = r.styled(k, s.style); err != nil {
				return err
			}
			if hidden {
				continue
			}
			if err := r.run(k, inner, runs); err != nil {
				return err
			}
		}
	}
	return nil
}

// place begins a new run where an element says where it stands: by x and y, or by dx
// and dy from where the run before began. Of lists of places the first counts.
func (n *svgNode) place(s svgState, runs *[]*svgRun) error {
	run := &svgRun{at: (*runs)[len(*runs)-1].at}
	placed := false
	for i, name := range []string{"x", "y", "dx", "dy"} {
		text, ok := n.attr(name)
		if !ok || strings.TrimSpace(text) == "" {
			continue
		}
		first := strings.Trim(text, " \t\r\n")
		if i := strings.IndexAny(first, ", \t\r\n"); i > 0 {
			first = first[:i]
		}
		l, err := parseSVGLength(first)
		if err != nil {
			return say.Errorf("%s: %w", name, err)
		}
		if l.unit == "em" || l.unit == "ex" {
			l = svgLength{n: l.n * s.fontSize(l.unit)}
		}
		v, err := l.in(s.whole(i % 2))
		if err != nil {
			return say.Errorf("%s: %w", name, err)
		}
		if i < 2 {
			run.at[i] = v
		} else {
			run.at[i-2] += v
		}
		placed = placed || i != 2 // words are set apart by dx
	}
	if placed {
		*runs = append(*runs, run)
	}
	return nil
}

// fontSize is that of a text, for places given in it: 16 px where nobody says, an ex half of
// an em (CSS Values 3, 6.1.1). It need not be exact, as it only places words.
func (s *svgState) fontSize(unit string) float64 {
	size := 16.
	if l, err := parseSVGLength(s.style.own[svgFontSize]); err == nil {
		if v, err := l.in(16); err == nil {
			size = v
		}
	}
	if unit == "ex" {
		size /= 2
	}
	return size
}
