package job

import "testing"

// Every default that is named stands; every key has its meaning.
func TestReferenceIsWhole(t *testing.T) {
	for _, s := range Reference() {
		for _, k := range s.Keys {
			if k.Name == "" || k.Kind.Form == 0 || k.Meaning == "" {
				t.Errorf("%s: key %+v", s.Title, k)
			}
		}
	}
}
