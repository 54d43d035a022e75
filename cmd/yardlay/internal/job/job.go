// Package job reads the job file: one TOML file with the measures, the cloths
// and the parts of a gown. Reading is strict, and every error has its place in
// the file and, where there is one, a hint.
package job

import (
	"fmt"
	"sync"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cost"
	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// Job is a job file that has been read and found whole. Lengths are in mm.
type Job struct {
	File     string // as given, for messages and for files that parts refer to
	Title    string
	Unit     measure.Unit // what the file counts in
	Currency string       // ISO 4217
	Cloths   []Cloth
	Bodies   []Body // one at least
	Parts    []Part // of one body after the other
	Matches  []Match

	// What a quote is made of besides the cloths.
	Suppliers []Supplier
	Notions   []Notion
	Labour    Labour
	Terms     Terms

	Room      *Workroom // that the job stands in; nil for none
	RatesFrom string    // the file that labour, terms, suppliers and notions are shared in; "" for none
}

// ShownIn returns the job with lengths in words in another unit.
func (j *Job) ShownIn(unit measure.Unit) *Job {
	shown := *j
	shown.Unit = unit
	return &shown
}

// Part is one part of the gown for one body: the same draft in each of its cloths.
type Part struct {
	Name     string  // with that of its body before it, where the job has several
	Called   string  // in the file, where several bodies share it
	Body     string  // the name of its body; "" of the only one
	Draft    string  // the name of the draft
	Count    int     // how many times all its pieces are cut for one gown and all who wear it, at least 1
	Times    int     // how many of those each gown has, at least 1
	Keep     Keep    // what of it is cut from one length; "": a garment, between lots that may differ
	Grain    Grain   // as written; "" where the draft says
	OnBias   bool    // its pieces are drawn on the bias
	Tilt     float64 // degrees a piece may be turned off its grain either way, 0 to 10
	At       strict.Position
	Layers   []Layer
	Place    Place                     // where its corners are cut off
	SlitInto *SlitInto                 // the part whose seams godets are set into; nil for none
	SetInto  *Neighbour                // the part with the armholes that a sleeve is drafted to; nil for none
	SewnTo   *Neighbour                // the part that it is sewn to; nil for none
	Girths   map[draft.Passage]float64 // of its body, as far as they are known, mm

	// Asked for; what is cut of them is among the layers.
	Facings  []Facing
	Closings []Closing

	Unmeasured []Unmeasured // measures of its body that it is drafted by and nobody took
}

// Layer is a part in one cloth.
type Layer struct {
	Cloth   string // id of the cloth
	Grain   Grain
	Draft   draft.Draft // drawn for this cloth
	Mounted Mounting    // basted to the outer layer piece by piece, and sewn as one with it

	Finish  draft.Finish   // of its edges
	Corners *draft.Corners // that are pieced; nil: none

	made *made // what it comes to
}

// made is what a draft comes to, from when it is first asked for.
type made struct {
	once    sync.Once
	drafted draft.Result
	err     error
}

// DrawnAs returns the layer drawn by a draft.
func (l Layer) DrawnAs(d draft.Draft) Layer {
	l.Draft, l.made = d, new(made)
	return l
}

// Whole returns the layer with its pieces whole.
func (l Layer) Whole() Layer {
	if l.Corners == nil {
		return l
	}
	l.Corners, l.made = nil, new(made)
	return l
}

// Drafted returns what the draft comes to. It is drafted once, however often and from
// wherever it is asked for, and is not to be changed; errors are not placed in the file.
func (l Layer) Drafted() (draft.Result, error) {
	l.made.once.Do(func() {
		l.made.drafted, l.made.err = l.draft(func([]shapes.Piece) error { return nil })
	})
	return l.made.drafted, l.made.err
}

// Marked returns the pieces of the layer with what is marked on them while they are whole: what is marked on a piece
// that is cut in two lies on its parts.
func (l Layer) Marked(mark func(whole []shapes.Piece) error) ([]shapes.Piece, error) {
	if l.Corners != nil {
		drafted, err := l.draft(mark)
		return drafted.Pieces, err
	}
	drafted, err := l.Drafted()
	if err != nil {
		return nil, err
	}
	pieces := drafted.ToMark()
	return pieces, mark(pieces)
}

// draft drafts the layer anew, and has its pieces marked while they are whole.
func (l Layer) draft(mark func(whole []shapes.Piece) error) (draft.Result, error) {
	before, err := l.Draft.Draft()
	if err != nil {
		return before, err
	}
	drafted, err := l.Finish.Of(before)
	if err != nil {
		return drafted, err
	}
	drafted.Pieces = drafted.ToMark()
	if err := mark(drafted.Pieces); err != nil || l.Corners == nil {
		return drafted, err
	}
	return l.Corners.OfFinished(drafted, before)
}

// Most cloths and parts a job may have: ten times any gown.
const maxCloths, maxParts = 64, 256

// maxDrafts is how often parts may be drafted in all, for each body and in each
// cloth: three times a chorus of 32 sizes in ten parts, each in two cloths.
const maxDrafts = 2000

// job reads the whole file.
func (r *reader) job(root *strict.Value) *Job {
	t := r.table(r.room.inherited(root), "the job", fileKeys)
	j := &Job{File: r.File, Room: r.room}
	j.Title, _, _ = t.Text("title")
	j.Unit = r.jobUnit(t)
	j.Currency = r.currency(t)
	r.money = j.Currency
	gap := t.LengthOr("gap", 0)
	j.Bodies = r.bodies(t)
	allowance := t.allowance(shapes.Allowance{}, true)
	for _, n := range t.List("cloth", maxCloths, "") {
		j.Cloths = append(j.Cloths, r.jobCloth(n, len(j.Cloths), gap))
	}
	strict.Distinct(r.Reader, j.Cloths, "cloth", "an id", func(c Cloth) (string, strict.Position) { return c.ID, c.At })
	j.Parts = r.eachPart(t.List("part", maxParts, "one part may be cut in several cloths, for several bodies"),
		j.Bodies, func(n *strict.Value, i int, b Body) Part { return r.part(n, i, b, allowance, j.Cloths) })
	strict.Distinct(r.Reader, j.Parts, "part", "a name", func(p Part) (string, strict.Position) { return p.Name, p.At })
	r.refer(j.Parts)
	r.neighbours(j.Parts)
	for _, n := range t.List("match", maxMatches, "") {
		j.Matches = append(j.Matches, r.match(n, len(j.Matches), j.Cloths))
	}
	strict.Distinct(r.Reader, j.Matches, "match", "a name",
		func(m Match) (string, strict.Position) { return m.Name, m.At })
	r.quoting(t, j)
	r.onSkirts(j)
	r.face(j.Parts)
	r.setGodets(j.Parts)
	r.behind(j.Parts)
	if !t.Has("cloth") {
		t.Need("cloth", "start each cloth with its own line [[cloth]]")
	}
	if !t.Has("part") {
		t.Need("part", "start each part with its own line [[part]]")
	}
	t.Finish()
	return j
}

// jobUnit reads what bare numbers of this file count in.
func (r *reader) jobUnit(t *table) measure.Unit {
	if !t.Has("unit") {
		t.Need("unit", `what a bare number means: unit = "in" or unit = "cm"`)
		return r.Unit
	}
	text, at, ok := t.Text("unit")
	if !ok {
		return r.Unit
	}
	unit, err := measure.ParseUnit(text)
	if err != nil {
		t.Fail(at, "known here: in, ft, yd, mm, cm, m", "`unit` cannot be %q", text)
		return r.Unit
	}
	r.Unit = unit
	return unit
}

// currency reads the ISO 4217 code that prices are in: of a job in a workroom usually that
// of the book.
func (r *reader) currency(t *table) string {
	usual := "USD"
	if r.room != nil {
		usual = r.room.Currency
	}
	code, at, ok := t.Text("currency")
	if !ok {
		return usual
	}
	if cost.CheckCurrency(code) != nil {
		t.Fail(at, `three capital letters as in ISO 4217, for example "EUR"`, "`currency` cannot be %q", code)
		return usual
	}
	return code
}

// allowance reads the table `allowance` of t. That of the whole job has to give
// seam and hem, and the waist takes the seam's; a part gives what differs from
// base.
func (t *table) allowance(base shapes.Allowance, whole bool) shapes.Allowance {
	name := "`allowance` of " + t.Name
	if whole {
		name = "[allowance]"
	}
	a := t.sub("allowance", name, `{ seam = "1/2", hem = "1" }`)
	if a == nil {
		if whole && !t.Has("allowance") {
			t.Need("allowance", `[allowance] with seam = "5/8" and hem = "1", or what you sew by`)
		}
		return base
	}
	if whole {
		for _, key := range []string{"seam", "hem"} {
			if !a.Has(key) {
				a.Need(key, fmt.Sprintf("the allowance outside the finished %s: %s = \"5/8\"", key, key))
			}
		}
	}
	base.Seam = a.LengthOr("seam", base.Seam)
	if whole {
		base.Waist = base.Seam
	}
	base.Waist = a.LengthOr("waist", base.Waist)
	base.Hem = a.LengthOr("hem", base.Hem)
	a.Finish()
	return base
}

// label is how messages call a table of a list: by what it is named, else by
// its number.
func label(kind, name string, index int) string {
	if name != "" {
		return fmt.Sprintf("%s `%s`", kind, name)
	}
	return fmt.Sprintf("%s %d", kind, index+1)
}
