package kept

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/nest"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// mostCloths is the most cloths of a file.
const mostCloths = 200

// Read reads a layout file. The error is a strict.Errors: all that is wrong with it, each
// at its place, but no more than the first thing that is not JSON.
func Read(name string, src []byte) (*File, error) {
	r := &reader{src: src, name: name}
	v, err := parse(src)
	if bad := (*fault)(nil); errors.As(err, &bad) {
		r.fail(bad.at, bad.hint, "%s", bad.what)
		return nil, r.bad
	}
	f := r.file(v)
	if len(r.bad) > 0 {
		r.bad.Sort()
		return nil, r.bad
	}
	return f, nil
}

// reader collects what is wrong.
type reader struct {
	src  []byte
	name string
	bad  strict.Errors
}

func (r *reader) fail(at int, hint, what string, args ...any) {
	if len(r.bad) < strict.MostErrors {
		r.bad = append(r.bad, &strict.Error{
			File: r.name, At: position(r.src, at), What: fmt.Sprintf(what, args...), Hint: hint,
		})
	}
}

// fields are the keys of one object: each has to be there, but those that may be left out.
type fields struct {
	*reader
	of    value
	found map[string]value
}

// object takes the keys of an object, of those called needed and of others that may be
// left out.
func (r *reader) object(v value, what string, needed []string, others ...string) (fields, bool) {
	f := fields{r, v, map[string]value{}}
	if v.what != isObject {
		r.fail(v.at, whole, "%s is %s, not an object", what, v.what)
		return f, false
	}
	all := slices.Concat(needed, others)
	for _, k := range v.keys {
		if !slices.Contains(all, k.name) {
			r.fail(k.at, "it has "+say.InWords(say.Quoted(all, "`"), "and"), "%s has no key %q", what, k.name)
		}
		f.found[k.name] = k.value
	}
	whole := true
	for _, name := range needed {
		if _, ok := f.found[name]; !ok {
			r.fail(v.at, "add `"+name+"`", "%s lacks %q", what, name)
			whole = false
		}
	}
	return f, whole
}

// get returns the value of a key, if it is of a kind.
func (f fields) get(name string, what kind) (value, bool) {
	v, ok := f.found[name]
	if ok && v.what != what {
		f.fail(v.at, "give "+string(what), "%q is %s", name, v.what)
		return v, false
	}
	return v, ok
}

func (f fields) text(name string) string { v, _ := f.get(name, isText); return v.text }
func (f fields) truth(name string) bool  { v, _ := f.get(name, isTruth); return v.truth }

// length reads a length, mm, that is no less than least.
func (f fields) length(name string, least float64) float64 {
	v, ok := f.get(name, isNumber)
	if ok && (v.number < least || v.number > nest.Reach) {
		f.fail(v.at, fmt.Sprintf("from %v to %v, in mm", least, nest.Reach), "%q cannot be %v", name, v.number)
	}
	return v.number
}

// pair reads a list of two numbers.
func (f fields) pair(name string) (p [2]float64, at int, ok bool) {
	v, ok := f.get(name, isList)
	if !ok {
		return p, v.at, false
	}
	if len(v.list) != 2 || v.list[0].what != isNumber || v.list[1].what != isNumber {
		f.fail(v.at, "give along and across the cloth, such as [0, 12.5]", "%q is not two numbers", name)
		return p, v.at, false
	}
	for i, one := range v.list {
		if p[i] = one.number; math.Abs(p[i]) > nest.Reach {
			f.fail(one.at, fmt.Sprintf("at most %v, in mm", nest.Reach), "%q cannot be %v", name, p[i])
			return p, v.at, false
		}
	}
	return p, v.at, true
}

func (r *reader) file(v value) *File {
	f, ok := r.object(v, "a layout file", []string{"layout", "cloths"})
	if !ok {
		return nil
	}
	if n, ok := f.get("layout", isNumber); ok && n.number != version {
		r.fail(n.at, "lay the job anew and keep that: this program reads version "+fmt.Sprint(version),
			"a layout file of version %v", n.number)
		return nil
	}
	list, _ := f.get("cloths", isList)
	if len(list.list) > mostCloths {
		r.fail(list.at, "keep the layouts of fewer cloths in one file", "more than %d cloths", mostCloths)
		return nil
	}
	out := &File{Name: r.name}
	for _, v := range list.list {
		c, ok := r.cloth(v)
		if ok && slices.ContainsFunc(out.Cloths, func(o Cloth) bool { return o.ID == c.ID }) {
			r.fail(v.at, "leave one of the two out", "the cloth %q is there twice", c.ID)
		}
		out.Cloths = append(out.Cloths, c)
	}
	return out
}

func (r *reader) cloth(v value) (c Cloth, ok bool) {
	f, ok := r.object(v, "a cloth", []string{"cloth", "width", "gap", "repeat", "flaws", "stretches"})
	if !ok {
		return c, false
	}
	c = Cloth{ID: f.text("cloth"), Width: f.length("width", 0), Gap: f.length("gap", 0), Flaws: f.text("flaws")}
	c.Repeat, _, _ = f.pair("repeat")
	list, _ := f.get("stretches", isList)
	if n := len(list.list); list.what == isList && (n < 1 || n > 2) {
		r.fail(list.at, "one, or two where a fold leaves an open stretch behind", "%d stretches", n)
		return c, false
	}
	for _, v := range list.list {
		s, fine := r.stretch(v)
		if fine && slices.ContainsFunc(c.Stretches, func(o Stretch) bool { return o.Lay == s.Lay }) {
			r.fail(v.at, "one of the two stretches is open, the other folded", "two stretches that lie %s", lays[s.Lay])
		}
		c.Stretches = append(c.Stretches, s)
	}
	return c, true
}

func (r *reader) stretch(v value) (s Stretch, ok bool) {
	f, ok := r.object(v, "a stretch", []string{"lay", "length", "pieces"})
	if !ok {
		return s, false
	}
	s.Length = f.length("length", 0)
	if lay, is := f.get("lay", isText); is {
		n := slices.Index(lays[:], lay.text)
		if n < 0 {
			r.fail(lay.at, say.InWords(say.Quoted(lays[:], "`"), "or"), "`lay` cannot be %q", lay.text)
			return s, false
		}
		s.Lay = nest.Lay(n)
	}
	list, _ := f.get("pieces", isList)
	if len(list.list) > nest.MostPieces {
		r.fail(list.at, "no lay has more", "more than %d pieces on one stretch", nest.MostPieces)
		return s, false
	}
	type id struct {
		name string
		copy int
	}
	seen := map[id]bool{}
	for _, v := range list.list {
		p, fine := r.piece(v)
		if fine && seen[id{p.Name, p.Copy}] {
			r.fail(v.at, "leave one of the two out", "copy %d of %q is there twice", p.Copy+1, p.Name)
		}
		seen[id{p.Name, p.Copy}] = true
		s.Pieces = append(s.Pieces, p)
	}
	return s, true
}

func (r *reader) piece(v value) (p Piece, ok bool) {
	f, ok := r.object(v, "a piece", []string{"piece", "copy", "mark", "at", "turn", "mirrored"}, "pinned")
	if !ok {
		return p, false
	}
	p = Piece{Name: f.text("piece"), Mark: f.text("mark"), Mirrored: f.truth("mirrored"), Pinned: f.truth("pinned")}
	if n, is := f.get("copy", isNumber); is {
		if n.number != math.Trunc(n.number) || n.number < 1 || n.number > nest.MostPieces {
			r.fail(n.at, "copies are counted from 1", "`copy` cannot be %v", n.number)
		}
		p.Copy = int(min(max(n.number, 1), nest.MostPieces)) - 1
	}
	if turn, is := f.get("turn", isNumber); is {
		if p.Turn = turn.number; math.Abs(p.Turn) > mostTurn {
			r.fail(turn.at, "from 0 to 360 degrees", "`turn` cannot be %v", p.Turn)
		}
	}
	if at, where, is := f.pair("at"); is {
		if p.At = orb.Point(at); plane.SnapPoint(p.At) != p.At {
			r.fail(where, fmt.Sprintf("the nearest place is [%v, %v]", plane.Snap(at[0]), plane.Snap(at[1])),
				"`at` is not on the lattice of 2^-10 mm")
		}
	}
	return p, true
}

// mostTurn is more than anybody turns a piece by, degrees.
const mostTurn = 3600
