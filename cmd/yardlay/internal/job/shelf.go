package job

import "github.com/paulmach/orb"

// Flaw is a place on a cloth that no piece may cover.
type Flaw struct {
	// Outline is closed, counter-clockwise and simple, mm as given in the file: x
	// from the cut end, y from the lower edge of the full width, selvedge included.
	Outline orb.Ring
	At      Position
}

// Have is a length of a cloth on the shelf. Lengths are in mm.
type Have struct {
	Name   string // unique within the cloth
	Length float64
	Width  float64 // from edge to edge, the cloth's selvedges included; 0: the cloth's own
	Flaws  []Flaw
	At     Position
}
