package job

// Shrinkage is how a cloth changes in its first wash: (after - before)/before
// along the warp and the weft, negative where it shrinks (ISO 5077). The zero
// value is a cloth that keeps its size.
type Shrinkage struct {
	Warp, Weft float64 // ratios, -0.30 to 0.10
	Prewash    bool    // the cloth is washed before cutting; else pieces are drawn larger
}
