package outline

// Role is what a line of a drawing is for.
type Role int

// Roles of lines.
const (
	Unnamed  Role = iota // nobody has said
	CutLine              // the outline that is cut
	SeamLine             // the outline that is sewn; the allowance goes outside it
	Grain                // lies along the grain
	Fold                 // the edge that lies on a fold: the drawing is one half
	Notch                // a short mark across, or at, the outline
	Dart                 // legs of a dart
	Internal             // marked on the cloth, not cut by the layout
	Ignored              // left out: frames, dimensions, notes
)

// String is the word for a role in a job file, and everywhere else.
func (r Role) String() string {
	return [...]string{"", "cut", "seam", "grain", "fold", "notch", "dart", "inside", "ignore"}[r]
}

// A Rule says the role of every line whose marks match. Fields that are "" match all; the
// first rule that matches counts.
type Rule struct {
	Layer  string // layer of that name
	Prefix string // id or label that begins so
	Colour string // stroke of that colour, "#rrggbb"
	Role   Role
}
