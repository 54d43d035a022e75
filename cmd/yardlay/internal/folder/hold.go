package folder

import "os"

// Hold takes what only one run at a time may have, by the name of a file in a folder
// that is there: until release is called, or the run ends however it does. busy says
// that another has it, and then there is nothing to release.
func Hold(name string) (release func(), busy bool, err error) {
	l, busy, err := take(name)
	if busy || err != nil {
		return nil, busy, err
	}
	return func() {
		os.Remove(name) // while it is held
		l.release()
	}, false, nil
}
