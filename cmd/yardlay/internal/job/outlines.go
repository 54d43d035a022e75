package job

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/draft"
	"yardlay/shapes/outline"
	"yardlay/shapes/say"
)

// outlines are shapes of a drawing, which is read when they are drafted.
type outlines struct {
	draft.Outline
	*noted
	path    string
	fileAt  strict.Position
	disk    *disk
	options outline.Options
	chosen  []chosen // none: all
	size    string
	sizeAt  strict.Position
	fold    string // a side, "drawn" or "none"
	foldAt  strict.Position
	joinAt  strict.Position
}

// chosen is which shapes one table of `shapes` chooses.
type chosen struct {
	at     strict.Position
	number int
	name   string
	outline.Marks
}

// fits says whether a shape is chosen: its name, and the marks of any line of its outline.
func (c chosen) fits(s outline.Shape) bool {
	if c.number != 0 && c.number != s.Number || c.name != "" && !strings.EqualFold(c.name, s.Name) {
		return false
	}
	same := func(want, has string) bool { return want == "" || strings.EqualFold(want, has) }
	fits := func(m outline.Marks) bool {
		return same(c.ID, m.ID) && same(c.Layer, m.Layer) && same(c.Block, m.Block) && same(c.Colour, m.Colour)
	}
	return fits(s.Marks) || slices.ContainsFunc(s.Edges, func(e outline.Edge) bool { return fits(e.Marks) })
}

// Draft reads the drawing and draws the shapes that are chosen. Errors stand at the key
// that they are about.
func (o outlines) Draft() (draft.Result, error) {
	if mm := o.options.Tolerance; mm > outline.MaxTolerance {
		return draft.Result{}, &placed{o.joinAt, say.Errorf("`join` is %.4g, the most is %v", say.MM(mm),
			say.MM(outline.MaxTolerance)).Hint("close larger gaps where the outline was drawn")}
	}
	found, err := o.disk.shapesIn(o.path, o.options)
	if errors.As(err, new(outline.ErrNoUnit)) {
		err = say.Errorf("%s: %w", o.path, err).Hint("say how long one is with `one_unit`; `yardlay take` guesses it")
	}
	if err != nil {
		return draft.Result{}, &placed{o.fileAt, err}
	}
	at := o.fileAt
	list, err := o.choose(found)
	if err == nil {
		list, err = o.ofSize(list)
	}
	if err == nil {
		list, err = o.folded(list)
	}
	if err == nil {
		list, err = outline.Fewer(list)
	}
	if err == nil {
		err = o.counted(list)
	}
	if err != nil {
		return draft.Result{}, o.inFile(at, err)
	}
	o.Shapes = list
	d, err := o.Outline.Draft()
	if err != nil {
		return draft.Result{}, o.inFile(at, err)
	}
	if !isGeoJSON(o.path) {
		d.Notes = append(notesOf(found, list), d.Notes...)
	}
	return d, nil
}

// inFile puts the file before an error, and places it unless it has a place.
func (o outlines) inFile(at strict.Position, err error) error {
	if p := (*placed)(nil); errors.As(err, &p) {
		return &placed{p.at, say.Errorf("%s: %w", o.path, p.err)}
	}
	return &placed{at, err}
}

// choose returns the shapes that are chosen, each once, in the order in which they are.
// Without a choice all are, and none may be spoilt.
func (o outlines) choose(found outline.Assembly) ([]outline.Shape, error) {
	spoilt := slices.IndexFunc(found.Faults, func(f outline.Fault) bool { return f.Kind.Stops() })
	if len(o.chosen) == 0 {
		switch {
		case spoilt >= 0:
			return nil, &placed{o.fileAt, found.Faults[spoilt].Error()}
		case len(found.Shapes) == 0:
			return nil, &placed{o.fileAt, say.Errorf("no closed outline is in it").
				Hint("`yardlay take` shows what the file holds")}
		}
		return found.Shapes, nil
	}
	var list []outline.Shape
	taken := map[int]bool{}
	for _, c := range o.chosen {
		any := false
		for _, s := range found.Shapes {
			if !c.fits(s) {
				continue
			}
			if any = true; !taken[s.Number] {
				taken[s.Number] = true
				list = append(list, s)
			}
		}
		if any {
			continue
		}
		if spoilt >= 0 {
			return nil, &placed{c.at, say.Errorf("none of its shapes fits; besides, %w", found.Faults[spoilt].Error())}
		}
		return nil, &placed{c.at, say.Errorf("none of its shapes fits").Hint("it has %s", shapesNamed(found.Shapes))}
	}
	return list, nil
}

// mostNamed is how many shapes a hint names.
const mostNamed = 8

// shapesNamed lists shapes by their numbers.
func shapesNamed(list []outline.Shape) string {
	var words []string
	for _, s := range list[:min(len(list), mostNamed)] {
		words = append(words, fmt.Sprintf("%d %s", s.Number, s.Name))
	}
	if more := len(list) - mostNamed; more > 0 {
		words = append(words, fmt.Sprintf("%d more", more))
	}
	return strings.Join(words, ", ")
}

// ofSize leaves the shapes of the size asked for, and those that have none.
func (o outlines) ofSize(list []outline.Shape) ([]outline.Shape, error) {
	var sizes []string
	for _, s := range list {
		if s.Size != "" && !slices.Contains(sizes, s.Size) {
			sizes = append(sizes, s.Size)
		}
	}
	shown := strings.Join(sizes[:min(len(sizes), 3*mostNamed)], ", ")
	switch {
	case o.size == "" && len(sizes) > 1:
		return nil, &placed{o.fileAt, say.Errorf("it has the sizes %s, and one is cut", shown).
			Hint("choose one: size = %q", sizes[0])}
	case o.size == "":
		return list, nil
	case !slices.ContainsFunc(sizes, func(s string) bool { return strings.EqualFold(s, o.size) }):
		if shown == "" {
			return nil, &placed{o.sizeAt, say.Errorf("it has no sizes").Hint("leave `size` out")}
		}
		return nil, &placed{o.sizeAt, say.Errorf("it has no size %q", o.size).Hint("it has %s", shown)}
	}
	return slices.DeleteFunc(slices.Clone(list), func(s outline.Shape) bool {
		return s.Size != "" && !strings.EqualFold(s.Size, o.size)
	}), nil
}

// folded puts edges on a fold as the part says.
func (o outlines) folded(list []outline.Shape) ([]outline.Shape, error) {
	if o.fold == "drawn" {
		return list, nil
	}
	out := make([]outline.Shape, len(list))
	for i, s := range list {
		if out[i] = s.Unfolded(); o.fold == "none" {
			continue
		}
		var err error
		if out[i], err = s.FoldedAt(o.fold); err != nil {
			return nil, &placed{o.foldAt, err}
		}
	}
	return out, nil
}

// maxOutlinedCorners is how many corners the outlines of all parts may have in all, for each
// cloth and body: as many as can be laid in the time of any other job.
const maxOutlinedCorners = 200_000

// counted counts the corners of shapes into those of the job.
func (o outlines) counted(list []outline.Shape) error {
	n := 0
	for _, s := range list {
		n += len(s.Ring())
	}
	if o.noted.corners.Add(int64(n)) > maxOutlinedCorners {
		return &placed{o.fileAt, say.Errorf("the outlines of all parts, for each cloth and body, have over %d corners, "+
			"the most of a job", maxOutlinedCorners).
			Hint("draw curves with fewer corners, or share the parts out over several jobs")}
	}
	return nil
}

// mostNotes is how many notes are made of one drawing.
const mostNotes = 20

// notesOf are what the maker should know of how some shapes were read.
func notesOf(found outline.Assembly, list []outline.Shape) (notes []say.Text) {
	joined := 0
	for _, f := range found.Faults {
		mine := slices.ContainsFunc(list, func(s outline.Shape) bool { return s.Number == f.Shape })
		switch {
		case f.Kind == outline.Joined && mine:
			joined++
		case f.Kind == outline.WrongUnit && mine, f.Kind == outline.Doubtful && mine, f.Kind == outline.Hole && mine:
			notes = append(notes, say.Textf("%v, at %s.", f.What, f.Place))
		}
	}
	if joined > 0 {
		notes = append(notes, say.Textf("%s of ends of lines that did not meet are joined.", say.Count(joined, "pair")))
	}
	for _, s := range list {
		for _, why := range s.Because {
			notes = append(notes, say.Textf("%s: %s", s.Name, why))
		}
	}
	if n := len(notes); n > mostNotes {
		notes = append(notes[:mostNotes], say.Textf("%d more remarks: `yardlay take` shows them.", n-mostNotes))
	}
	return notes
}

// maxOutlined is how many bytes of GeoJSON the parts of a job may have in all, a file counted
// once for each cloth and body: some 100,000 corners. maxDrawings is how many bytes of other
// drawings, each counted once: as much as two of the largest.
const (
	maxOutlined = 4 << 20
	maxDrawings = 2 * outline.MaxDrawingBytes
)

// outlined counts a file of outlines; what else is wrong with it is told when it is
// drafted.
func (p *partTable) outlined(path string) {
	info, err := p.disk.stat(path)
	if path == "" || err != nil || !info.Mode().IsRegular() {
		return
	}
	size, most, counted := info.Size(), int64(maxDrawings), &p.drawnBytes
	if isGeoJSON(path) {
		size, most, counted = size*int64(max(1, len(p.cloths))), maxOutlined, &p.outlinedBytes
	} else if slices.Contains(p.drawings, path) {
		return
	}
	p.drawings = append(p.drawings, path)
	if *counted += size; *counted <= most {
		return
	}
	if isGeoJSON(path) {
		p.Fail(p.Field("file").Value.At, "draw curves with fewer corners, or share the parts out over several jobs",
			"the outlines of all parts, for each cloth and body, are over %d MiB of text, the most of a job", most>>20)
		return
	}
	p.Fail(p.Field("file").Value.At, "share the parts out over several jobs, or save the pieces alone",
		"the drawings of all parts are over %d MiB, the most of a job", most>>20)
}
