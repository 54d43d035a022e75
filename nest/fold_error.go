package nest

// LayError says what keeps the cloth of a problem from being spread in a lay.
type LayError struct {
	Lay   Lay
	Brief string     // what is in the way, in a few words without lengths
	Size  *SizeError // of a piece too large for the folded cloth; nil when something else is in the way
	text  string
}

// Error names the piece or what of the cloth is in the way, and ends in what
// would help.
func (e *LayError) Error() string { return e.text }
