package ways

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// cutterOptions are the flags of what is made for machines.
type cutterOptions struct {
	dxf, svg bool
	halves   bool
	noWords  bool
}

// cutterFlags are those of all ways to a machine.
func cutterFlags(flags *pflag.FlagSet, o *Options) {
	c := &o.cutterOptions
	flags.BoolVar(&c.dxf, "dxf", false, "for pattern programs and machines: each piece once, in DXF R12")
	flags.BoolVar(&c.svg, "svg", false, "for laser and knife machines: each piece once, as lines in SVG")
	flags.BoolVar(&c.halves, "halves", false,
		"with --dxf or --svg: leave pieces on a fold as halves, their fold not cut")
	flags.BoolVar(&c.noWords, "no-words", false, "with --dxf or --svg: leave out names and signs")
}

// Formats of what machines read.
type cutterFormat struct {
	set, kind string // the set of the folder, the end of names
	prefix    string // of what a file is of, where lay and draft have names that would be the same
	asked     func(*cutterOptions) bool
	encode    func(sheet.Strokes, measure.Unit) ([]byte, error)
}

var (
	asDXF = cutterFormat{"dxf", ".dxf", "", func(c *cutterOptions) bool { return c.dxf },
		func(s sheet.Strokes, unit measure.Unit) ([]byte, error) { return s.DXF(dxfUnits[unit]) }}
	asSVG = cutterFormat{"svg", ".svg", files.CutterPart, func(c *cutterOptions) bool { return c.svg },
		func(s sheet.Strokes, _ measure.Unit) ([]byte, error) { return s.SVG() }}
)

// dxfUnits is what a DXF counts in where a job is in a unit; millimetres where not inches.
var dxfUnits = map[measure.Unit]sheet.DXFUnit{measure.Inch: sheet.DXFInches}

// cutterWays are the ways to a machine. Pieces and markers are sets of their own.
func cutterWays() []way {
	ways := []way{asDXF.pieces(), asDXF.markers(), asSVG.pieces(), asSVG.markers()}
	ways[0].flags = cutterFlags
	return ways
}

func (f cutterFormat) pieces() way {
	return way{
		asked: func(o *Options) bool { return f.asked(&o.cutterOptions) && !o.markers },
		set: func(j *job.Job) folder.Set {
			return folder.Set{Name: f.set + "-pieces", Makes: func(name string) bool {
				return slices.ContainsFunc(j.Cloths, func(c job.Cloth) bool {
					return name == files.OfCloth(c.ID, f.prefix+files.PiecesPart, f.kind)
				})
			}}
		},
		make: func(ctx context.Context, p *Printing) (printed, error) { return f.printPieces(ctx, p) },
	}
}

func (f cutterFormat) markers() way {
	ofMarker := regexp.MustCompile(`^` + strings.Replace(f.prefix, "-", "[-.]", 1) + `([-.](` + files.MarkerParts +
		`))?\` +
		f.kind + `$`)
	return way{
		asked: func(o *Options) bool { return f.asked(&o.cutterOptions) && o.markers },
		check: func(o *Options, _ *job.Job) error {
			if o.halves {
				return &Refused{"halves", "does not go with --markers",
					"a marker has halves where its cloth is folded, and whole pieces elsewhere"}
			}
			return nil
		},
		set: func(j *job.Job) folder.Set {
			return folder.Set{Name: f.set + "-markers", Makes: func(name string) bool {
				return slices.ContainsFunc(j.Cloths, func(c job.Cloth) bool {
					rest, ok := strings.CutPrefix(name, files.OfCloth(c.ID, "", ""))
					return ok && ofMarker.MatchString(rest)
				})
			}}
		},
		make: func(ctx context.Context, p *Printing) (printed, error) { return f.printMarkers(ctx, p) },
	}
}

// cutterFile is what --json says of a file. Lengths are mm.
type cutterFile struct {
	File     string  `json:"file"`
	Cloth    string  `json:"cloth"`
	Unit     string  `json:"unit"` // of the numbers in the file
	Width    float64 `json:"width"`
	Height   float64 `json:"height"`
	Outlines int     `json:"outlines"`
}

// cutterWork is the line work of a file.
type cutterWork struct {
	cloth, what string // an id; what stands behind it in the name of the file
	work        sheet.Strokes
}

// printPieces makes a file of the pieces of each cloth.
func (f cutterFormat) printPieces(ctx context.Context, p *Printing) (printed, error) {
	spreads, _, err := p.drafted(ctx)
	if err != nil {
		return printed{}, err
	}
	p.stage("drawing")
	return plan.Unless(ctx, func() (printed, error) {
		if p.cutter == nil {
			p.cutter = p.piecesForCutter(spreads)
		}
		return f.printed(p, spreads, nil)
	})
}

// printMarkers makes a file of each marker of each cloth.
func (f cutterFormat) printMarkers(ctx context.Context, p *Printing) (printed, error) {
	if _, _, err := p.drafted(ctx); err != nil { // for the mark
		return printed{}, err
	}
	r, err := p.laid(ctx)
	if err != nil {
		return printed{}, err
	}
	if p.cutter == nil {
		p.cutter = p.markersForCutter(r)
	}
	var spreads []plan.Spread
	for _, c := range r.Cloths {
		spreads = append(spreads, c.Spread)
	}
	var notes []string
	if slices.ContainsFunc(spreads, func(s plan.Spread) bool { return s.Cloth.Gap == 0 }) {
		notes = append(notes, touching)
	}
	return f.printed(p, spreads, notes)
}

// printed encodes all line work, and says what to mind with it.
func (f cutterFormat) printed(p *Printing, spreads []plan.Spread, notes []string) (printed, error) {
	out, unit := printed{}, f.unit(p.unit)
	var facts []cutterFile
	for _, w := range p.cutter {
		data, err := f.encode(w.work, unit)
		name := files.OfCloth(w.cloth, f.prefix+w.what, f.kind)
		if err != nil {
			return printed{}, say.Errorf("cannot draw %s: %w", name, err)
		}
		out.files = append(out.files, folder.File{Name: name, Data: data})
		page := w.work.Page
		file := cutterFile{File: name, Cloth: w.cloth, Unit: unit.String(), Width: page.Max[0] - page.Min[0],
			Height: page.Max[1] - page.Min[1], Outlines: len(w.work.Places)}
		facts = append(facts, file)
		out.lines = append(out.lines, fmt.Sprintf("%s: %s, page %s.", name, outlines(file.Outlines),
			exactly(file.Width, file.Height, unit)))
	}
	out.facts, out.notes = facts, slices.Concat([]string{cutterUse}, notes, cutterCautions(spreads))
	return out, nil
}

// unit is what the numbers of a file count: SVG has millimetres.
func (f cutterFormat) unit(shown measure.Unit) measure.Unit {
	if size := measure.SizeUnit(shown); f.kind == asDXF.kind && size == measure.Inch {
		return size
	}
	return measure.Millimetre
}

// exactly shows a size in decimals, as machines do.
func exactly(width, height float64, unit measure.Unit) string {
	if unit == measure.Inch {
		return fmt.Sprintf("%.3f x %.3f in", width/measure.Inches, height/measure.Inches)
	}
	return fmt.Sprintf("%.1f x %.1f mm", width, height)
}

func outlines(n int) string {
	if n == 1 {
		return "1 outline"
	}
	return fmt.Sprintf("%d outlines", n)
}

// How to use what is made, and what to mind with machines (common practice).
const (
	cutterUse = "Set the machine to the unit of the file and check the size of the page before it cuts. Cut along " +
		"the layer of cut lines, 1 in DXF and `cut` in SVG; mark the others or leave them out."
	cutterCaution = "Machines: keep to the maker's manual and to local rules, and keep hands and loose cloth away " +
		"from a moving knife. Use a laser or a hot knife only on cloth whose fibre and coating you know, and never on " +
		"vinyl or PVC: they give off poisonous gas. Have extraction and an extinguisher, and watch it all the time. " +
		"Net and tulle flare up under both."
	touching = "Pieces may touch: a blade then runs twice along the edge they share. `gap` in the job file keeps " +
		"them apart."
)

func cutterCautions(spreads []plan.Spread) []string {
	return append(report.Cautions(spreads), cutterCaution)
}
