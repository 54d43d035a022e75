package folder

import "time"

// Await waits until no files change places in any folder, at most so long: who
// ends the program at once should not do it between two of them.
func Await(most time.Duration) {
	for end := time.Now().Add(most); !moving.TryLock(); time.Sleep(time.Millisecond) {
		if time.Now().After(end) {
			return
		}
	}
}
