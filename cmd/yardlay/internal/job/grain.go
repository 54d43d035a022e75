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

// mostTilt is the most degrees a maker may let a piece lean off its grain. A
// gown hangs askew well before: common practice keeps within 2 or 3.
const mostTilt = 10

// onGrain reads how the part lies and how often it is cut.
func (t *table) onGrain(p *Part) {
	p.Count = t.count("times", 1, 1, mostTimes)
	p.Grain = Grain(t.choice("grain", string(LengthwiseGrain), string(CrossGrain), string(EitherGrain), string(BiasGrain)))
	p.Tilt, _ = t.ratio("tilt", 0, mostTilt)
}

// mostTimes is the most times a part is cut for one gown: a garland of petals.
const mostTimes = 100
