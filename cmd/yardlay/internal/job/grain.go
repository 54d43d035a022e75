package job

// Grain says how the grain of a part's pieces runs on the cloth.
type Grain string

// The grains. Bias is the true bias: 45 degrees between warp and weft.
const (
	LengthwiseGrain Grain = "lengthwise" // along the warp
	CrossGrain      Grain = "cross"      // along the weft
	EitherGrain     Grain = "either"
	BiasGrain       Grain = "bias"
)
