package nofit

func never() bool { return false }

// made returns a region that nothing stops.
func made(a, b *Shape, keep Clearance) *Region { return New(never, a, b, keep) }
