package job

import (
	"path/filepath"

	"yardlay/shapes/draft"
)

var waistband = family{
	name:    "waistband",
	about:   "a straight band, folded along its middle, closed at centre back",
	example: `draft = "waistband", width = "1 1/4", ease = "-1", underlap = "1 1/4", interfacing = "fusible"`,
	keys: []Key{
		waistKey,
		{"width", length, "", "finished width, folded"},
		{"ease", signed, "0", "added to the waist; negative where it will be laced in"},
		{"underlap", lengthOr0, "0", "passes under the other end at the closing"},
		{"across", truth, "false", "long side across the cloth instead of along the grain"},
		{"interfacing", nameOf("cloth"), "none", "cuts a piece of interfacing from that cloth"},
		{"interfacing_allowance", lengthOr0, "0", "cut outside the sewn line of the interfacing"},
	},
	read: readWaistband,
}

func readWaistband(p *partTable) []Layer {
	band := draft.Waistband{Waist: p.measure("waist")}
	p.into(&band)
	layers := p.cutBy(band, unlike{})
	if p.Has("interfacing") {
		if c, ok := p.clothNamed("interfacing", p.Field("interfacing").Value, p.allCloths); ok {
			layers = append(layers, Layer{Cloth: c.ID, Grain: p.grainOn(c, p.grain)}.DrawnAs(draft.Interfacing(band)))
		}
	}
	return layers
}

var rectangle = family{
	name:    "rectangle",
	flat:    true,
	about:   "a plain rectangle: a sash, a belt, a straight panel",
	example: `draft = "rectangle", length = "72", width = "6", count = 2`,
	keys: []Key{
		{"length", length, "", "finished, along the grain"},
		{"width", length, "", "finished, across the grain"},
		countKey,
		{"hemmed", truth, "false", "the far end is a hem and takes the hem allowance"},
	},
	read: func(p *partTable) []Layer {
		r := draft.Rectangle{Name: p.title, Count: 1}
		p.into(&r)
		return p.cutBy(r, unlike{})
	},
}

var outlineFile = family{
	name:    "outline",
	flat:    true,
	about:   "pieces drawn elsewhere, read from a GeoJSON file in millimetres",
	example: `draft = "outline", file = "sleeve.geojson", count = 2, pair = true`,
	keys: []Key{
		{"file", text.like(`"sleeve.geojson"`), "",
			"the GeoJSON file, looked for beside the job file; x runs along the grain"},
		countKey,
		{"drawn", oneOf("cut", "seam"), "`cut`",
			"whether the file has cut lines or seam lines; these get the seam allowance"},
		{"pair", truth, "false", "half of the copies are mirrored: left as drawn, and right; needs an even count"},
	},
	read: readOutline,
}

func readOutline(p *partTable) []Layer {
	o := outlines{disk: p.disk, Outline: draft.Outline{
		Count: p.Count("count", 1), Pair: p.Truth("pair", false),
	}}
	seam := p.Choice("drawn") == "seam"
	name, _, ok := p.Text("file")
	if !ok && !p.Has("file") {
		p.Need("file", `for example file = "sleeve.geojson"`)
	}
	o.path = name
	if !filepath.IsAbs(name) {
		o.path = filepath.Join(filepath.Dir(p.File), name)
	}
	p.outlined(o.path)
	if o.Pair && o.Count%2 != 0 {
		p.Fail(p.Field("pair").Value.At, "for example count = 2", "a pair needs an even `count`, not %d", o.Count)
	}
	return p.alike(func(l layer) draft.Draft {
		if seam {
			o.Allowance = l.allow.Seam
		}
		return o
	})
}

// maxOutlined is how many bytes of outlines the parts of a job may have in all, a
// file counted once for each cloth and body: some 100,000 corners.
const maxOutlined = 4 << 20

// outlined counts a file of outlines; what else is wrong with it is told when it is
// drafted.
func (p *partTable) outlined(path string) {
	info, err := p.disk.stat(path)
	if err != nil || !info.Mode().IsRegular() {
		return
	}
	if p.outlinedBytes += info.Size() * int64(max(1, len(p.cloths))); p.outlinedBytes > maxOutlined {
		p.Fail(p.Field("file").Value.At, "draw curves with fewer corners, or share the parts out over several jobs",
			"the outlines of all parts, for each cloth and body, are over %d MiB of text, the most of a job",
			maxOutlined>>20)
	}
}

// outlines reads the file when it is drafted.
type outlines struct {
	draft.Outline
	path string
	disk *disk
}

func (o outlines) Draft() (drafted draft.Result, err error) {
	if o.Outlines, err = o.disk.outlines.of(o.path, o.disk.readOutlines); err != nil {
		return draft.Result{}, err
	}
	return o.Outline.Draft()
}
