package sheet

import "slices"

// look is how a role appears: colours as #rrggbb, "" for none, and, in mm of paper, the
// line's width and dashes. All writers read it.
type look struct {
	class, fill, stroke string
	width               float64
	dash                []float64
	bold                bool
}

// Theme is how the roles of a drawing look.
type Theme uint8

// The themes.
const (
	ThemeTinted Theme = iota // pieces in light tints on grey cloth: what is looked at in small
	ThemeLines               // lines alone on white: what is cut from paper, at little ink
	ThemeLight               // bold bright lines on a dark ground: what a projector throws on cloth
	themeCount
)

const white = "#fff"

// palette holds the looks of a theme.
type palette struct {
	ground string // of the sheet
	looks  [roleCount]look
	tints  []string // fill the pieces, one for each name in turn
}

// palette returns the looks of the theme; the first theme's for one that is none.
func (t Theme) palette() *palette { return &palettes[t%themeCount] }

var palettes = [themeCount]palette{ThemeTinted: tinted, ThemeLines: lines(tinted), ThemeLight: light}

// tinted prints well in grey: colours differ in lightness as well as hue and no meaning
// hangs on colour alone, so that colour-blind readers lose nothing. All tints are light
// enough for dark text on top and for the cloth to stand out between pieces.
var tinted = palette{
	ground: white,
	looks: [roleCount]look{
		RoleCloth:    {class: "cloth", fill: "#c3c8cf"},
		RoleSpare:    {class: "spare", fill: "#e6e8ec"},
		RoleSelvedge: {class: "selvedge", fill: "#878e99"},
		RoleEdge:     {class: "edge", stroke: "#2b3440", width: 0.35},
		RolePiece:    {class: "piece", stroke: "#1c2530", width: 0.3},
		RoleSeam:     {class: "seam", stroke: "#1c2530", width: 0.15, dash: []float64{1.2, 0.8}},
		RoleInside:   {class: "inside", stroke: "#5a4a78", width: 0.2, dash: []float64{3.6, 1, 0.6, 1}},
		RoleGrain:    {class: "grain", fill: "#24527a", stroke: "#24527a", width: 0.2},
		RoleNotch:    {class: "notch", stroke: "#1c2530", width: 0.35},
		RoleFold:     {class: "fold", fill: "#7d3a12", stroke: "#7d3a12", width: 0.3},
		RoleMark:     {class: "mark", stroke: "#7d3a12", width: 0.45, dash: []float64{3, 1}},
		RoleDim:      {class: "dim", fill: "#2b3440", stroke: "#2b3440", width: 0.2},
		RolePlate:    {class: "plate"},
		RoleGround:   {class: "ground", fill: white},
		RoleHeading:  {class: "heading", fill: "#1c2530", bold: true},
		RoleNote:     {class: "note", fill: "#1c2530"},
		RoleCaution:  {class: "caution", fill: "#7d3a12"},
		RoleFoldEdge: {class: "foldedge", stroke: "#7d3a12", width: 0.9},
		RoleHatch:    {class: "hatch", stroke: "#5d6672", width: 0.15},
		RoleFlaw:     {class: "flaw", fill: "#f2efe9", stroke: "#4a2a18", width: 0.2},
		RoleRepeat:   {class: "repeat", stroke: "#8a93a1", width: 0.12},
		RoleMatch:    {class: "match", stroke: "#0b5345", width: 0.25},
		RoleJoin:     {class: "join", stroke: "#2b3440", width: 0.2, dash: []float64{0.6, 0.6}},
		RoleLit:      {class: "sewn", stroke: "#8a2f3c", width: 1.4},
		RoleDart:     {class: "dart", stroke: "#0b5345", width: 0.3},
		RoleLeftOut:  {class: "leftout", stroke: "#5d6672", width: 0.15, dash: []float64{0.5, 0.7}},
		RoleFault:    {class: "fault", stroke: "#8a2f3c", width: 0.5},
	},
	tints: []string{"#fbf4e4", "#e3edf6", "#f6e3d8", "#e2eee0", "#ece4f2", "#f7efc4"},
}

// light is for a projector: the ground stays dark, so that only the lines light up the
// cloth, as thick as a few dots of the picture. The hues are those of Okabe and Ito
// ("Color Universal Design", 2002, revised 2008), which colour-blind people tell apart,
// and lines of near hues differ in their dashes too; all stand out from the ground as
// WCAG 2.2 asks of text and signs (1.4.6, 1.4.11).
var light = palette{
	ground: "#0b0d10",
	looks: [roleCount]look{
		RoleCloth:    {class: "cloth"},
		RoleSpare:    {class: "spare"},
		RoleSelvedge: {class: "selvedge", fill: "#30363e"},
		RoleEdge:     {class: "edge", stroke: "#aab4c0", width: 1.5},
		RolePiece:    {class: "piece", stroke: white, width: 2.2},
		RoleSeam:     {class: "seam", stroke: "#56b4e9", width: 1.2, dash: []float64{9, 6}},
		RoleInside:   {class: "inside", stroke: "#cc79a7", width: 1.4, dash: []float64{18, 5, 3, 5}},
		RoleGrain:    {class: "grain", fill: "#e69f00", stroke: "#e69f00", width: 1.5},
		RoleNotch:    {class: "notch", stroke: white, width: 2.6},
		RoleFold:     {class: "fold", fill: "#e69f00", stroke: "#e69f00", width: 2},
		RoleMark:     {class: "mark", stroke: "#f0e442", width: 2.2, dash: []float64{20, 8}},
		RoleDim:      {class: "dim", fill: "#f0e442", stroke: "#f0e442", width: 1.5},
		RolePlate:    {class: "plate"},
		RoleGround:   {class: "ground", fill: "#0b0d10"},
		RoleHeading:  {class: "heading", fill: white, bold: true},
		RoleNote:     {class: "note", fill: white},
		RoleCaution:  {class: "caution", fill: "#f0e442"},
		RoleFoldEdge: {class: "foldedge", stroke: "#e69f00", width: 4},
		RoleHatch:    {class: "hatch", stroke: "#8a93a1", width: 0.8},
		RoleFlaw:     {class: "flaw", fill: "#0b0d10", stroke: "#e69f00", width: 1.2},
		RoleRepeat:   {class: "repeat", stroke: "#7d8794", width: 0.8},
		RoleMatch:    {class: "match", stroke: "#009e73", width: 1.8},
		RoleJoin:     {class: "join", stroke: "#f0e442", width: 1.2, dash: []float64{3, 3}},
		RoleLit:      {class: "sewn", stroke: "#f0e442", width: 4},
		RoleDart:     {class: "dart", stroke: "#009e73", width: 1.8},
		RoleLeftOut:  {class: "leftout", stroke: "#8a93a1", width: 0.8, dash: []float64{2, 3}},
		RoleFault:    {class: "fault", stroke: "#f0e442", width: 2},
	},
	tints: []string{"#0b0d10"},
}

// lines takes the colour out of all areas of a palette. What covers another thing still
// does so.
func lines(p palette) palette {
	for _, r := range []Role{RoleCloth, RoleSpare, RoleSelvedge} {
		p.looks[r].fill = ""
	}
	p.looks[RoleFlaw].fill = p.ground
	p.tints = slices.Repeat([]string{p.ground}, len(p.tints))
	return p
}

// fill is what a shape is filled with, "" for nothing.
func (p *palette) fill(s Shape) string {
	if s.tinted() {
		return p.tints[s.Tint%len(p.tints)]
	}
	return p.looks[s.Role].fill
}

// tinted tells whether a tint fills the shape.
func (s Shape) tinted() bool { return s.Role == RolePiece || s.Role == RolePlate }
