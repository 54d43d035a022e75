package kept

import (
	"fmt"
	"slices"

	"yardlay/nest"
	"yardlay/shapes/say"
)

// Lines say how a kept layout stands to the job as it is now, a sentence or two each, lengths
// as shown: what is gone on from, what changed, and what becomes of it.
func (s State) Lines(file string, show say.Show) []string {
	if s.Missing {
		return []string{fmt.Sprintf("%s: %s has no layout of it. It is laid anew.", s.Cloth, file)}
	}
	var lines []string
	add := func(format string, args ...any) {
		lines = append(lines, s.Cloth+": "+fmt.Sprintf(format, args...))
	}
	if len(s.Ground) > 0 {
		add("its %s changed since %s was kept.", say.InWords(s.Ground, "and"), file)
	}
	if len(s.Changed) > 0 {
		add("%s changed since %s was kept. All copies are laid anew.", quoted(s.Changed), file)
	}
	if fresh := less(s.Fresh, s.Changed); len(fresh) > 0 {
		add("%s has not every copy of %s that is cut now. The others are laid anew.", file, quoted(fresh))
	}
	if len(s.Gone) > 0 {
		add("%s has copies of %s that are not cut any more. They are left out.", file, quoted(s.Gone))
	}
	for _, u := range s.Unpinned {
		add("%q copy %d cannot stay pinned: %s. It is laid anew.", u.Piece, u.Copy+1, in(show, u.Why))
	}
	switch {
	case s.Begun:
		add("goes on from %s, %s%s.", file, unmoved(s.Kept), s.pins(", %s pinned"))
	case s.Broken != nil && len(s.Unpinned) == 0:
		add("the layout in %s holds no more: %s. Its pieces are laid anew%s.", file, in(show, s.Broken),
			s.pins(", but for %s pinned"))
	case s.Pinned > 0:
		add("%s", staying(s.Pinned))
	default:
		add("nothing is pinned now, so all pieces are laid anew.")
	}
	return lines
}

// pins says how many are pinned, within words; "" where none are.
func (s State) pins(words string) string {
	if s.Pinned == 0 {
		return ""
	}
	return fmt.Sprintf(words, fmt.Sprint(s.Pinned))
}

func unmoved(n int) string {
	if n == 1 {
		return "its piece lying as it did"
	}
	return fmt.Sprintf("its %d pieces lying as they did", n)
}

func staying(n int) string {
	if n == 1 {
		return "1 piece stays pinned, the others are laid around it."
	}
	return fmt.Sprintf("%d pieces stay pinned, the others are laid around them.", n)
}

// in says a broken rule with lengths as shown.
func in(show say.Show, b *nest.Broken) string {
	what, _ := b.Parts(show)
	return what
}

// less returns the names that are not among others.
func less(names, others []string) []string {
	return slices.DeleteFunc(slices.Clone(names), func(n string) bool { return slices.Contains(others, n) })
}

// quoted lists names as in a sentence, the first ten.
func quoted(names []string) string {
	const most = 10
	list := say.Quoted(names[:min(len(names), most)], "`")
	if more := len(names) - most; more > 0 {
		list = append(list, fmt.Sprintf("%d more", more))
	}
	return say.InWords(list, "and")
}

// Unused says which cloths of a file are none of those laid; "" where there are none.
func (f *File) Unused(cloths []string) string {
	var names []string
	for _, c := range f.Cloths {
		if !slices.Contains(cloths, c.ID) {
			names = append(names, c.ID)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf("%s has a layout of %s, from which nothing is cut now.", f.Name, quoted(names))
}
