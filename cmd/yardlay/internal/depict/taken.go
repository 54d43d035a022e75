package depict

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cmd/yardlay/internal/take"
	"yardlay/shapes/measure"
	"yardlay/shapes/outline"
	"yardlay/shapes/say"
)

// takenRoles are the roles of lines as they are drawn.
var takenRoles = map[outline.Role]sheet.Role{outline.Unnamed: sheet.RoleLeftOut, outline.CutLine: sheet.RoleEdge,
	outline.SeamLine: sheet.RoleSeam, outline.Grain: sheet.RoleGrain, outline.Fold: sheet.RoleFold,
	outline.Notch: sheet.RoleNotch, outline.Dart: sheet.RoleDart, outline.Internal: sheet.RoleInside,
	outline.Ignored: sheet.RoleLeftOut}

// mostRinged is how many faults are ringed in a picture.
const mostRinged = 200

// Taken describes a drawing made elsewhere as it was read. Of several sizes that shown is drawn.
func Taken(f *take.Found, unit measure.Unit, show say.Show) sheet.Taken {
	t := sheet.Taken{Title: f.File, Unit: unit}
	if f.Size != "" {
		t.Title += ", size " + f.Size
	}
	shown := map[int]bool{0: true}
	var numbers []int
	bounds := map[int]orb.Bound{}
	for _, p := range f.Pieces {
		ring := p.Outer()
		shown[p.Number], bounds[p.Number] = true, ring.Bound()
		numbers = append(numbers, p.Number)
		t.Pieces = append(t.Pieces, sheet.TakenPiece{Number: p.Number, Name: p.Name, Ring: ring})
	}
	for i, l := range f.Lines {
		if r := f.Roles[i]; shown[r.Shape] {
			t.Lines = append(t.Lines, sheet.TakenLine{Role: takenRoles[r.Role], Piece: r.Shape, Path: l.Points})
			if b, ok := bounds[r.Shape]; ok {
				bounds[r.Shape] = b.Union(l.Points.Bound())
			}
		}
	}
	for i, fault := range f.Faults {
		if len(t.Faults) == mostRinged {
			t.Notes = append(t.Notes, fmt.Sprintf("%d more faults are not ringed.", len(f.Faults)-i))
			break
		}
		if !shown[fault.Shape] || fault.Place == "" {
			continue // it is of another size, or counts others
		}
		t.Faults = append(t.Faults, sheet.TakenFault{Number: i + 1, Piece: fault.Shape, At: fault.At,
			What: fmt.Sprintf("%v: %s (%s)", fault.Kind, fault.What.In(show), fault.Place)})
	}
	if overlap(numbers, bounds) {
		apart(&t, numbers, bounds)
	}
	return t
}

// overlap says whether pieces lie over each other, as the blocks of a file do that has each of
// them about an origin of its own.
func overlap(numbers []int, bounds map[int]orb.Bound) bool {
	for i, n := range numbers {
		for _, m := range numbers[:i] {
			a, b := bounds[n], bounds[m]
			wide := min(a.Max[0], b.Max[0]) - max(a.Min[0], b.Min[0])
			high := min(a.Max[1], b.Max[1]) - max(a.Min[1], b.Min[1])
			if wide > 0 && high > 0 && wide*high > min(spans(a), spans(b))/2 {
				return true
			}
		}
	}
	return false
}

func spans(b orb.Bound) float64 { return (b.Max[0] - b.Min[0]) * (b.Max[1] - b.Min[1]) }

// apart moves pieces beside each other, in rows. Lines that belong to none go.
func apart(t *sheet.Taken, numbers []int, bounds map[int]orb.Bound) {
	all := 0.
	for _, b := range bounds {
		all += spans(b)
	}
	const room = 20.0 // mm
	row := 1.5 * math.Sqrt(all)
	by := map[int]orb.Point{}
	x, y, high := 0., 0., 0.
	for _, n := range numbers {
		b := bounds[n]
		if x > 0 && x+b.Max[0]-b.Min[0] > row {
			x, y, high = 0, y-high-room, 0
		}
		by[n] = orb.Point{x - b.Min[0], y - b.Max[1]}
		x, high = x+b.Max[0]-b.Min[0]+room, max(high, b.Max[1]-b.Min[1])
	}
	t.Move(by)
	t.Notes = append(t.Notes, "The file has the pieces over each other; they are drawn side by side.")
}
