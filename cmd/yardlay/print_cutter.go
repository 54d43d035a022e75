package main

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/cutter"
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
func cutterFlags(flags *pflag.FlagSet, o *options) {
	c := &o.print.cutterOptions
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
	asSVG = cutterFormat{"svg", ".svg", cutterPart, func(c *cutterOptions) bool { return c.svg },
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
		asked: func(o *options) bool { return f.asked(&o.print.cutterOptions) && !o.print.markers },
		set: func(j *job.Job) folder.Set {
			return folder.Set{Name: f.set + "-pieces", Makes: func(name string) bool {
				return slices.ContainsFunc(j.Cloths, func(c job.Cloth) bool {
					return name == clothFile(c.ID, f.prefix+piecesPart, f.kind)
				})
			}}
		},
		make: func(ctx context.Context, p *printing) (printed, error) { return f.printPieces(ctx, p) },
	}
}

func (f cutterFormat) markers() way {
	ofMarker := regexp.MustCompile(`^` + strings.Replace(f.prefix, "-", "[-.]", 1) + `([-.](` + markerParts + `))?\` +
		f.kind + `$`)
	return way{
		asked: func(o *options) bool { return f.asked(&o.print.cutterOptions) && o.print.markers },
		check: func(o *options, _ *job.Job) error {
			if o.print.halves {
				return &usageError{"--halves does not go with --markers",
					"a marker has halves where its cloth is folded, and whole pieces elsewhere"}
			}
			return nil
		},
		set: func(j *job.Job) folder.Set {
			return folder.Set{Name: f.set + "-markers", Makes: func(name string) bool {
				return slices.ContainsFunc(j.Cloths, func(c job.Cloth) bool {
					rest, ok := strings.CutPrefix(name, clothFile(c.ID, "", ""))
					return ok && ofMarker.MatchString(rest)
				})
			}}
		},
		make: func(ctx context.Context, p *printing) (printed, error) { return f.printMarkers(ctx, p) },
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

// printPieces makes a file of the pieces of each cloth.
func (f cutterFormat) printPieces(ctx context.Context, p *printing) (printed, error) {
	spreads, _, err := p.drafted(ctx)
	if err != nil {
		return printed{}, err
	}
	p.s.line.stage("drawing")
	return plan.Unless(ctx, func() (printed, error) { return f.drawPieces(p, spreads) })
}

// drawPieces draws them.
func (f cutterFormat) drawPieces(p *printing, spreads []plan.Spread) (printed, error) {
	var out printed
	var files []cutterFile
	for _, s := range spreads {
		var pieces []cutter.Piece
		for i := range s.Cuts {
			pieces = append(pieces, p.forCutter(s, i)...)
		}
		work := cutter.Pieces(p.cutterHead(s, "pieces", nil), pieces)
		if err := f.add(&out, &files, p, work, s.Cloth.ID, f.prefix+piecesPart); err != nil {
			return printed{}, err
		}
	}
	out.facts, out.notes = files, append([]string{cutterUse}, cutterCautions(spreads)...)
	return out, nil
}

// printMarkers makes a file of each marker of each cloth.
func (f cutterFormat) printMarkers(ctx context.Context, p *printing) (printed, error) {
	if _, _, err := p.drafted(ctx); err != nil { // for the mark
		return printed{}, err
	}
	r, err := p.laid(ctx)
	if err != nil {
		return printed{}, err
	}
	var out printed
	var files []cutterFile
	var spreads []plan.Spread
	for _, c := range r.Cloths {
		spreads = append(spreads, c.Spread)
		for i := range c.Markers {
			work := p.markerForCutter(r, c, i).Work()
			if err := f.add(&out, &files, p, work, c.ID, f.prefix+markerPart(c, i)); err != nil {
				return printed{}, err
			}
		}
	}
	out.facts, out.notes = files, []string{cutterUse}
	if slices.ContainsFunc(spreads, func(s plan.Spread) bool { return s.Cloth.Gap == 0 }) {
		out.notes = append(out.notes, touching)
	}
	out.notes = append(out.notes, cutterCautions(spreads)...)
	return out, nil
}

// add encodes line work as a file.
func (f cutterFormat) add(out *printed, files *[]cutterFile, p *printing, work sheet.Strokes, cloth,
	what string) error {
	if p.print.noWords {
		work = work.Without(sheet.LayerWords)
	}
	unit := f.unit(p.unit)
	data, err := f.encode(work, unit)
	name := clothFile(cloth, what, f.kind)
	if err != nil {
		return say.Errorf("cannot draw %s: %w", name, err)
	}
	out.files = append(out.files, folder.File{Name: name, Data: data})
	file := cutterFile{File: name, Cloth: cloth, Unit: unit.String(), Width: work.Page.Max[0] - work.Page.Min[0],
		Height: work.Page.Max[1] - work.Page.Min[1], Outlines: len(work.Places)}
	*files = append(*files, file)
	out.lines = append(out.lines, fmt.Sprintf("%s: %s, page %s.", name, outlines(file.Outlines),
		exactly(file.Width, file.Height, unit)))
	return nil
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
	touching = "Pieces may touch: a blade then runs twice along the edge they share. `gap` in the job file keeps them apart."
)

func cutterCautions(spreads []plan.Spread) []string {
	return append(report.Cautions(spreads), cutterCaution)
}
