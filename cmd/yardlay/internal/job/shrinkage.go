package job

// Shrinkage is how a cloth changes in its first wash: (after - before)/before
// along the warp and the weft, negative where it shrinks (ISO 5077). The zero
// value is a cloth that keeps its size.
type Shrinkage struct {
	Warp, Weft float64 // ratios, -0.30 to 0.10
	Prewash    bool    // the cloth is washed before cutting; else pieces are drawn larger
}

// Least and most dimensional change taken. Rayon, the worst of common cloths,
// loses 5 to 10 % (Sarkar, onlineclothingstudy.com, 2018): three times that, or
// a growth of a tenth, is a slip of the pen.
const leastChange, mostChange = -0.30, 0.10

const shrinkageExample = `{ warp = "-3 %", weft = "-2 %", by = "prewash" }`

// shrinkage reads how the cloth changes, and what is done about it.
func (t *table) shrinkage() Shrinkage {
	s := t.sub("shrinkage", "`shrinkage` of "+t.name, shrinkageExample)
	if s == nil {
		return Shrinkage{}
	}
	var change Shrinkage
	change.Warp, _ = s.percent("warp", "-3 %", true, leastChange, mostChange)
	change.Weft, _ = s.percent("weft", "-2 %", true, leastChange, mostChange)
	if !s.has("warp") && !s.has("weft") {
		s.need("warp", "for example shrinkage = "+shrinkageExample)
	}
	if s.has("by") {
		change.Prewash = s.choice("by", "pieces", "prewash") == "prewash"
	} else {
		s.need("by", `by = "prewash" where the cloth is washed before cutting, by = "pieces" to draw the pieces larger instead; never both`)
	}
	s.finish()
	return change
}
