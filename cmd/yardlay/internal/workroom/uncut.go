package workroom

import (
	"bytes"
	"path/filepath"
	"slices"

	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/say"
)

// Uncut takes back what Cutting.Into wrote for a job: byte for byte where the book is as that left it,
// else value by value. It refuses where something that was left has been used since, or is promised, and
// where something that was used is not in the book any more.
func Uncut(src []byte, w *job.Workroom, file string) ([]byte, error) {
	file = filepath.Base(file)
	at := slices.IndexFunc(w.Gowns, func(g job.Gown) bool { return g.Job == file })
	if at < 0 || w.Gowns[at].Cut == nil {
		return nil, say.Errorf("%s is not cut, by the book", file).Hint("`yardlay cut %s` says that it is", file)
	}
	cut := w.Gowns[at].Cut
	left, err := leftOf(w, *cut, file)
	if err != nil {
		return nil, err
	}
	if src, err = unused(src, w, *cut, file); err != nil {
		return nil, err
	}
	slices.Sort(left)
	slices.Reverse(left)
	for _, i := range left {
		if src, err = edit.Remove(src, edit.Of("leftover").Item(i)); err != nil {
			return nil, err
		}
	}
	gown := edit.Of("gown").Item(at)
	if src, err = edit.Remove(src, gown.Key("cut")); err != nil {
		return nil, err
	}
	without, err := edit.Remove(src, gown)
	if err != nil {
		return nil, err
	}
	return asBefore(cut.Before, src, without), nil
}

// leftOf finds what a cut left, by its number among the leftovers; what is gone from the book is passed over.
func leftOf(w *job.Workroom, cut job.WasCut, file string) (all []int, err error) {
	for _, c := range cut.Cloths {
		for _, name := range c.Left {
			i := slices.IndexFunc(w.Leftovers, func(l job.Leftover) bool { return l.Name == name })
			if i < 0 {
				continue
			}
			switch l := w.Leftovers[i]; {
			case l.Used != "":
				return nil, say.Errorf("`%s`, which %s left, was used for %s since", name, file, l.Used).
					Hint("`yardlay cut %s --undo` first, if that was not cut either", l.Used)
			case l.Promised != "" && l.Promised != file:
				return nil, say.Errorf("`%s`, which %s left, is promised to %s", name, file, l.Promised).
					Hint("`yardlay shelf --release %s` makes it free", l.Promised)
			}
			all = append(all, i)
		}
	}
	return all, nil
}

// unused puts back on the shelf what a cut used.
func unused(src []byte, w *job.Workroom, cut job.WasCut, file string) (_ []byte, err error) {
	for _, c := range cut.Cloths {
		for _, name := range c.Used {
			i := slices.IndexFunc(w.Leftovers, func(l job.Leftover) bool { return l.Name == name && l.Used == file })
			if i < 0 {
				return nil, say.Errorf("`%s`, which %s was cut from, is not in the book as used for it", name, file).
					Hint("write it there by hand with its measures and used = %q, then undo", file)
			}
			if src, err = edit.Remove(src, edit.Of("leftover").Item(i).Key("used")); err != nil {
				return nil, err
			}
		}
	}
	return src, nil
}

// asBefore returns the text that bears the mark of the book before the cut: with the gown or, where the cut
// put it there, without it, whatever line ends the last line had. Where none does, the book was changed
// since, and the gown stays.
func asBefore(mark string, with, without []byte) []byte {
	for _, text := range [][]byte{with, without} {
		bare := bytes.TrimRight(text, "\r\n")
		for _, end := range []string{string(text[len(bare):]), "", "\n", "\r\n", "\n\n", "\r\n\r\n", "\n\n\n"} {
			if one := append(slices.Clone(bare), end...); markOf(one) == mark {
				return one
			}
		}
	}
	return with
}
