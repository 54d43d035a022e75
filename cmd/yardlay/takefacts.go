package main

import (
	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// takenFound is what take prints as JSON. Lengths are mm, areas mm2, places as in the drawing
// with y up.
type takenFound struct {
	File        string       `json:"file"`
	Unit        float64      `json:"unit_mm"`
	UnitBecause string       `json:"unit_because"`
	UnitGuessed bool         `json:"unit_guessed"`
	Sizes       []string     `json:"sizes,omitempty"`
	Size        string       `json:"size,omitempty"`
	Lines       int          `json:"lines"`
	Pieces      []takenPiece `json:"pieces"`
	Faults      []takenFault `json:"faults"`
	LeftOut     []string     `json:"left_out,omitempty"`
	Parts       string       `json:"parts"` // tables of a job
}

type takenPiece struct {
	Number        int       `json:"number"`
	Name          string    `json:"name"`
	ID            string    `json:"id,omitempty"`
	Label         string    `json:"label,omitempty"`
	Layer         string    `json:"layer,omitempty"`
	Block         string    `json:"block,omitempty"`
	Size          string    `json:"size,omitempty"`
	Place         string    `json:"place"`
	Lines         int       `json:"lines"`
	Corners       int       `json:"corners"`
	Width         float64   `json:"width"`
	Height        float64   `json:"height"`
	Area          float64   `json:"area"`
	Outline       string    `json:"outline"`
	CutDrawn      bool      `json:"cut_line_besides"`
	Count         int       `json:"count"`
	Pair          bool      `json:"pair"`
	CountGuessed  bool      `json:"count_guessed"`
	CountBecause  string    `json:"count_because"`
	Grain         string    `json:"grain"`
	OnFold        bool      `json:"on_fold"`
	Notches       int       `json:"notches"`
	Darts         int       `json:"darts"`
	Faults        []int     `json:"faults,omitempty"`
	Because       []string  `json:"because,omitempty"`
	Material      string    `json:"material,omitempty"`
	EdgeNames     []string  `json:"edges"`
	LowLeftCorner orb.Point `json:"at"`
}

type takenFault struct {
	Number int       `json:"number"`
	Kind   string    `json:"kind"`
	What   string    `json:"what"`
	Hint   string    `json:"hint,omitempty"`
	At     orb.Point `json:"at"`
	Place  string    `json:"place,omitempty"`
	Piece  int       `json:"piece,omitempty"`
	Stops  bool      `json:"stops"`
}

// takenFacts are what was found.
func takenFacts(t *taken) takenFound {
	f := takenFound{File: t.File, Unit: t.Unit.Millimetres, UnitBecause: t.Unit.Because, UnitGuessed: t.UnitGuessed,
		Sizes: t.Sizes, Size: t.Size, Lines: len(t.Lines), Pieces: []takenPiece{}, Faults: []takenFault{},
		LeftOut: t.LeftOut, Parts: t.tables}
	for _, p := range t.Pieces {
		ring := p.Outer()
		b := ring.Bound()
		piece := takenPiece{Number: p.Number, Name: p.Name, ID: p.ID, Label: p.Label, Layer: p.Layer, Block: p.Block,
			Size: p.Size, Place: p.Place, Lines: p.Lines, Corners: p.Corners, Width: b.Max[0] - b.Min[0],
			Height: b.Max[1] - b.Min[1], Area: plane.Area(ring), Outline: p.Outline.String(), CutDrawn: p.Cut != nil,
			Count: p.Copies.Count, Pair: p.Copies.Pair, CountGuessed: !p.Copies.Said, CountBecause: p.Copies.Because,
			Grain: grainWords(p.Shape), OnFold: p.Fold >= 0, Notches: len(p.Notches), Darts: len(p.Darts),
			Faults: p.Faults, Because: p.Because, Material: p.Material, LowLeftCorner: b.Min}
		for _, e := range p.Edges {
			piece.EdgeNames = append(piece.EdgeNames, e.Name)
		}
		f.Pieces = append(f.Pieces, piece)
	}
	for i, fault := range t.Faults {
		f.Faults = append(f.Faults, takenFault{i + 1, fault.Kind.String(), fault.What.String(), fault.Hint, fault.At,
			fault.Place, fault.Shape, fault.Kind.Stops()})
	}
	return f
}
