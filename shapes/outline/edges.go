package outline

import (
	"fmt"
	"strings"
	"unicode"

	"github.com/paulmach/orb"
)

// edged cuts the outline of each shape into its edges.
func (a *assembler) edged() {
	for i := range a.Shapes {
		s := &a.Shapes[i]
		s.Edges, s.Fold = a.edgesOf(a.shaped[i].edges())
	}
}

// mostEdges is how many edges are told apart: a ragged outline is one.
const mostEdges = 60

// edgesOf cuts a loop where its lines end and where they turn sharply, and says which edge
// runs along a line of fold.
func (a *assembler) edgesOf(l *loop) (edges []Edge, fold int) {
	n := len(l.way)
	var cuts []int // vertices that edges start at
	for i, v := range l.way {
		before := l.way[(i+n-1)%n]
		if v.part != before.part && a.ends(l, before.part, v.part, i) || v.corner && l.sharp(i) {
			cuts = append(cuts, i)
		}
	}
	if len(cuts) == 0 || len(cuts) > mostEdges {
		cuts = []int{0}
	}
	fold = -1
	for k, from := range cuts {
		to := cuts[(k+1)%len(cuts)]
		if to <= from {
			to += n
		}
		var line orb.LineString
		for i := from; i <= to; i++ {
			line = append(line, l.way[i%n].at)
		}
		of := a.Lines[l.parts[l.way[from].part].line]
		if a.Roles[l.parts[l.way[from].part].line].Role == Fold {
			fold = len(edges)
		}
		edges = append(edges, Edge{Name: ownName(of.Marks), Line: line, Place: of.Place, Marks: of.Marks})
	}
	nameEdges(edges, fold)
	return edges, fold
}

// ends says whether an edge ends where one part of a loop goes on into another.
func (a *assembler) ends(l *loop, before, next, at int) bool {
	p, q := a.Lines[l.parts[before].line], a.Lines[l.parts[next].line]
	fold := func(k int) bool { return a.Roles[l.parts[k].line].Role == Fold }
	return fold(before) != fold(next) || p.Layer != q.Layer || p.Colour != q.Colour || p.Dashed != q.Dashed ||
		ownName(p.Marks) != ownName(q.Marks) || l.sharp(at)
}

// ownName is what a person called a line: its label, or an id without a digit, for
// programs number those that they give.
func ownName(m Marks) string {
	switch {
	case m.Label != "" && m.Block == "":
		return m.Label
	case m.Block == "" && !strings.ContainsFunc(m.ID, unicode.IsDigit):
		return m.ID
	}
	return ""
}

// Called is what a person called the line; "" where it has no name but what it is for.
func (l Inner) Called() string {
	if name := ownName(l.Marks); roleCalled(name) == Unnamed {
		return name
	}
	return ""
}

// nameEdges gives edges names of their own.
func nameEdges(edges []Edge, fold int) {
	if len(edges) == 1 {
		edges[0].Name = "outline"
		return
	}
	shared := map[string]int{}
	for _, e := range edges {
		shared[e.Name]++
	}
	used := map[string]bool{}
	for i := range edges {
		e := &edges[i]
		name := e.Name
		switch {
		case i == fold:
			name = "fold"
		case name == "" || shared[name] == len(edges):
			name = fmt.Sprintf("edge %d", i+1)
		}
		e.Name = name
		for k := 2; used[e.Name]; k++ {
			e.Name = fmt.Sprintf("%s %d", name, k)
		}
		used[e.Name] = true
	}
}
