package draft

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// clothUsed sums count x cut depth of the pieces, mm: one strip a row.
func clothUsed(pieces []shapes.Piece) float64 {
	sum := 0.0
	for _, p := range pieces {
		along, _ := p.CutSize()
		sum += float64(p.Count) * along
	}
	return sum
}

// flatEdge sums what the pieces of one tier or layer measure across, sewn, mm.
func flatEdge(pieces []shapes.Piece) float64 {
	sum := 0.0
	for _, p := range pieces {
		_, across := p.Finished()
		sum += float64(p.Count) * across
	}
	return sum
}

// A ruffle of 120 x 2.5 = 300 in from 54 in cloth with 1/2 in joins takes
// ceil(300/53) = 6 strips, at 10 in cut depth 60 in = 1.667 yd. Method of
// L. Baldt, "Clothing for Women" (1916), which leaves out the rounding; a
// fullness of 2 to 3 is Utah State University Extension, "Straight Ruffle".
func TestStripWorkedRuffle(t *testing.T) {
	s := Strip{Name: "ruffle", Edge: 120 * inch, Fullness: 2.5, Depth: 8.5 * inch,
		ClothWidth: 54 * inch, Join: 0.5 * inch, Closed: true,
		Allowance: shapes.Allowance{Seam: 0.5 * inch, Hem: 1 * inch}}
	table, err := tiersOf(s)
	if err != nil {
		t.Fatal(err)
	}
	got := table[0]
	if len(table) != 1 || got.Strips != 6 {
		t.Errorf("%d tiers, %d strips; want 1, 6", len(table), got.Strips)
	}
	inches(t, "flat length", got.Flat, 300)
	inches(t, "cut depth", got.CutDepth, 10)
	inches(t, "cloth", got.Cloth, 60)
	near(t, "cloth in yards", got.Cloth/(36*inch), 1.667, 0.0005)
	pieces := mustDraft(t, s)
	inches(t, "cloth of the pieces", clothUsed(pieces), 60)
	inches(t, "flat edge of the pieces", flatEdge(pieces), 300)
	if pieces[0].Name != "ruffle strip" || pieces[0].Count != 5 || pieces[1].Name != "ruffle part strip" ||
		pieces[1].Count != 1 {
		t.Errorf("pieces are %d x %q and %d x %q", pieces[0].Count, pieces[0].Name, pieces[1].Count, pieces[1].Name)
	}
	// The last strip makes up 300 - 5 x 53 = 35 in and has two joins.
	_, across := pieces[1].CutSize()
	inches(t, "part strip", across, 36)
}

// The same ruffle with free ends, hemmed by 1/4 in: 300 in and two hems are cut from
// cloth that loses two joins of 1/2 in at each of five seams, 300 + 2/4 + 5 = 305 1/2 in,
// 54 in of it from each of five strips, 35 1/2 in from the last (arithmetic).
func TestFreeEndsOfAStripAreHemmed(t *testing.T) {
	s := Strip{Name: "ruffle", Edge: 120 * inch, Fullness: 2.5, Depth: 8.5 * inch,
		ClothWidth: 54 * inch, Join: 0.5 * inch, EndHem: 0.25 * inch, Allowance: shapes.Allowance{Seam: 0.5 * inch,
			Hem: 1 * inch}}
	pieces := mustDraft(t, s)
	inches(t, "flat edge of the pieces", flatEdge(pieces), 300)
	for i, want := range []struct {
		name         string
		count        int
		across       float64 // cut, in
		lower, upper float64 // in
	}{{"ruffle first strip", 1, 54, 0.25, 0.5}, {"ruffle strip", 4, 54, 0.5, 0.5}, {"ruffle part strip", 1, 35.5, 0.5,
		0.25}} {
		p := pieces[i]
		if p.Name != want.name || p.Count != want.count {
			t.Errorf("%d of %q, want %d of %q", p.Count, p.Name, want.count, want.name)
		}
		_, across := p.CutSize()
		inches(t, "across", across, want.across)
		inches(t, "lower allowance", p.Edges[0].Allowance, want.lower)
		inches(t, "upper allowance", p.Edges[2].Allowance, want.upper)
		if (p.Edges[0].Finish() == shapes.Turned) != (i == 0) || (p.Edges[2].Finish() == shapes.Turned) != (i == 2) {
			t.Errorf("%s: %v and %v", p.Name, p.Edges[0].Finish(), p.Edges[2].Finish())
		}
	}
	s.EndHem = 0
	if end := mustDraft(t, s)[0].Edges[0]; end.Finish() != shapes.Raw {
		t.Errorf("without a hem an end is %v", end.Finish())
	}
}

// Where no whole strip leaves room for a last one with its hem, the first and the last
// share what is left: 45 in of cloth, joins of 1/2 in, ends hemmed by 1 in. 87 in and
// 2 + 1 in of hems and joins are 90 in, two whole strips. Of 87 1/2 in 1/2 in is over,
// less than join and hem, so that two strips of (90 1/2 + 1 - 45)/2 = 23 1/4 in stand
// at the ends of a whole one.
func TestNoStripIsNarrowerThanItsHem(t *testing.T) {
	s := Strip{Length: 87 * inch, Depth: 200, ClothWidth: 45 * inch, Join: 0.5 * inch, EndHem: inch}
	for length, want := range map[float64][]float64{87: {45, 45}, 87.5: {23.25, 45, 23.25}, 90: {45, 45, 4}} {
		s.Length = length * inch
		pieces := mustDraft(t, s)
		if len(pieces) != len(want) {
			t.Fatalf("%g in: %d pieces", length, len(pieces))
		}
		inches(t, "flat edge", flatEdge(pieces), length)
		for i, p := range pieces {
			_, across := p.CutSize()
			inches(t, p.Name, across, want[i])
		}
	}
}

// Tulle 108 in: 279.327 x 3 = 837.981, ceil(/107) = 8 strips of 8 in, 64 in =
// 1.778 yd. Fullness of 3 to 6 for net is common practice; 279.327 in is the
// hem of a full circle, waist 28, length 40: 28 + 2 pi 40, rounded.
func TestStripWorkedTulle(t *testing.T) {
	s := Strip{Edge: 279.327 * inch, Fullness: 3, Depth: 8 * inch, ClothWidth: 108 * inch, Join: 0.5 * inch}
	table, err := tiersOf(s)
	if err != nil {
		t.Fatal(err)
	}
	if table[0].Strips != 8 {
		t.Errorf("%d strips, want 8", table[0].Strips)
	}
	inches(t, "flat length", table[0].Flat, 837.981)
	near(t, "cloth in yards", table[0].Cloth/(36*inch), 1.778, 0.0005)
}

// Tiers multiply: 30 in at 2 to 1 three times is 60, 120, 240 (plain algebra).
func TestStripTiersMultiply(t *testing.T) {
	s := Strip{Name: "underskirt", Edge: 30 * inch, Fullness: 2, Depths: []float64{200, 300, 400},
		ClothWidth: 45 * inch, Join: 10, Closed: true, Allowance: shapes.Allowance{Seam: 10, Hem: 20}}
	table, err := tiersOf(s)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{60, 120, 240} {
		inches(t, "flat length", table[i].Flat, want)
		inches(t, "edge", table[i].Edge, want/2)
		near(t, "fullness", table[i].Fullness, 2, 1e-12)
	}
	depths := []float64{table[0].CutDepth, table[1].CutDepth, table[2].CutDepth}
	if d := cmp.Diff([]float64{220, 320, 430}, depths); d != "" {
		t.Errorf("seams between tiers, a hem on the last: %s", d)
	}
	if name := mustDraft(t, s)[0].Name; name != "underskirt tier 1 strip" {
		t.Errorf("first piece is %q", name)
	}
	s.Depths, s.Depth, s.Tiers = nil, 250, 3
	if table, err = tiersOf(s); err != nil || len(table) != 3 || table[2].Depth != 250 {
		t.Errorf("one depth for three tiers: %v, %v", table, err)
	}
}

// A flat length needs no edge; a length of exactly two strips takes two.
func TestStripByFlatLength(t *testing.T) {
	s := Strip{Length: 2 * (45*inch - 20), Depth: 100, ClothWidth: 45 * inch, Join: 10, Closed: true}
	pieces := mustDraft(t, s)
	if len(pieces) != 1 || pieces[0].Count != 2 || pieces[0].Name != "ruffle strip" {
		t.Errorf("got %d pieces, the first %q x %d", len(pieces), pieces[0].Name, pieces[0].Count)
	}
	table, err := tiersOf(s)
	if err != nil || table[0].Edge != 0 || table[0].Fullness != 0 {
		t.Errorf("table %+v, %v", table, err)
	}
}

func TestStripRefuses(t *testing.T) {
	good := Strip{Name: "ruffle", Edge: 3000, Fullness: 2, Depth: 200, ClothWidth: 1400, Join: 10}
	with := func(change func(*Strip)) Strip { s := good; change(&s); return s }
	refuses(t, []refusal{
		{"no edge", with(func(s *Strip) { s.Edge = 0 }), "ruffle: edge to gather onto is 0 mm"},
		{"edge and length", with(func(s *Strip) { s.Length = 5000 }), "both a flat length (5000 mm)"},
		{"negative length", Strip{Length: -5, Depth: 200, ClothWidth: 1400}, "ruffle: flat length is -5 mm"},
		{"too short to cut", Strip{Length: 1e-4, Depth: 200, ClothWidth: 1400}, "too short to cut"},
		{"no fullness", with(func(s *Strip) { s.Fullness = 0 }), "no fullness is given"},
		{"fullness below 1", with(func(s *Strip) { s.Fullness = 0.8 }), "fullness is 0.8"},
		{"fullness not a number", with(func(s *Strip) { s.Fullness = math.NaN() }), "fullness is NaN"},
		{"no depth", with(func(s *Strip) { s.Depth = 0 }), "depth is 0 mm"},
		{"depth and depths", with(func(s *Strip) { s.Depths = []float64{100} }), "both one depth"},
		{"a depth missing", with(func(s *Strip) { s.Depth, s.Depths, s.Tiers = 0, []float64{100, 100}, 3 }),
			"2 depths for 3 tiers"},
		{"bad tier", with(func(s *Strip) { s.Depth, s.Depths = 0, []float64{100, -4} }), "depth of tier 2 is -4 mm"},
		{"negative tiers", with(func(s *Strip) { s.Tiers = -1 }), "tiers: -1"},
		{"tiers without end", with(func(s *Strip) { s.Tiers = 40 }), "takes"},
		{"no cloth", with(func(s *Strip) { s.ClothWidth = 0 }), "cloth width is 0 mm"},
		{"joins eat the cloth", with(func(s *Strip) { s.Join = 700 }), "leave nothing of a cloth width of 1400 mm"},
		{"negative end hem", with(func(s *Strip) { s.EndHem = -1 }), "allowance of the free ends is -1 mm"},
		{"hems eat the cloth", with(func(s *Strip) { s.EndHem = 700 }),
			"at the ends leave nothing of a cloth width of 1400 mm"},
		{"negative join", with(func(s *Strip) { s.Join = -1 }), "join allowance is -1 mm"},
	})
}

// easedBy is by how much whole widths may miss the flat length asked for, 2 %; where a
// narrower strip makes it up they may not.
func easedBy(pieces []shapes.Piece, flat float64) float64 {
	for _, p := range pieces {
		if strings.Contains(p.Name, "part") {
			return 0
		}
	}
	return 0.02 * flat
}

// A strip of 1/16 in is never asked for: on cloth of 45 in, joins of 1/2 in, an edge of
// 22 1/32 in gathered 2 to 1 is 44 1/16 in flat, one width of 44 in and 1/16 over. It is
// eased to one width, and said; an edge of 23 in, 2 in over (4.5 %), is not, nor is
// anything eased below the edge that it goes onto.
func TestFullnessGivesWayToWholeWidths(t *testing.T) {
	const inch = 25.4
	s := Strip{Edge: (22 + 1.0/32) * inch, Fullness: 2, Depth: 200, ClothWidth: 45 * inch, Join: inch / 2, Closed: true,
		Allowance: shapes.Allowance{Seam: 10, Hem: 20}}
	n := NetLayers{Waist: s.Edge, SkirtFraction: 0.02, SkirtLength: 900, FirstSeam: 0, Layers: 1, Fullness: 2,
		ClothWidth: s.ClothWidth, Join: s.Join, Allowance: s.Allowance}
	for _, d := range []Draft{s, n} {
		pieces := mustDraft(t, d)
		notes, err := notesOf(d)
		if len(pieces) != 1 || pieces[0].Count != 1 || err != nil || len(notes) != 1 ||
			!strings.Contains(notes[0], "fullness is eased from 2 to 1.997") {
			t.Errorf("%T: %d pieces, %q, %v", d, len(pieces), notes, err)
		}
	}
	s.Edge = 23 * inch
	if pieces := mustDraft(t, s); len(pieces) != 2 {
		t.Errorf("2 in over: %d pieces", len(pieces))
	}
	s.Edge, s.Fullness = 44.5*inch, 1
	if pieces := mustDraft(t, s); len(pieces) != 2 {
		t.Errorf("less than the edge: %d pieces", len(pieces))
	}
}

// Strips sewn together measure exactly the flat length, or whole widths within 2 %, none is wider than the
// cloth, the count is the fewest that will do, and cloth grows with the edge.
func TestStripMakesUpTheLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		s := Strip{Edge: mm("edge", 100, 20_000), Fullness: mm("fullness", 1, 6), Depth: mm("depth", 20, 1500),
			ClothWidth: mm("cloth width", 500, 3000), Join: mm("join", 0, 30),
			Closed: rapid.Bool().Draw(t, "closed"), EndHem: mm("end hem", 0, 30),
			Allowance: shapes.Allowance{Seam: mm("seam", 0, 25), Hem: mm("hem", 0, 40)}}
		pieces := mustDraft(t, s)
		table, err := tiersOf(s)
		if err != nil {
			t.Fatalf("%v", err)
		}
		row := table[0]
		near(t, "flat edge", flatEdge(pieces), s.Edge*s.Fullness,
			easedBy(pieces, s.Edge*s.Fullness)+plane.Lattice*float64(row.Strips+1))
		near(t, "cloth", clothUsed(pieces), row.Cloth, plane.Lattice*float64(row.Strips))
		count := 0
		for _, p := range pieces {
			count += p.Count
			if _, across := p.CutSize(); across > s.ClothWidth {
				t.Errorf("a strip of %g mm from cloth of %g mm", across, s.ClothWidth)
			}
		}
		cut := row.Flat + float64(2*count)*s.Join // joins and hems with it
		if !s.Closed {
			cut += 2 * (s.EndHem - s.Join)
		}
		fewest := cut <= float64(count)*s.ClothWidth+1 && cut-2*s.Join > float64(count-1)*s.ClothWidth
		if count != row.Strips || !fewest {
			t.Errorf("%d strips (table says %d) of %g mm for %g mm", count, row.Strips, s.ClothWidth, row.Flat)
		}
		more := s
		more.Edge += 10
		if wider, err := tiersOf(more); err != nil || wider[0].Cloth < row.Cloth {
			t.Errorf("a longer edge takes less cloth: %v, %v", wider, err)
		}
	})
}
