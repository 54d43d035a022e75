package job

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cost"
	"yardlay/shapes/plane"
)

// Cloth is a material as bought. Lengths are in mm.
type Cloth struct {
	ID, Title string
	From      string    // the cloth of the workroom that it is; "" for none
	Width     float64   // from selvedge to selvedge, both included: the smallest of Widths
	Widths    []float64 // as measured along the bolt, one or more
	Selvedge  float64   // on each side, not laid on
	Nap       Nap
	Lay       Lay
	TurnUpper bool      // with CrosswiseFold: cut along the fold, and the upper layer is turned
	BothFaces bool      // alike on both faces: any copy may be cut mirrored
	Gap       float64   // clear distance kept between pieces
	Ends      float64   // allowed at each end of each lay
	Skew      float64   // how far the cut end runs off square over the width; lost once
	Shrinkage Shrinkage // in the first wash
	Spare     float64   // ratio added to the needed length, 0 to 1
	Repeat    Repeat
	Flaws     []Flaw     // on the cloth that is bought
	Have      []Have     // on the shelf
	Untried   int        // leftovers of the workroom that are not among them: there are too many
	Lots      Lots       // which lengths of it are of one dye lot
	Net       bool       // net, tulle or organza: the fire caution is due
	Offer     cost.Offer // that its length to buy is counted by: the first of Offers
	Offers    []Sourced  // of all suppliers; none when the file says not what it costs
	Priced    bool       // the file says what it costs
	At        strict.Position
}

// Usable returns the width that pieces are laid on, before any wash.
func (c Cloth) Usable() float64 { return c.Width - 2*c.Selvedge }

// washed returns the widest finished piece that goes across the cloth: the
// usable width after the first wash. Whether the cloth is washed before it is
// laid or its pieces are drawn larger, the piece reaches from edge to edge of
// the lay. A width that is enlarged again comes from the lattice, so that it
// does not round beyond the cloth.
func (c Cloth) washed() float64 {
	if c.Shrinkage.Weft == 0 {
		return c.Usable()
	}
	return plane.SnapDown(c.Usable()) * (1 + c.Shrinkage.Weft)
}

// jobCloth reads one [[cloth]] of a job, with what the shelf has of it.
func (r *reader) jobCloth(n *strict.Value, index int, gap float64) Cloth {
	t := r.table(n, label("cloth", "", index), clothKeys)
	c := t.cloth(index, gap)
	c.From = t.fromRoom(fromKey, "cloth", r.roomCloths())
	c.Have = t.shelf(c)
	t.takeFromRoom(&c)
	t.Finish()
	return c
}

// cloth reads a cloth, in a job or in the book of a workroom.
func (t *table) cloth(index int, gap float64) Cloth {
	c := Cloth{At: t.Value.At}
	c.ID = t.id(&c.At)
	t.Name = label("cloth", c.ID, index)
	c.Title, c.Nap, c.Lay, c.Lots, c.Gap = c.ID, OneWay, Open, LotsBought, gap
	t.fill(&c, "id", "shrinkage", "repeat")
	c.Width, c.Widths = t.widths()
	t.usable(c)
	c.TurnUpper = t.turnUpper(c.Lay)
	c.Shrinkage = t.shrinkage()
	c.Repeat = t.repeat()
	c.Flaws = t.flaws(extent{0, c.broadest(), "the cloth"})
	if !t.Has("net") {
		c.Net = saysNet(c.ID + " " + c.Title)
	}
	t.sold(&c)
	return c
}

// id reads what a cloth is called in parts and in the names of files.
func (t *table) id(at *strict.Position) string {
	if !t.Has("id") {
		t.Need("id", `a short name that parts refer to, for example id = "satin"`)
		return ""
	}
	id, where, ok := t.Text("id")
	*at = where
	if !ok {
		return ""
	}
	plain := func(c rune) bool {
		return c == '-' || c == '_' || c < unicode.MaxASCII && (unicode.IsLower(c) || unicode.IsDigit(c))
	}
	if len(id) > 40 || strings.ContainsFunc(id, func(c rune) bool { return !plain(c) }) {
		t.Fail(where, "small letters, digits, - and _, at most 40: it names files too", "`id` cannot be %q",
			shortened(id))
		t.unsaid = append(t.unsaid, id)
		return ""
	}
	return id
}

// shortened keeps what is far too long for a name from filling the screen.
func shortened(name string) string {
	const most = 40
	if all := []rune(name); len(all) > most {
		return string(all[:most]) + "..."
	}
	return name
}

// netWords are sheers that burn fast when gathered in layers.
var netWords = []string{"net", "tulle", "organza"}

// saysNet finds such a word among the words of a title.
func saysNet(title string) bool {
	words := strings.FieldsFunc(strings.ToLower(title), func(c rune) bool { return !unicode.IsLetter(c) })
	return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(netWords, w) })
}

// clothIDs lists the cloths of a job for a hint.
func clothIDs(cloths []Cloth) []string {
	var ids []string
	for _, c := range cloths {
		if c.ID != "" {
			ids = append(ids, c.ID)
		}
	}
	return ids
}

// clothsOf reads which cloths a part is cut in: an id or a list of ids.
func (t *table) clothsOf(cloths []Cloth) []Cloth {
	if !t.Has("cloth") {
		t.Need("cloth", fmt.Sprintf("an id or a list of ids out of: %s", strings.Join(clothIDs(cloths), ", ")))
		return nil
	}
	v := t.Field("cloth").Value
	ids := []*strict.Value{v}
	if v.Kind == strict.KindList {
		ids = v.Items
		if len(ids) == 0 {
			t.Fail(v.At, "the first is the outer cloth, the others are linings", "`cloth` names no cloth")
		}
		if len(ids) > maxCloths {
			t.Fail(v.At, "name each cloth once", "`cloth` names %d cloths, a job has at most %d", len(ids), maxCloths)
			return nil
		}
	}
	var found []Cloth
	for _, id := range ids {
		if c, ok := t.clothNamed("cloth", id, cloths); ok {
			if slices.ContainsFunc(found, func(f Cloth) bool { return f.ID == c.ID }) {
				t.Fail(id.At, "name each cloth once; a second part can cut the same draft again",
					"`cloth` names `%s` twice", c.ID)
				continue
			}
			found = append(found, c)
		}
	}
	return found
}

// clothNamed finds the cloth that a value refers to.
func (t *table) clothNamed(key string, id *strict.Value, cloths []Cloth) (Cloth, bool) {
	if id.Kind != strict.KindText {
		t.Wrong(key, id, "the id of a cloth", `"satin"`)
		return Cloth{}, false
	}
	i := slices.IndexFunc(cloths, func(c Cloth) bool { return c.ID == id.Text && id.Text != "" })
	if i < 0 && slices.Contains(t.unsaid, id.Text) {
		return Cloth{}, false // it is refused where it is made
	}
	if i < 0 {
		known := clothIDs(cloths)
		hint := "give it a [[cloth]] table with that id"
		if len(known) > 0 {
			hint = "cloths of this job: " + strings.Join(known, ", ")
		}
		if name := strict.Nearest(id.Text, known); name != "" {
			hint = "did you mean `" + name + "`?"
		}
		t.Fail(id.At, hint, "%s: there is no cloth %q", t.Name, shortened(id.Text))
		return Cloth{}, false
	}
	return cloths[i], true
}
