package job

// parse reads a job as it is written.
func parse(name string, src []byte) (*Job, error) { return readAs(name, src, nil) }

// vary reads a job as it would be with changes.
func readAs(name string, src []byte, changes []Change) (*Job, error) {
	f, err := Read(name, src)
	if err != nil {
		return nil, err
	}
	return f.With(changes)
}
