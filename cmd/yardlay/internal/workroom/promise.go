package workroom

import (
	"path/filepath"
	"slices"

	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/say"
)

// Promise writes into the text of a book that leftovers are to be cut for a job: those it was laid on, and no
// others any more. It refuses one that is gone, is another now, or is promised to another job.
func Promise(src []byte, w *job.Workroom, file string, to []job.Have) ([]byte, error) {
	file = filepath.Base(file)
	src, _, err := Release(src, w, file)
	if err != nil {
		return nil, err
	}
	for _, h := range to {
		i := slices.IndexFunc(w.Leftovers, func(l job.Leftover) bool { return l.Name == h.Name })
		switch {
		case i < 0 || !sameCloth(w.Leftovers[i].Have, h):
			return nil, say.Errorf("leftover `%s` is not on the shelf as it was when %s was laid", h.Name, file).
				Hint("lay it again: run the command once more")
		case w.Leftovers[i].Used != "":
			return nil, say.Errorf("leftover `%s` was used for %s", h.Name, w.Leftovers[i].Used).Hint("lay %s again", file)
		case w.Leftovers[i].Promised != "" && w.Leftovers[i].Promised != file:
			return nil, say.Errorf("leftover `%s` is promised to %s", h.Name, w.Leftovers[i].Promised).
				Hint("lay %s again without it", file)
		}
		if src, err = edit.Set(src, edit.Of("leftover").Item(i).Key("promised"), edit.Text(file)); err != nil {
			return nil, err
		}
	}
	return src, nil
}

// Release makes all leftovers free that are promised to a job and not used for it yet, and names them.
func Release(src []byte, w *job.Workroom, file string) (_ []byte, names []string, err error) {
	file = filepath.Base(file)
	for i, l := range w.Leftovers {
		if l.Promised != file || l.Used != "" {
			continue
		}
		if src, err = edit.Remove(src, edit.Of("leftover").Item(i).Key("promised")); err != nil {
			return nil, nil, err
		}
		names = append(names, l.Name)
	}
	return src, names, nil
}
