package strict

// Distinct refuses two things of one name. called is what the file names them
// by; those without a name are passed over.
func Distinct[T any](r *Reader, all []T, kind, called string, name func(T) (string, Position)) {
	first := map[string]Position{}
	for _, one := range all {
		name, at := name(one)
		if name == "" {
			continue
		}
		if before, twice := first[name]; twice {
			r.Fail(at, "give each "+kind+" "+called+" of its own", "%s `%s` is already on line %d",
				kind, name, before.Line)
			continue
		}
		first[name] = at
	}
}
