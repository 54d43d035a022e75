package job

// Keep says what of a part is cut from one length of cloth.
type Keep string

// What is kept together, the most first. The dye of two lots seldom agrees to the
// eye: the pieces of a garment are cut from one (common practice).
const (
	KeepGown    Keep = "gown"    // all parts of a gown that say so
	KeepGarment Keep = "garment" // the part, of one wearer
	KeepPair    Keep = "pair"    // left and right
	KeepPiece   Keep = "piece"   // no more than the piece itself
)

// Lots says which lengths of a cloth are of one dye lot.
type Lots string

// The lots of a cloth. Who buys several lengths at once can ask for one lot; what
// lies on the shelf was bought before.
const (
	LotsBought Lots = "bought" // what is bought at once agrees, leftovers need not
	LotsAll    Lots = "all"    // leftovers agree with it too
	LotsNone   Lots = "none"   // no two lengths need agree
)

// kept reads what of a part is kept on one length; "" where the file says nothing.
func (t *table) kept() Keep {
	if !t.Has("keep") {
		return ""
	}
	return Keep(t.Choice("keep"))
}
