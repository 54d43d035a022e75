package job

// Repeat is the distance after which the pattern of a cloth comes again, mm; 0
// where it has none.
type Repeat struct{ Along, Across float64 }

// Match is a set of points on seam lines that agree modulo the cloth's repeat.
type Match struct {
	Name   string
	Cloth  string       // id of a cloth with a repeat
	Points []MatchPoint // at least two
	At     Position
}

// MatchPoint is a place on a seam line. Whether there are such a piece and edge
// is known once the parts are drafted.
type MatchPoint struct {
	Piece    string  // its full name, as in the cut list
	Edge     string  // the piece's edge
	Distance float64 // along the edge, mm
	FromEnd  bool    // measured from the end of the edge, not from its start
	At       Position
}
