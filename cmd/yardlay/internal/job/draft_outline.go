package job

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/outline"
)

var outlineFile = family{
	name:    "outline",
	flat:    true,
	about:   "pieces drawn elsewhere, read from a drawing in SVG, DXF or GeoJSON; `yardlay take` shows what it holds",
	example: `draft = "outline", file = "sleeve.geojson", count = 2, pair = true`,
	keys: []Key{
		{"file", text.like(`"sleeve.geojson"`), "",
			"the drawing, in the folder of the job or below it: .svg, .dxf or .geojson. Of GeoJSON millimetres are " +
				"read, x along the grain"},
		{"shapes", tableKind(shapeKeys...).lists(), "all of the file",
			"`[ { number = 3 }, { name = \"cuff\" } ]`: which of its shapes are cut, as `yardlay take` numbers them"},
		{"size", text.like(`"38"`), "the only one", "of a graded file, which of its sizes"},
		{"drawn", oneOf("cut", "seam"), "`cut`",
			"whether an outline that nothing names is the cut line or the seam line; a seam line gets the allowances, " +
				"unless the cut line is drawn too"},
		{"roles", tableKind(roleKeys...).lists(), "as the file tells",
			"`[ { layer = \"8\", role = \"inside\" } ]`: what lines are for; the first that fits counts"},
		{"edges", tableKind(edgeKeys...).lists(), "all are seams",
			"`[ { edge = \"edge 3\", kind = \"hem\" } ]`: what becomes of edges; the first that fits counts"},
		{"one_unit", length.like(`"1 in"`), "as the file says",
			"how long one unit of the file is, such as \"1 mm\" or \"1 in\"; needed where the file does not say"},
		{"join", lengthOr0.like(`"1 mm"`), "0.5 mm", "how far apart ends of lines may lie that make one outline"},
		{"fold", oneOf("drawn", "left", "right", "top", "bottom", "none"), "`drawn`",
			"which edge lies on a fold: that along the line of fold, the straight one at a side as drawn, or none"},
		{"grain_angle", ratio(-180, 180), "as drawn, else 0",
			"the direction of the grain in the drawing, degrees counter-clockwise from the right: 90 is up"},
		{"count", countKey.Kind, "as the file says, else 1", countKey.Meaning},
		{"pair", truth, "as the file says",
			"half of the copies are mirrored: left as drawn, and right; needs an even count"},
	},
	read: readOutline,
}

// shapeKeys, roleKeys and edgeKeys are those of the tables of an outline.
var (
	shapeKeys = []Key{
		{"number", count(1, outline.MaxOutlines), "any", "as `yardlay take` numbers the shapes of the file"},
		{"name", text.like(`"cuff"`), "any", "what the file calls it"},
		{"id", text.like(`"path12"`), "any", "of a line of its outline"},
		{"layer", text.like(`"front"`), "any", "of a line of its outline"},
		{"block", text.like(`"CUFF-38"`), "any", "in DXF, the block that it is drawn in"},
		{"colour", text.like(`"#ff0000"`), "any", "of a line of its outline"},
	}
	roleKeys = []Key{
		{"layer", text.like(`"8"`), "any", "of the line"},
		{"prefix", text.like(`"grain"`), "any", "what the id or the label of the line begins with"},
		{"colour", text.like(`"#ff0000"`), "any", "of the line"},
		{"role", oneOf(roles...), "", "what it is for; `ignore` leaves it out"},
	}
	edgeKeys = []Key{
		{"edge", text.like(`"edge 3"`), "any", "what `yardlay take` calls it"},
		{"layer", text.like(`"hems"`), "any", "of its line"},
		{"prefix", text.like(`"hem"`), "any", "what the id or the label of its line begins with"},
		{"colour", text.like(`"#00ff00"`), "any", "of its line"},
		{"kind", oneOf("seam", "hem", "waist", "opening", "top"), "`seam`", "what becomes of it"},
		{"allowance", lengthOr0, "the part's for its kind", "cut outside it where the outline is the seam line"},
	}
)

// roles are the words for roles.
var roles = func() (words []string) {
	for r := outline.CutLine; r <= outline.Ignored; r++ {
		words = append(words, r.String())
	}
	return words
}()

func readOutline(p *partTable) []Layer {
	o := outlines{disk: p.disk, noted: p.noted, fileAt: p.Value.At}
	o.Pair, o.Single = p.Truth("pair", false), p.Has("pair") && !p.Truth("pair", false)
	if p.Has("count") {
		o.Count = p.Count("count", 1)
	}
	if p.Has("drawn") && p.Choice("drawn") == "seam" {
		o.options.Outline = outline.SeamLine
	}
	o.path = p.drawing()
	if f := p.Field("file"); f != nil {
		o.fileAt = f.Value.At
	}
	p.outlined(o.path)
	if odd := max(o.Count, 1)%2 != 0; o.Pair && odd && (o.Count > 0 || isGeoJSON(o.path)) {
		p.Fail(p.Field("pair").Value.At, "for example count = 2", "a pair needs an even `count`, not %d", max(o.Count, 1))
	}
	if mm, ok := p.Length("one_unit"); ok {
		o.options.Millimetres = mm
	}
	o.options.Tolerance, o.joinAt = p.join()
	if text, at, ok := p.Text("size"); ok {
		o.size, o.sizeAt = text, at
	}
	o.fold, o.foldAt = p.foldSide()
	if angle, ok := p.Ratio("grain_angle"); ok {
		o.Grain = &angle
	}
	o.options.Rules = p.roleRules()
	o.chosen = p.chosenShapes()
	edges := p.edgeRules()
	return p.alike(func(l layer) draft.Draft {
		o.Allowance = l.allow
		o.Edge = edgeBy(edges, l.allow)
		return o
	})
}

// drawing reads the path of the file, which has to be in the folder of the job or below it.
func (p *partTable) drawing() string {
	name, at, ok := p.Text("file")
	if !ok {
		if !p.Has("file") {
			p.Need("file", `for example file = "sleeve.geojson"`)
		}
		return ""
	}
	local := filepath.FromSlash(name)
	if !filepath.IsLocal(local) {
		p.Fail(at, "put a copy beside the job, and give its name alone", "`file`: %q is not in the folder of the job", name)
		return ""
	}
	return filepath.Join(filepath.Dir(p.File), local)
}

func isGeoJSON(path string) bool {
	ending := strings.ToLower(filepath.Ext(path))
	return ending == ".geojson" || ending == ".json"
}

// join reads how far apart ends may lie; 0 where it is not said.
func (p *partTable) join() (mm float64, at strict.Position) {
	mm, ok := p.Length("join")
	if !ok {
		return 0, p.Value.At
	}
	return max(mm, outline.LeastTolerance), p.Field("join").Value.At
}

// foldSide reads which side lies on a fold.
func (p *partTable) foldSide() (side string, at strict.Position) {
	if !p.Has("fold") {
		return "drawn", p.Value.At
	}
	return p.Choice("fold"), p.Field("fold").Value.At
}

// Most tables of each kind in one part.
const mostShapes, mostRoles = outline.MaxOutlines, 100

// needs refuses a table that says of nothing what it is about.
func (t *table) needsOneOf(keys ...string) {
	if !slices.ContainsFunc(keys, t.Has) {
		t.Fail(t.Value.At, fmt.Sprintf("give one of: %s", strings.Join(keys, ", ")), "%s fits everything", t.Name)
	}
}

// textOf reads a text that may be missing.
func (t *table) textOf(key string) string {
	text, _, _ := t.Text(key)
	return text
}

// chosenShapes reads which shapes of the file are cut.
func (p *partTable) chosenShapes() (all []chosen) {
	for i, n := range p.InlineTables("shapes", `{ number = 1 }`, mostShapes) {
		t := p.within("shapes", n, label("shape", "", i)+" of "+p.Name)
		c := chosen{at: n.At, name: t.textOf("name"), Marks: outline.Marks{ID: t.textOf("id"), Layer: t.textOf("layer"),
			Block: t.textOf("block"), Colour: t.textOf("colour")}}
		if t.Has("number") {
			c.number = t.Count("number", 0)
		}
		t.needsOneOf("number", "name", "id", "layer", "block", "colour")
		t.Finish()
		all = append(all, c)
	}
	return all
}

// roleRules reads what lines are for.
func (p *partTable) roleRules() (rules []outline.Rule) {
	for i, n := range p.InlineTables("roles", `{ layer = "8", role = "inside" }`, mostRoles) {
		t := p.within("roles", n, label("role", "", i)+" of "+p.Name)
		r := outline.Rule{Layer: t.textOf("layer"), Prefix: t.textOf("prefix"), Colour: t.textOf("colour")}
		if t.Has("role") {
			r.Role = outline.Role(slices.Index(roles, t.Choice("role")) + 1)
		} else {
			t.Need("role", strict.OneOf("", roles))
		}
		t.needsOneOf("layer", "prefix", "colour")
		t.Finish()
		rules = append(rules, r)
	}
	return rules
}

// edgeRule says what becomes of the edges that it fits.
type edgeRule struct {
	outline.Rule
	edge      string
	kind      shapes.EdgeKind
	allowance *float64
}

// edgeKinds are the kinds of edges by their words.
var edgeKinds = map[string]shapes.EdgeKind{"seam": shapes.Seam, "hem": shapes.Hem, "waist": shapes.Waist,
	"opening": shapes.Opening, "top": shapes.Top}

// edgeRules reads what becomes of edges.
func (p *partTable) edgeRules() (rules []edgeRule) {
	for i, n := range p.InlineTables("edges", `{ edge = "edge 3", kind = "hem" }`, mostRoles) {
		t := p.within("edges", n, label("edge", "", i)+" of "+p.Name)
		r := edgeRule{edge: t.textOf("edge"), Rule: outline.Rule{Layer: t.textOf("layer"), Prefix: t.textOf("prefix"),
			Colour: t.textOf("colour")}}
		if t.Has("kind") {
			r.kind = edgeKinds[t.Choice("kind")]
		}
		if mm, ok := t.Length("allowance"); ok {
			r.allowance = &mm
		}
		t.needsOneOf("edge", "layer", "prefix", "colour")
		t.Finish()
		rules = append(rules, r)
	}
	return rules
}

// edgeBy is what rules say of an edge, with the allowances of a layer; nil without rules.
func edgeBy(rules []edgeRule, allow shapes.Allowance) func(outline.Edge) (shapes.EdgeKind, float64) {
	if len(rules) == 0 {
		return nil
	}
	return func(e outline.Edge) (shapes.EdgeKind, float64) {
		for _, r := range rules {
			if (r.edge == "" || strings.EqualFold(r.edge, e.Name)) && r.Fits(e.Marks) {
				if r.allowance != nil {
					return r.kind, *r.allowance
				}
				return r.kind, allow.For(r.kind)
			}
		}
		return shapes.Seam, allow.Seam
	}
}
