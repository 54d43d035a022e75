package outline

import (
	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// DefaultTolerance is how far apart ends may lie that are joined, mm, unless somebody says
// otherwise: about the width of a pencil line.
const DefaultTolerance = 0.5

// MaxTolerance is the most of it, mm: more would join what lies side by side.
const MaxTolerance = 20.0

// LeastTolerance is the least of it, mm: coordinates are written no finer.
const LeastTolerance = 0.01

// Options are what is known of a drawing besides what it holds.
type Options struct {
	Rules       []Rule  // roles of lines; those that no rule names are guessed
	Outline     Role    // of outlines that nothing names: CutLine, which 0 means, or SeamLine
	Millimetres float64 // of one unit of the file, in place of what it says; 0: as it says
	Tolerance   float64 // ends so far apart are joined, mm; 0: DefaultTolerance
}

// Assembly is a drawing whose lines have roles, as shapes.
type Assembly struct {
	Shapes []Shape
	Faults []Fault
	Lines  []Line     // of the drawing, mm, on the lattice
	Roles  []LineRole // of each of them
	Unit   Unit       // that was counted in
}

// LineRole is what one line is for, and why.
type LineRole struct {
	Role    Role
	Given   bool   // by a rule that was handed over
	Because string // a clause: "its layer is called grain"; "" where a rule says so
	Shape   int    // number of the shape that it belongs to; 0: none
}

// ErrNoUnit is the error of a drawing that does not say how long its unit is.
type ErrNoUnit struct{}

func (ErrNoUnit) Error() string { return "the file does not say how long its unit is" }

// Assemble groups the lines of a drawing into shapes. Lines that no outline holds, and all
// that is mended or wrong, are among the faults; errors are for a drawing without a unit
// (ErrNoUnit), and for what is beyond the limits.
//
// Outlines are the closed lines that lie in no other, and those that lines make whose ends
// meet within the tolerance. A closed line within an outline that keeps near it all the way
// is the seam line of the same piece, a small one a hole to drill, any other a cut-out.
// What is open and lies within is a notch, the grain, a fold, a dart or a line to mark.
func Assemble(d Drawing, o Options) (Assembly, error) {
	unit, scale, err := unitOf(d, o)
	if err != nil {
		return Assembly{}, err
	}
	if o.Tolerance == 0 {
		o.Tolerance = DefaultTolerance
	}
	if !(o.Tolerance > 0 && o.Tolerance <= MaxTolerance) {
		return Assembly{}, say.Errorf("ends %.3g apart cannot be joined, the most is %v", say.MM(o.Tolerance),
			say.MM(MaxTolerance))
	}
	if o.Outline == Unnamed {
		o.Outline = CutLine
	}
	a := &assembler{Options: o}
	if a.drawing, err = onLattice(d, scale); err != nil {
		return Assembly{}, err
	}
	a.Lines, a.Unit = a.drawing.Lines, unit
	a.Roles = make([]LineRole, len(a.Lines))
	a.told, a.spoilt = map[FaultKind]int{}, map[int]bool{}
	if d.Apart {
		a.apart()
	} else if err := a.together(); err != nil {
		return Assembly{}, err
	}
	a.sizes()
	a.more()
	return a.Assembly, nil
}

// assembler is a drawing on its way into shapes.
type assembler struct {
	Options
	Assembly
	drawing Drawing
	pattern map[string]Role    // by layer; nil: it is no pattern data
	names   map[Marks]LineRole // by what lines are called
	loops   []*loop            // closed lines
	open    []int              // lines that might be of an outline and are in no loop
	holders *holders
	shaped  []shaped // what each of the shapes was made of
	borders []border // of the edges of each shape
	cuts    []border // of its cut line, where it has that besides
	loose   []int    // open lines that lie at no shape and might be of an outline
	marks   int      // lines and points at the shapes
	told    map[FaultKind]int
	spoilt  map[int]bool // lines of outlines that no piece can be cut by
	about   *loop        // that faults are told of now; nil: of none
}

// together reads the drawing as a picture, in which lines lie within each other.
func (a *assembler) together() error {
	a.hairs()
	a.named()
	a.twins()
	a.close()
	if err := a.enclose(); err != nil {
		return err
	}
	if err := a.outlines(); err != nil {
		return err
	}
	if err := a.placed(); err != nil {
		return err
	}
	a.unclosed()
	a.texts()
	return nil
}

// apart makes a shape of each closed line by itself.
func (a *assembler) apart() {
	for i, l := range a.Lines {
		if !l.Closed {
			continue
		}
		a.ruled(i)
		if a.Roles[i].Role == Ignored {
			continue
		}
		ring, err := order(orb.Ring(l.Points))
		if err != nil {
			a.fault(Fault{Kind: SelfCrossed, What: say.Textf("%v", err), At: l.Points[0], Place: l.Place})
			continue
		}
		n := len(a.Shapes) + 1
		if a.Roles[i].Role != CutLine && a.Roles[i].Role != SeamLine {
			a.Roles[i].Role, a.Roles[i].Because = a.Outline, "it is closed"
		}
		a.Roles[i].Shape = n
		name := l.Label
		if name == "" {
			name = placeName(n)
		}
		a.Shapes = append(a.Shapes, Shape{Number: n, Name: name, Size: l.Size, Outline: a.Roles[i].Role, Fold: -1,
			Place: l.Place, Marks: l.Marks,
			Edges: []Edge{{Name: "outline", Line: orb.LineString(ring), Place: l.Place, Marks: l.Marks}}})
	}
}

// mostTold is how many faults of one kind are told one by one.
const mostTold = 100

// fault tells a fault, unless there are many of its kind.
func (a *assembler) fault(f Fault) {
	if a.told[f.Kind]++; a.told[f.Kind] <= mostTold || f.Kind.Stops() {
		if a.about != nil {
			a.about.faults = append(a.about.faults, len(a.Faults))
		}
		a.Faults = append(a.Faults, f)
	}
}

// more says how many faults were not told.
func (a *assembler) more() {
	for k := Joined; k <= TooFine; k++ {
		if n := a.told[k] - mostTold; n > 0 && !k.Stops() {
			a.Faults = append(a.Faults, Fault{Kind: k, What: say.Textf("%d more of this kind are not told", n)})
		}
	}
}

// Sizes of pieces of clothes, mm (common practice): a tab is 3 cm long. A train may be 4 m and
// more, and no unit is guessed that makes one longer than longest; but few pieces are as long as
// mostSpan, and a sleeve of 4 m is a mistake, so that it is told.
const (
	leastSpan = 30.0
	mostSpan  = 3000.0
	longest   = 4500.0
)

// sizes tells drawings that are too large or too small for clothes.
func (a *assembler) sizes() {
	var largest *Shape
	span := 0.
	for i, s := range a.Shapes {
		b := plane.Bounds(s.Ring())
		if large := max(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]); large > span {
			largest, span = &a.Shapes[i], large
		}
	}
	switch {
	case largest == nil || span >= leastSpan && span <= mostSpan:
		return
	case span < leastSpan:
		a.fault(Fault{Kind: WrongUnit, What: say.Textf("the largest shape spans %.3g, which is small for clothes",
			say.MM(span)), Hint: "say how long one unit of the file is", At: largest.Edges[0].Line[0],
			Place: largest.Place, Shape: largest.Number})
	default:
		a.fault(Fault{Kind: WrongUnit, What: say.Textf("%s spans %.0f, which is large for clothes",
			largest.Name, say.MM(span)), Hint: "say how long one unit of the file is", At: largest.Edges[0].Line[0],
			Place: largest.Place, Shape: largest.Number})
	}
}
