package quote

import (
	"cmp"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/say"
)

// cut is one piece of a part in one of its cloths, as drafted.
type cut struct {
	part    job.Part
	cloth   string
	outer   bool         // the first cloth of its part
	fused   bool         // interfacing, which is not sewn
	apart   bool         // a facing, whose edges are those of what it faces, or what lies behind an opening
	on      job.Mounting // what it is on the outer cloth of its part, with which it is sewn as one
	gathers bool         // the draft's upper edges are gathered
	piece   shapes.Piece
	copies  int            // of all gowns
	closed  []draft.Closed // of one part, with its first piece
	bones   []draft.Bone   // of one part, with its first piece
	tapes   []draft.Tape   // likewise
	hoops   []float64      // likewise, mm
	combs   int            // likewise
	edged   []draft.Edged  // likewise
}

// cutsOf lists what is cut for the parts of a job. Lengths follow from the finished lines as
// they are worn, before any cloth makes its pieces larger for the wash.
func cutsOf(j *job.Job, gowns int) ([]cut, error) {
	var all []cut
	for _, part := range j.Parts {
		for i, layer := range part.Layers {
			made, err := layer.Drafted()
			if err != nil {
				return nil, j.ErrorAt(part.At, say.Errorf("part `%s` in `%s`: %w", part.Name, layer.Cloth, err))
			}
			bones, tapes, closed, hoops, combs := made.Bones, made.Tapes, made.Closed, made.Hoops, len(made.Combs)
			edged := made.Edged
			for k, p := range made.Pieces {
				if k > 0 {
					bones, tapes, closed, hoops, combs, edged = nil, nil, nil, nil, 0, nil
				}
				all = append(all, cut{
					closed: closed, bones: bones, tapes: tapes, hoops: hoops, combs: combs,
					edged: edged,
					part:  part, cloth: layer.Cloth, outer: i == 0, fused: made.Fused,
					apart: made.Apart, on: layer.Mounted, gathers: made.Gathered,
					piece: p.Unfold(), copies: p.Count * part.Count * gowns,
				})
			}
		}
	}
	return all, nil
}

// sewn is the length of seam that all copies of an edge account for, mm: half of
// an edge that is sewn to another one, all of one sewn onto something or basted to the
// outer cloth, none of a fold or a hem.
func (c cut) sewn(e shapes.Edge) float64 {
	length := e.Length() * float64(c.copies)
	switch {
	case c.fused:
		return 0
	case c.on != "" && e.Kind != shapes.Fold && e.Kind != shapes.Hem:
		return length
	case e.Kind == shapes.Seam, e.Kind == shapes.Waist, e.Kind == shapes.Opening:
		return length / 2
	case e.Kind == shapes.Top && !c.gathers:
		return length
	}
	return 0
}

// called says whether an edge is among those of some names: of a kind, or its own.
func called(e shapes.Edge, names []string) bool {
	return slices.Contains(names, e.Kind.String()) && e.Kind != shapes.Fold ||
		slices.Contains(names, strings.TrimSuffix(e.Name, " mirrored"))
}

// among says whether a notion follows from a piece. Unless the notion names its cloths,
// openings and channels are those of the outer cloth, since a lining is caught in the
// same zip, and edges not those of facings and interfacing, which lie on edges that count.
func (c cut) among(n job.Notion) bool {
	if !n.Of(c.part) {
		return false
	}
	if len(n.Cloths) > 0 {
		return slices.Contains(n.Cloths, c.cloth)
	}
	switch n.By {
	case job.ByOpening, job.ByBusk, job.ByChannel, job.ByCasing, job.ByTape, job.ByHoop, job.ByComb, job.ByEdging:
		return c.outer
	case job.ByEdge:
		return !c.fused && !c.apart && c.on == ""
	}
	return true
}

// openings are the lengths of the openings among some pieces, mm, the longest
// first: each has two edges, which are as long as each other.
func openings(cuts []cut, closed float64) []float64 {
	var edges []float64
	for _, c := range cuts {
		for _, e := range c.piece.Edges {
			if e.Kind == shapes.Opening {
				edges = append(edges, slices.Repeat([]float64{e.Length()}, c.copies)...)
			}
		}
	}
	slices.SortFunc(edges, func(a, b float64) int { return cmp.Compare(b, a) })
	var all []float64
	for i := 0; i < len(edges); i += 2 {
		length := edges[i]
		if closed > 0 {
			length = min(length, closed)
		}
		all = append(all, length)
	}
	return all
}

// Work is what the hours of a quote follow from. Lengths are in mm, of all gowns.
type Work struct {
	Seam     float64 `json:"seam"`
	Hem      float64 `json:"hem"`
	Gathered float64 `json:"gathered"` // measured flat
	Pieces   int     `json:"pieces"`
	Steps    []Step  `json:"steps"`
}

// Step is one kind of work and its time.
type Step struct {
	What    string `json:"what"`
	Minutes string `json:"minutes"`
	amount  string // of what: a length in the unit of its rate, or a number
}

// workOf measures what is to be sewn.
func workOf(cuts []cut) Work {
	var w Work
	for _, c := range cuts {
		w.Pieces += c.copies
		for _, e := range c.piece.Edges {
			w.Seam += c.sewn(e)
			switch length := e.Length() * float64(c.copies); {
			case c.fused, c.on == job.Underlining:
			case e.Finish() == shapes.Turned:
				w.Hem += length
			case e.Kind == shapes.Top && c.gathers:
				w.Gathered += length
			}
		}
	}
	return w
}
