package depict

import (
	"fmt"

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

// Taken describes a drawing made elsewhere as it was read. Of several sizes all lines are
// drawn, and those shown are numbered.
func Taken(f *take.Found, unit measure.Unit, show say.Show) sheet.Taken {
	t := sheet.Taken{Title: f.File, Unit: unit}
	if f.Size != "" {
		t.Title += ", size " + f.Size
	}
	for i, l := range f.Lines {
		t.Lines = append(t.Lines, sheet.TakenLine{Role: takenRoles[f.Roles[i].Role], Path: l.Points})
	}
	for _, p := range f.Pieces {
		ring := p.Ring()
		if p.Cut != nil {
			ring = p.Cut
		}
		t.Pieces = append(t.Pieces, sheet.TakenPiece{Number: p.Number, Name: p.Name, Ring: ring})
	}
	for i, fault := range f.Faults {
		if i == mostRinged {
			t.Notes = append(t.Notes, fmt.Sprintf("%d more faults are not ringed.", len(f.Faults)-i))
			break
		}
		if fault.Place == "" && fault.At == (orb.Point{}) {
			continue // it only counts others
		}
		t.Faults = append(t.Faults, sheet.TakenFault{Number: i + 1, At: fault.At,
			What: fmt.Sprintf("%v: %s (%s)", fault.Kind, fault.What.In(show), fault.Place)})
	}
	return t
}
