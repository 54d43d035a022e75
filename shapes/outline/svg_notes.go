package outline

import (
	"fmt"
	"strings"

	"yardlay/shapes/say"
)

// svgNotes are what was left out, by kind.
type svgNotes struct {
	kinds []string // in the order in which they were met
	lines map[string][]int
	many  map[string]int
}

// svgMostPlaces is how many places of a kind are told; the others are counted.
const svgMostPlaces = 5

func (n *svgNotes) add(kind string, line int) {
	if n.lines == nil {
		n.lines, n.many = map[string][]int{}, map[string]int{}
	}
	if n.many[kind]++; n.many[kind] == 1 {
		n.kinds = append(n.kinds, kind)
	}
	if all := n.lines[kind]; len(all) < svgMostPlaces {
		n.lines[kind] = append(all, line)
	}
}

// words are "picture at line 12" and "7 pictures at lines 2, 3, 5, 6, 9 and others".
func (n *svgNotes) words() []string {
	var all []string
	for _, kind := range n.kinds {
		places := make([]string, 0, svgMostPlaces+1)
		for i, line := range n.lines[kind] {
			if i == 0 || line != n.lines[kind][i-1] {
				places = append(places, fmt.Sprint(line))
			}
		}
		if n.many[kind] > svgMostPlaces {
			places = append(places, "others")
		}
		what, lines := kind, "line"
		if n.many[kind] > 1 {
			what = fmt.Sprintf("%d %s", n.many[kind], several(kind))
		}
		if len(places) > 1 {
			lines = "lines"
		}
		all = append(all, fmt.Sprintf("%s at %s %s", what, lines, say.InWords(places, "and")))
	}
	return all
}

// several is the plural of a kind, whose noun stands before what tells more of it.
func several(kind string) string {
	for _, word := range []string{" of ", " along ", " without "} {
		if noun, more, ok := strings.Cut(kind, word); ok {
			return noun + "s" + word + more
		}
	}
	return kind + "s"
}
