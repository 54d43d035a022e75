package draft

// Divided is a draft that goes round in a number of pieces which may be chosen: of
// more of them, each is narrower.
type Divided interface {
	Draft
	Division() Division
	// Divide returns the same draft in another number of pieces.
	Divide(pieces int) Draft
}

// Division says in how many pieces a draft goes round.
type Division struct {
	Called string // what the number is called
	Pieces int    // 0 where the draft chooses it
	Step   int    // by how many it is worth varying in a comparison; 0: it is not
}

func inSections(n int) Division { return Division{Called: "sections", Pieces: n} }
