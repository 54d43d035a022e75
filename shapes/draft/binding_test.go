package draft

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// workedBinding is cut 2 in wide from cloth of 45 in.
func workedBinding(bias bool, length float64) Binding {
	return Binding{Bias: bias, Length: length * inch, Width: 0.5 * inch, TurnIn: 0.5 * inch, ClothWidth: 45 * inch,
		Join: 0.25 * inch}
}

// Plane geometry: strips of 45 in less two joins of 1/4 in give 44.5 in, on the
// bias 44.5 sqrt 2 = 62.933 in. 300 in take ceil(6.742) = 7 straight ones, 7 x 2 =
// 14 in of cloth; on the bias ceil(4.767) = 5, 5 x 2 sqrt 2 + 45 = 59.142 in, for
// they lean over the width of the cloth. In a ring every end is in a join; with two free
// ends turned in by 1/2 in, 300 + 2/2 in and 6 joins of 2/4 in are cut, 304 in, 45 in
// from each of six strips; on the bias (300 + 1)/sqrt 2 and 4 joins, 214.839 in, measured
// across the cloth.
func TestBindingWorked(t *testing.T) {
	for bias, want := range map[bool]struct {
		strips        int
		part, cloth   float64 // in
		joins, closed int
		last          float64 // strip of a binding with free ends, in
	}{
		false: {7, 300 - 6*44.5 + 0.5, 14, 6, 7, 304 - 6*45},
		true:  {5, 300/math.Sqrt2 - 4*44.5 + 0.5, 59.142, 4, 5, 301/math.Sqrt2 + 2 - 4*45},
	} {
		b := workedBinding(bias, 300)
		b.Closed = true
		table, err := bindingOf(b)
		if err != nil {
			t.Fatal(err)
		}
		inches(t, "cut width", table.CutWidth, 2)
		inches(t, "length", table.Length, 300)
		inches(t, "cloth", table.Cloth, want.cloth)
		if table.Strips != want.strips || table.Joins != want.closed {
			t.Errorf("bias %v: %d strips, %d joins", bias, table.Strips, table.Joins)
		}
		pieces := mustDraft(t, b)
		_, across := pieces[1].CutSize()
		inches(t, "part strip across", across, want.part)
		if len(pieces[0].Inside) != 3 {
			t.Errorf("%d folds", len(pieces[0].Inside))
		}
		b.Closed = false
		pieces = mustDraft(t, b)
		_, across = pieces[len(pieces)-1].CutSize()
		inches(t, "last strip across", across, want.last)
		if table, err = bindingOf(b); err != nil || table.Strips != want.strips {
			t.Errorf("bias %v: %+v, %v", bias, table, err)
		}
		inches(t, "length between turn-ins", table.Length, 300)
		for closed, want := range map[bool]int{false: want.joins, true: want.closed} {
			b.Closed = closed
			joins := 0
			for _, s := range checkJoins(t, b) {
				joins += s.Join.Times
			}
			if table, _ := bindingOf(b); joins != want || table.Joins != want {
				t.Errorf("bias %v, closed %v: %d joins, the table says %d", bias, closed, joins, table.Joins)
			}
		}
	}
}

// The quilters' rule for a square: side x side / cut width, so 30 in cut 2 in wide
// give 450 in, and back (common practice; plane geometry, joins left aside).
func TestBindingByArea(t *testing.T) {
	b := workedBinding(true, 450)
	inches(t, "length", b.FromArea(30*inch*30*inch), 450)
	near(t, "square", math.Sqrt(b.Area())/inch, 30, 1e-9)
}

// Strips from a length of cloth: as many as go side by side, and what a table asks
// for gives what it was asked for.
func TestBindingFromCloth(t *testing.T) {
	// (60 - 45)/(2 sqrt 2) = 5.30: five strips of 62.933 in between joins; 4 joins and
	// two turn-ins of 1/2 in leave (5 x 45 - 4/2) sqrt 2 - 1 in.
	for closed, want := range map[bool]float64{true: 5 * 44.5 * math.Sqrt2, false: 223*math.Sqrt2 - 1} {
		b := workedBinding(true, 300)
		b.Closed = closed
		got, err := b.FromCloth(60 * inch)
		if err != nil || got.Strips != 5 || (got.Joins == 5) != closed {
			t.Errorf("%+v, %v", got, err)
		}
		inches(t, "length", got.Length, want)
	}
	if _, err := workedBinding(true, 300).FromCloth(46 * inch); err == nil {
		t.Error("a strip leans over 45 in and takes 2.828 in more: 46 in are too short")
	}
	rapid.Check(t, func(t *rapid.T) {
		b := drawBinding(t)
		table, err := bindingOf(b)
		if err != nil {
			t.Skip(err)
		}
		if strips, _ := b.plan(); strips.full == 0 && b.Bias {
			t.Skip("strips that are all short, one or two halves, lean over less than the width")
		}
		back, err := b.FromCloth(table.Cloth)
		if err != nil || back.Strips != table.Strips || back.Length < table.Length-plane.Lattice {
			t.Errorf("%+v gives %+v, %v", table, back, err)
		}
		// The area law is the most that any cutting can give.
		area := table.Cloth * b.ClothWidth
		if table.Length > b.FromArea(area) {
			t.Errorf("%.0f mm from an area that gives %.0f", table.Length, b.FromArea(area))
		}
	})
}

func drawBinding(t *rapid.T) Binding {
	mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	return Binding{
		Bias: rapid.Bool().Draw(t, "bias"), Length: mm("length", 100, 20_000), Width: mm("width", 5, 30),
		Folds:  rapid.IntRange(0, 6).Draw(t, "folds"),
		Closed: rapid.Bool().Draw(t, "closed"), TurnIn: mm("turn-in", 0, 20), ClothWidth: mm("cloth", 500, 1600),
		Join: mm("join", 0, 15),
	}
}

// Strips sewn together are as long as asked for, none is higher than the cloth is
// wide, and their area is the length times the cut width.
func TestBindingProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBinding(t)
		if _, err := bindingOf(b); err != nil {
			t.Skip(err)
		}
		area := func(b Binding) (sum float64) {
			for _, p := range mustDraft(t, b) {
				soundGore(t, p)
				if _, across := p.CutSize(); across > b.ClothWidth {
					t.Errorf("a strip %g mm high from cloth of %g mm", across, b.ClothWidth)
				}
				sum += float64(p.Count) * plane.Area(p.Seam)
			}
			return sum
		}
		checkJoins(t, b)
		was := area(b)
		near(t, "area", was, b.Area(), 0.01*b.CutWidth()*float64(len(mustDraft(t, b))))
		for what, change := range map[string]func(*Binding){
			"longer": func(b *Binding) { b.Length += 5 },
			"wider":  func(b *Binding) { b.Width++ },
		} {
			more := b
			change(&more)
			if bigger := area(more); bigger <= was {
				t.Errorf("%s: area %.0f, was %.0f", what, bigger, was)
			}
		}
	})
}

// TestSeamsOfBiasStripsLieWithin: the seam line of a strip on the bias lies inside its cut
// line, on its long sides on it, with ends that are joined and ends that are turned in.
func TestSeamsOfBiasStripsLieWithin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := Binding{
			Bias: true, Closed: rapid.Bool().Draw(t, "closed"),
			Length: rapid.Float64Range(100, 5000).Draw(t, "length"), Width: rapid.Float64Range(3, 20).Draw(t, "width"),
			ClothWidth: rapid.Float64Range(600, 1500).Draw(t, "cloth"), Join: rapid.Float64Range(0, 15).Draw(t, "join"),
		}
		if !b.Closed {
			b.TurnIn = rapid.Float64Range(0, 20).Draw(t, "turned in")
		}
		d, err := b.Draft()
		if err != nil {
			t.Skip(err) // a last strip too short, now and then
		}
		for _, p := range d.Pieces {
			high := p.Cut[2][1]
			for _, v := range p.Seam {
				over := max(v[1]-v[0], v[0]-v[1]-p.Cut[1][0], -v[1], v[1]-high)
				if over > 2*plane.Lattice {
					t.Fatalf("%s: the seam line at %v lies %v mm outside %v", p.Name, v, over, p.Cut)
				}
			}
		}
	})
}

func TestBindingRefuses(t *testing.T) {
	with := func(change func(*Binding)) Binding { b := workedBinding(true, 300); change(&b); return b }
	refuses(t, []refusal{
		{"no length", with(func(b *Binding) { b.Length = 0 }), "bias binding: length is 0 mm"},
		{"straight, negative", with(func(b *Binding) { b.Length, b.Bias = -1, false }),
			"straight binding: length is -1 mm"},
		{"no width", with(func(b *Binding) { b.Width = 0 }), "width is 0 mm"},
		{"folds", with(func(b *Binding) { b.Folds = 13 }), "folds: 13, must be from 1 to 12"},
		{"no cloth", with(func(b *Binding) { b.ClothWidth = 0 }), "cloth width is 0 mm"},
		{"negative join", with(func(b *Binding) { b.Join = -1 }), "join allowance is -1 mm"},
		{"negative turn-in", with(func(b *Binding) { b.TurnIn = -1 }), "allowance of the free ends is"},
		{"all turn-in", with(func(b *Binding) { b.TurnIn = 900 }), "at the ends leave nothing of a cloth width"},
		{"all join", with(func(b *Binding) { b.Join = 600 }), "leave nothing of a cloth width"},
		{"without end", with(func(b *Binding) { b.Length, b.ClothWidth, b.Join = 50_000, 20, 0 }),
			"strips, the most is"},
	})
	for want, length := range map[string]float64{"length of cloth is -5 mm": -5, "are too short for one strip": 900} {
		_, err := with(func(*Binding) {}).FromCloth(length)
		says(t, err, want)
	}
}
