package draft

import (
	"cmp"
	"fmt"
	"math"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// HoopPetticoat is a cone of gores that hoops hold out, each in a channel of tape:
//
//	      r                 r = top / (2 pi), R = Sweep / (2 pi), both round a circle
//	    .---.
//	   /     \    z         a hoop z below the waist is 2 pi (r + (R - r) z / Z) round,
//	  (-------)             Z the lowest one's; straight down, not along the cloth
//	 /         \
//	(-----------)  Z        along the cloth it lies z s below the waist,
//	'-----------'             s = sqrt(1 + ((R - r) / Z)^2)
//	      R
//
// So that it stands as high above the floor as Length says, the cloth is longer by s; flat
// it is (R - r) / (Z s) of a circle. Each hoop is its girth and the Overlap of its ends.
//
// Without a casing it is sewn to a band and opens at the centre back, above the first
// hoop; with one the top is as wide as the hip, and drawn up by a tape.
//
// Flounces are gathered onto it above each hoop, so that no hoop shows through.
type HoopPetticoat struct {
	Waist    float64 // girth sewn to the band, or drawn up, mm
	Hip      float64 // girth to go over, ease included, mm; 0 is not checked, but with a casing
	HipDepth float64 // from waist to hip, mm; needed with a hip, but with a casing
	HighHip  HighHip // to go over besides
	Length   float64 // from waist to hem, straight down, mm
	Casing   float64 // width of a casing of tape at the top, mm; 0: a waist that is sewn on

	Hoops     int
	FirstHoop float64 // from the waist to the uppermost, straight down, mm
	AboveHem  float64 // from the lowest to the hem, straight down, mm
	Sweep     float64 // girth of the lowest, mm
	Overlap   float64 // of the ends of a hoop, mm
	Channel   float64 // finished width of the tape, mm

	FlounceFullness float64 // flat length over the girth gathered onto; 0 for no flounces
	FlounceOver     float64 // how far a flounce falls over the next one's seam, mm

	Gores      int
	ClothWidth float64 // usable, mm: of the flounces
	Join       float64 // allowance at each end of each strip of a flounce, mm
	HemRaise   float64 // how much shorter this layer is than the outer one, mm
	Allowance  shapes.Allowance
	Chord      float64 // chord error of arcs, mm; 0 means DefaultChord
}

// mostHoops is the most hoops of a petticoat: more is a slip of the pen.
const mostHoops = 20

// tapeTurn is what a tape takes at each end to be turned in, mm: 1/2 in (common practice).
const tapeTurn = 12.7

// top is the girth at the upper edge, mm.
func (h HoopPetticoat) top() float64 {
	if h.Casing > 0 {
		return max(h.Hip, h.HighHip.Girth)
	}
	return h.Waist
}

// Level returns how far hoop i of Hoops, 0 the uppermost, lies below the waist straight
// down, and its girth, mm.
func (h HoopPetticoat) Level(i int) (down, girth float64) {
	lowest := h.Length - h.AboveHem
	down = lowest
	if h.Hoops > 1 {
		down = h.FirstHoop + (lowest-h.FirstHoop)*float64(i)/float64(h.Hoops-1)
	}
	return down, h.girth(down)
}

// girth so far below the waist, straight down, mm.
func (h HoopPetticoat) girth(down float64) float64 {
	return h.top() + (h.Sweep-h.top())*down/(h.Length-h.AboveHem)
}

// lean is by how much out each mm down.
func (h HoopPetticoat) lean() float64 {
	return (h.Sweep - h.top()) / (2 * math.Pi) / (h.Length - h.AboveHem)
}

// slant is how long the cloth is for each mm straight down.
func (h HoopPetticoat) slant() float64 { return math.Hypot(1, h.lean()) }

// cone is the skirt that it is, laid flat.
func (h HoopPetticoat) cone() CircleSkirt {
	return CircleSkirt{
		Fraction: h.lean() / h.slant(), Gores: h.Gores, Waist: h.top(), Length: h.Length * h.slant(),
		Opening: h.Casing == 0, HemRaise: h.HemRaise, Allowance: h.Allowance, Chord: h.Chord,
	}
}

// Draft returns the gores from the centre back to the centre front, channels marked, and
// the flounces from the uppermost.
func (h HoopPetticoat) Draft() (Result, error) { return named("hoop petticoat")(h.draft()) }

func (h HoopPetticoat) draft() (Result, error) {
	if err := h.check(); err != nil {
		return Result{}, err
	}
	cone := h.cone()
	hung, err := cone.hang()
	if err != nil {
		return Result{}, err
	}
	d, err := hung.cut()
	if err != nil {
		return Result{}, err
	}
	d.Rings, d.Notes, d.Gathered = h.rings(), h.notes(), h.Casing > 0
	if h.Casing > 0 {
		h.mark(&d, cone, "casing", h.Casing)
		for i := range d.Pieces {
			topEdges(&d.Pieces[i])
		}
		d.Tapes = append(d.Tapes, h.tape("casing", h.Casing, h.top()))
	}
	for i := range h.Hoops {
		down, girth := h.Level(i)
		h.mark(&d, cone, fmt.Sprintf("hoop %d", i+1), down*h.slant()-h.Channel/2, down*h.slant()+h.Channel/2)
		d.Hoops = append(d.Hoops, girth+h.Overlap)
		d.Tapes = append(d.Tapes, h.tape(fmt.Sprintf("channel of hoop %d", i+1), h.Channel, girth))
	}
	if err := d.notch(d.Waist); err != nil {
		return Result{}, err
	}
	if h.Casing > 0 {
		d.Waist = shapes.JoinSide{} // drawn up, not sewn on
	}
	return h.withFlounces(d, cone)
}

// tape is one that makes a channel, its ends turned in.
func (h HoopPetticoat) tape(name string, width, girth float64) Tape {
	return Tape{Name: name, Count: 1, Width: width, Length: girth, Ends: tapeTurn}
}

// mark draws lines all round the cone, so far below its upper edge along the cloth.
func (h HoopPetticoat) mark(d *Result, cone CircleSkirt, name string, depths ...float64) {
	for i := range cone.gores() {
		p := &d.Pieces[i]
		for k, depth := range depths {
			if k == 0 {
				p.Names = append(p.Names, shapes.LineName{Line: len(p.Inside), Name: name})
			}
			p.Inside = append(p.Inside, cone.across(*p, i, depth))
		}
	}
}

// topEdges makes the waist of a piece an edge that is drawn up.
func topEdges(p *shapes.Piece) {
	for i, e := range p.Edges {
		if e.Kind == shapes.Waist {
			p.Edges[i].Kind = shapes.Top
		}
	}
}

// flounceSeam is how far below the upper edge along the cloth the flounce over a hoop is
// sewn on, mm: clear of its channel by the width of that.
func (h HoopPetticoat) flounceSeam(i int) float64 {
	down, _ := h.Level(i)
	return down*h.slant() - 1.5*h.Channel
}

// flounces are the strips over the hoops, from the uppermost.
func (h HoopPetticoat) flounces() []Strip {
	if h.FlounceFullness == 0 {
		return nil
	}
	var all []Strip
	for i := range h.Hoops {
		seam := h.flounceSeam(i)
		end := h.Length*h.slant() - h.HemRaise
		if i+1 < h.Hoops {
			end = h.flounceSeam(i+1) + h.FlounceOver
		}
		all = append(all, Strip{
			Name: fmt.Sprintf("flounce %d", i+1), Edge: h.girth(seam / h.slant()), Fullness: h.FlounceFullness,
			Depth: end - seam, ClothWidth: h.ClothWidth, Join: h.Join, Closed: true, Allowance: h.Allowance,
		})
	}
	return all
}

// withFlounces adds them, and their seams on the gores.
func (h HoopPetticoat) withFlounces(d Result, cone CircleSkirt) (Result, error) {
	for i, s := range h.flounces() {
		made, err := s.Draft()
		if err != nil {
			return Result{}, err
		}
		h.mark(&d, cone, s.Name, h.flounceSeam(i))
		for k, j := range made.Joins {
			j.Name = s.Name + ", " + j.Name
			if j.B.Onto != "" {
				j.Name, j.B.Onto = s.Name+" to its line", fmt.Sprintf("the line above hoop %d", i+1)
			}
			made.Joins[k] = j
		}
		made.Tables.Tiers[0].Tier = i + 1
		d.Pieces, d.Joins = append(d.Pieces, made.Pieces...), append(d.Joins, made.Joins...)
		d.Tables.Tiers, d.Notes = append(d.Tables.Tiers, made.Tables.Tiers...), append(d.Notes, made.Notes...)
		d.Gathered = true
	}
	return d, nil
}

// notes say what hoops are cut, and where the opening has to end.
func (h HoopPetticoat) notes() []say.Text {
	var lengths []say.Text
	for i := range h.Hoops {
		_, girth := h.Level(i)
		lengths = append(lengths, say.Textf("%.4g", say.MM(girth+h.Overlap)))
	}
	notes := []say.Text{say.Textf("Hoops from the top, ends lapped by %.4g: %v. Each channel is left open where its "+
		"hoop goes in.", say.MM(h.Overlap), say.List(lengths))}
	if h.Casing == 0 {
		notes = append(notes, say.Textf("The opening ends %.4g below the waist along the seam, or higher: above what is "+
			"sewn on for the first hoop.", say.MM(h.opens())))
	}
	return notes
}

// opens is how far the opening may reach, along the cloth, mm.
func (h HoopPetticoat) opens() float64 { return h.flounceSeam(0) }

func (h HoopPetticoat) check() error {
	if err := cmp.Or(
		positive(measured{"waist", h.Waist}, measured{"length", h.Length}, measured{"sweep", h.Sweep},
			measured{"channel", h.Channel}),
		notNegative(measured{"overlap", h.Overlap}, measured{"casing", h.Casing},
			measured{"height above the hem", h.AboveHem},
			measured{"flounces' overlap", h.FlounceOver}),
		checkHem(h.HemRaise, h.Length, h.Chord, h.Allowance),
		checkGores(h.Gores),
	); err != nil {
		return err
	}
	if h.Hoops < 1 || h.Hoops > mostHoops {
		return fmt.Errorf("hoops: %d, must be from 1 to %d", h.Hoops, mostHoops)
	}
	if h.AboveHem >= h.Length {
		return say.Errorf("the lowest hoop at %.1f above the hem does not lie below the waist, %.1f above it",
			say.MM(h.AboveHem), say.MM(h.Length))
	}
	if h.Hoops > 1 {
		if err := positive(measured{"first hoop", h.FirstHoop}); err != nil {
			return err
		}
	}
	if h.FlounceFullness != 0 {
		if err := shapes.CheckFullness(h.FlounceFullness); err != nil {
			return err
		}
	}
	return cmp.Or(h.checkBody(), h.checkHoops())
}

// checkBody refuses a cone that does not go over the body.
func (h HoopPetticoat) checkBody() error {
	if h.Casing > 0 {
		if err := positive(measured{"hip", h.Hip}); err != nil {
			return say.Errorf("%w", err).Hint("a casing is as wide as the hip")
		}
		if h.Waist > h.Hip {
			return say.Errorf("waist of %.1f is larger than the hip of %.1f: a top as wide as the hip cannot be pulled on",
				say.MM(h.Waist), say.MM(h.Hip)).
				Hint("take the waist for the hip too")
		}
	}
	if h.Sweep-h.top() < leastFlare {
		return say.Errorf("sweep of %.1f is not wider than the top of %.1f by %.6g or more", say.MM(h.Sweep),
			say.MM(h.top()), say.MM(leastFlare)).
			Hint("a wider sweep")
	}
	if h.Casing > 0 || h.Hip == 0 {
		return nil
	}
	if err := cmp.Or(positive(measured{"hip depth", h.HipDepth}), h.HighHip.check(h.HipDepth)); err != nil {
		return err
	}
	wider := func(down, girth float64) say.Text {
		return say.Textf("a sweep of %.1f or more, or a casing",
			say.MM(ceilTo(h.Waist+(girth-h.Waist)*(h.Length-h.AboveHem)/down, 0.1)))
	}
	if g := h.girth(h.HipDepth); g < h.Hip-girthSlack {
		return say.Errorf("it is %.1f round at %.1f below the waist and does not clear the hip of %.1f", say.MM(g),
			say.MM(h.HipDepth), say.MM(h.Hip)).
			Hint("%v", wider(h.HipDepth, h.Hip))
	}
	if at, short := tightest(h.girth, h.Waist, h.Hip, h.HipDepth, h.HighHip); short {
		return say.Errorf("it is %.1f round at %.1f below the waist and does not clear %v", say.MM(at.girth),
			say.MM(at.depth), at.over).
			Hint("%v", wider(at.depth, at.needs))
	}
	return nil
}

// checkHoops refuses hoops that lie over each other or over the edges, and one that does
// not come over the hip.
func (h HoopPetticoat) checkHoops() error {
	first, _ := h.Level(0)
	above := h.Casing
	switch room := h.flounceSeam(0) - above; {
	case room < 0:
		return say.Errorf("the first hoop at %.1f below the waist leaves no room above it: it needs %.1f", say.MM(first),
			say.MM((above+1.5*h.Channel)/h.slant())).
			Hint("a first hoop further down")
	case h.AboveHem*h.slant()-h.HemRaise < h.Channel/2:
		return say.Errorf("the lowest channel of %.6g reaches over the hem, %.1f below the hoop", say.MM(h.Channel),
			say.MM(h.AboveHem*h.slant()-h.HemRaise)).
			Hint("more above the hem")
	}
	if h.Hoops > 1 {
		second, _ := h.Level(1)
		if apart := (second - first) * h.slant(); apart < 2*h.Channel {
			return say.Errorf("hoops lie %.1f apart along the cloth, channels of %.6g need %.1f", say.MM(apart),
				say.MM(h.Channel), say.MM(2*h.Channel)).
				Hint("fewer hoops, or the first one higher")
		}
	}
	return checkRings(h.rings()...)
}

// rings returns the first hoop, and a casing drawn out.
func (h HoopPetticoat) rings() []Ring {
	_, girth := h.Level(0)
	rings := []Ring{{Name: "first hoop", Girth: girth, Over: OverHips, Needs: h.Hip,
		Hint: say.Textf("a wider sweep, or the first hoop further down")}}
	if h.Casing > 0 {
		rings = append(rings, Ring{Name: "casing, drawn out", Girth: h.top(), Over: OverHips, Needs: h.Hip,
			Hint: say.Textf("a wider hip")})
	}
	return rings
}
