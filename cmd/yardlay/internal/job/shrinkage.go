package job

import "fmt"

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
	s := t.sub("shrinkage", "`shrinkage` of "+t.Name, shrinkageExample)
	if s == nil {
		return Shrinkage{}
	}
	var change Shrinkage
	change.Warp, _ = s.Percent("warp", "-3 %", unsigned("warp"))
	change.Weft, _ = s.Percent("weft", "-2 %", unsigned("weft"))
	if !s.Has("warp") && !s.Has("weft") {
		s.Need("warp", "for example shrinkage = "+shrinkageExample)
	}
	if s.Has("by") {
		change.Prewash = s.Choice("by") == "prewash"
	} else {
		s.Need("by", `by = "prewash" where the cloth is washed before cutting, by = "pieces" to draw the pieces larger `+
			`instead; never both`)
	}
	s.Finish()
	return change
}

// unsigned tells what the sign of a change means.
func unsigned(key string) func(text string) string {
	return func(text string) string {
		return fmt.Sprintf("%s = \"-%s\" where the cloth shrinks, \"+%s\" where it grows (ISO 5077)", key, text, text)
	}
}
