package form

import (
	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/say"
)

// Put writes changes into the text of a file where they go.
func Put(src []byte, spots []job.Spot) ([]byte, error) {
	for _, s := range spots {
		var err error
		if src, err = edit.Set(src, pathOf(s), Written(s)); err != nil {
			return nil, say.Errorf("the change cannot be written: %w", err)
		}
	}
	return src, nil
}

// pathOf leads to where a change goes.
func pathOf(s job.Spot) (at edit.Path) {
	if s.List != "" {
		at = edit.Of(s.List)
	}
	if s.Item >= 0 {
		at = at.Item(s.Item)
	}
	for _, key := range s.Keys {
		at = at.Key(key)
	}
	return at
}

// Written is what a change writes.
func Written(s job.Spot) edit.Value {
	if s.TOML {
		return edit.TOML(s.Text)
	}
	return edit.Text(s.Text)
}
