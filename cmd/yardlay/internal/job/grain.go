package job

// Grain says how the grain of a part's pieces runs on the cloth. It is kept
// whatever the nap: that says which way along the grain pieces may point.
type Grain string

// The grains. Bias is the true bias: 45 degrees between warp and weft. Free is
// never written in a job: it is that of drafts whose pieces hang alike either way.
const (
	LengthwiseGrain Grain = "lengthwise" // along the warp
	CrossGrain      Grain = "cross"      // along the weft
	EitherGrain     Grain = "either"
	BiasGrain       Grain = "bias"
	FreeGrain       Grain = "free" // either on cloth that is alike all ways, else along the warp
)

// freedom says what the pieces of a draft ask of the grain when the job says nothing.
type freedom int

const (
	keepsGrain freedom = iota
	freeOfGrain
	freeInNet // free where they are cut from net, which has no grain to speak of (common practice)
)

// aboutGrain says it in the reference; "" where the grain is kept.
func (d family) aboutGrain() string {
	switch {
	case d.grain == freeOfGrain:
		return "On all-way cloth its pieces may lie as drawn or turned by a quarter."
	case d.grain == freeInNet:
		return "Cut from net they may lie as drawn or turned by a quarter, on all-way cloth."
	}
	return ""
}

// grainOn returns the grain of a part on one of its cloths. What is drawn on the
// bias is on the bias as drawn.
func (p *partTable) grainOn(c Cloth, said Grain) Grain { return p.drawn.grainOn(c, said, p.onBias) }

// grainOn is the same of a part that has been read.
func (p Part) grainOn(c Cloth) Grain { return p.family().grainOn(c, p.Grain, p.OnBias) }

func (f family) grainOn(c Cloth, said Grain, onBias bool) Grain {
	switch {
	case said == BiasGrain && onBias, said == "" &&
		(f.grain == keepsGrain || f.grain == freeInNet && !c.Net):
		return LengthwiseGrain
	case said == "":
		return FreeGrain
	}
	return said
}

// grain reads which grain a part or a layer is cut on; "" where it does not say.
func (t *table) grain(otherwise Grain) Grain {
	if !t.Has("grain") {
		return otherwise
	}
	return Grain(t.Choice("grain"))
}

// mostTilt is the most degrees a maker may let a piece lean off its grain. A
// gown hangs askew well before: common practice keeps within 2 or 3.
const mostTilt = 10

// onGrain reads how the part lies and how often it is cut.
func (t *table) onGrain(p *Part) {
	p.Times = t.Count("times", 1)
	p.Count, p.Keep = p.Times, t.kept()
	p.Grain = t.grain("")
	p.Tilt, _ = t.Ratio("tilt")
}

// mostTimes is the most times a part is cut for one gown: a garland of petals.
const mostTimes = 100
