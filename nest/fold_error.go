package nest

import "yardlay/shapes/say"

// LayError says what keeps the cloth of a problem from being spread in a lay.
type LayError struct {
	Lay    Lay
	Brief  string     // what is in the way, in a few words without lengths
	Size   *SizeError // of a piece too large for the folded cloth; nil when something else is in the way
	Remedy Remedy

	why say.Text
}

// Error names the piece or what of the cloth is in the way, and then what would help.
func (e *LayError) Error() string { return say.Join(e.Parts(nil)) }

// Parts returns the two apart, with lengths as shown.
func (e *LayError) Parts(show say.Show) (what, hint string) { return e.why.In(show), e.Remedy.String() }

// Remedy is what would help where cloth cannot be spread in a lay.
type Remedy uint8

// Remedies.
const (
	LayOpen Remedy = iota
	LayOpenOrCutOut
	TurnUpperOrLayOpen
)

func (r Remedy) String() string {
	return [...]string{
		"lay the cloth open",
		"lay the cloth open, or cut the flaws out",
		"cut the cloth along the fold and turn the upper layer, or lay it open",
	}[r]
}
