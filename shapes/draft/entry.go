package draft

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// Passage is what of the body has to pass through a closed ring of a garment as it
// is put on.
type Passage int

// Passages.
const (
	OverHips Passage = iota
	OverBust
	OverHead
	OverHand
)

func (p Passage) String() string {
	switch p {
	case OverHips:
		return "hip"
	case OverBust:
		return "bust"
	case OverHead:
		return "head"
	case OverHand:
		return "hand"
	}
	return fmt.Sprintf("Passage(%d)", int(p))
}

// Ring is where a garment, made up and with its openings open, still closes round
// the body.
//
//	waist  .--- ---.   open
//	      /    |    \  the opening ends here
//	     /     |     \
//	    (-------------)  the narrowest ring below it: what is wider than this must
//	    |             |  not have to come through
type Ring struct {
	Name  string  // "waist", "hem"
	Girth float64 // finished, as wide as it can be drawn out, mm
	Over  Passage
	Needs float64  // girth that comes through, ease included, mm; 0: that of the body
	Hint  say.Text // what would do
}

// check refuses a ring that a girth does not pass; a girth of 0 is not known.
func (r Ring) check(needs float64) error {
	if r.Girth >= needs-girthSlack {
		return nil
	}
	return say.Errorf("%s of %.1f does not pass the %s of %.1f: it cannot be put on", r.Name, say.MM(r.Girth), r.Over,
		say.MM(needs)).
		Hint("%s", r.Hint)
}

// checkRings refuses rings that are narrower than what a draft knows has to pass.
func checkRings(rings ...Ring) error {
	for _, r := range rings {
		if err := r.check(r.Needs); err != nil {
			return err
		}
	}
	return nil
}

// CheckEntry refuses a draft that a body cannot get into: the girths of the body
// are given where they are known, mm, and count where the draft has none itself.
func CheckEntry(d Result, body map[Passage]float64) error {
	for _, r := range d.Rings {
		if r.Needs == 0 {
			r.Needs = body[r.Over]
		}
		if err := checkRings(r); err != nil {
			return err
		}
	}
	return nil
}

// Centres where a draft may open.
var centres = []string{"centre front", "centre back"}

// OpensAt lists at which centres a draft opens, by the names of its edges or where its free
// ends meet; none where nothing says so, as of a band that may be closed anywhere.
func (d Result) OpensAt() []string {
	var out []string
	if d.EndsAt != "" {
		out = append(out, d.EndsAt)
	}
	for _, p := range d.Pieces {
		for _, e := range p.Edges {
			for _, c := range centres {
				// A facing grown on is that of the centre back.
				at := strings.Contains(e.Name, c) || c == "centre back" && e.Name == "facing"
				if e.Kind == shapes.Opening && at && !slices.Contains(out, c) {
					out = append(out, c)
				}
			}
		}
	}
	return out
}

// openBack is the hint for a skirt that is pulled on.
const openBack = "an opening at the centre back"

// pulledOn are the rings of a skirt without an opening.
func pulledOn(opening bool, waist, hip float64) []Ring {
	if opening {
		return nil
	}
	return []Ring{{Name: "waist", Girth: waist, Over: OverHips, Needs: hip, Hint: say.Textf(openBack)}}
}

// endOfSlit is the ring at the end of the slit of a full circle with a waist.
func endOfSlit(waist, length, hip float64) Ring {
	return Ring{Name: "girth at the end of the slit", Girth: waist + 2*math.Pi*min(slit, length/2), Over: OverHips,
		Needs: hip, Hint: say.Textf("a longer skirt, or seams")}
}
