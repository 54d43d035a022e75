package ways

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/chalk"
	"yardlay/cmd/yardlay/internal/depict"
	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/shapes"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

const (
	setChalk  = "chalk"
	chalkPart = "-chalk" // in the names of its files
)

// chalkOptions are the flags of the way alone.
type chalkOptions struct{ chalk bool }

var chalkWay = way{
	flags: func(flags *pflag.FlagSet, o *Options) {
		flags.BoolVar(&o.chalk, "chalk", false,
			"how to draw every piece on the cloth with tape measure, string and chalk:\nCLOTH-chalk.txt and "+
				"CLOTH-chalk.pdf")
	},
	asked: func(o *Options) bool { return o.chalk },
	set:   chalkSet,
	make:  printChalk,
}

// chalkSet is what --chalk makes of a job.
func chalkSet(j *job.Job) folder.Set {
	return folder.Set{Name: setChalk, Makes: func(name string) bool {
		return slices.ContainsFunc(j.Cloths, func(c job.Cloth) bool {
			return name == files.OfCloth(c.ID, chalkPart, ".txt") || name == files.OfCloth(c.ID, chalkPart, ".pdf")
		})
	}}
}

// chalked lays the cloths once more so that they can be drawn by tape, or the first time.
func (p *Printing) chalked(ctx context.Context) (*report.Report, error) {
	tape := chalk.Tape{Unit: measure.SizeUnit(p.unit)}
	o := p.lay
	o.Begin = nil // what was kept lies on no steps
	o.Steps = plan.Steps{Step: tape.Step(), Gap: tape.Gap(), Corner: chalk.Corner}
	if p.report == nil { // which takes the rest
		var done context.CancelFunc
		ctx, done = plan.InTurn(ctx, 2)
		defer done()
	}
	laid, err := plan.Lay(ctx, p.file.Job(), o)
	if err != nil {
		return nil, err
	}
	p.stepped, err = report.New(p.file.Job().ShownIn(p.unit), laid, o)
	return p.stepped, err
}

// setOut are the set-out tables of all cloths.
type setOut struct {
	on, plain *report.Report // as laid for them, and plain; plain is nil where the run was interrupted before
	tables    []chalk.Document
}

// setOut returns the set-out tables, made once for all ways that show them.
func (p *Printing) setOut(ctx context.Context) (*setOut, error) {
	if p.chalk != nil {
		return p.chalk, nil
	}
	if _, _, err := p.drafted(ctx); err != nil { // for the mark
		return nil, err
	}
	var s setOut
	var err error
	if s.on, err = p.chalked(ctx); err != nil {
		return nil, err
	}
	if p.report != nil || !errors.Is(ctx.Err(), context.Canceled) {
		if s.plain, err = p.laid(ctx); err != nil && !errors.Is(err, plan.ErrInterrupted) {
			return nil, err
		}
	}
	p.stage("putting into figures")
	for i, c := range s.on.Cloths {
		d, err := p.chalkOf(s.on, c, s.beside(i))
		if err != nil {
			return nil, err
		}
		s.tables = append(s.tables, d)
	}
	p.chalk = &s
	return p.chalk, nil
}

// beside is cloth i as laid plain; nil where that was not laid.
func (s *setOut) beside(i int) *report.Cloth {
	if s.plain == nil {
		return nil
	}
	return &s.plain.Cloths[i]
}

// unfinished says which of the layouts were cut short, each once.
func (s *setOut) unfinished() []string {
	if s.plain != nil && len(s.plain.Unfinished()) > 0 {
		return nil // it is said with the report of all ways
	}
	return s.on.Unfinished()
}

// printChalk writes the set-out tables of every cloth.
func printChalk(ctx context.Context, p *Printing) (printed, error) {
	s, err := p.setOut(ctx)
	if err != nil {
		return printed{}, err
	}
	done := printed{notes: append(s.unfinished(), s.on.Cautions...)}
	var facts []chalkFacts
	for i, d := range s.tables {
		c := s.on.Cloths[i]
		files, err := chalkFiles(c.ID, d)
		if err != nil {
			return printed{}, err
		}
		done.files = append(done.files, files...)
		done.lines = append(done.lines, c.Title+": "+d.Cost+".")
		facts = append(facts, factsOf(c, s.beside(i), d))
	}
	done.facts = facts
	return done, nil
}

// chalkFacts are those of one cloth, for --json. Lengths in mm.
type chalkFacts struct {
	Cloth       string  `json:"cloth"`
	Pieces      int     `json:"pieces"`
	Points      int     `json:"points"`
	StepAlong   float64 `json:"step_along"` // that places lie on; 0: none
	StepAcross  float64 `json:"step_across"`
	Used        float64 `json:"used"`
	Bought      float64 `json:"bought"`
	PlainUsed   float64 `json:"plain_used,omitempty"`
	PlainBought float64 `json:"plain_bought,omitempty"`
}

func factsOf(c report.Cloth, plain *report.Cloth, d chalk.Document) chalkFacts {
	f := chalkFacts{Cloth: c.ID, Used: c.Used, Bought: c.Bought, StepAlong: c.Spread.Steps.Along,
		StepAcross: c.Spread.Steps.Across}
	for _, l := range d.Markers {
		f.Pieces += len(l.Pieces)
		for _, p := range l.Pieces {
			f.Points += len(p.Figures.Places)
		}
	}
	if plain != nil {
		f.PlainUsed, f.PlainBought = plain.Used, plain.Bought
	}
	return f
}

// chalkFiles writes the document of a cloth.
func chalkFiles(id string, d chalk.Document) ([]folder.File, error) {
	pdf, err := d.PDF()
	if err != nil {
		return nil, say.Errorf("cannot draw the set-out tables of %s: %w", id, err)
	}
	return []folder.File{
		{Name: files.OfCloth(id, chalkPart, ".txt"), Data: []byte(d.Text())},
		{Name: files.OfCloth(id, chalkPart, ".pdf"), Data: pdf},
	}, nil
}

// chalkOf puts a cloth that is laid on steps into figures.
func (p *Printing) chalkOf(r *report.Report, c report.Cloth, plain *report.Cloth) (chalk.Document, error) {
	tape := chalk.Tape{Unit: measure.SizeUnit(r.Unit)}
	d := chalk.Document{
		Tape: tape, Title: strings.TrimPrefix(r.Title+": "+c.Title, ": "), Mark: p.mark, Date: p.date,
		Cost:     chalkCost(c, plain, r.Unit),
		Notes:    append(slices.Clone(c.Instructions), larger(c.Spread)...),
		Cautions: report.Cautions([]plan.Spread{c.Spread}),
	}
	for _, m := range c.Markers {
		l := chalkLay(r, c, m)
		if err := l.Figure(tape); err != nil {
			return chalk.Document{}, p.file.Job().ErrorAt(c.Spread.Cloth.At, err)
		}
		d.Markers = append(d.Markers, l)
	}
	return d, nil
}

// larger says by how much pieces are drawn larger, if they are.
func larger(s plan.Spread) []string {
	if words := s.Larger(); words != "" {
		return []string{words}
	}
	return nil
}

// chalkCost says what lying on steps, with a gap for rounding, takes in cloth.
func chalkCost(c report.Cloth, plain *report.Cloth, unit measure.Unit) string {
	buy := measure.CounterUnit(unit)
	text := fmt.Sprintf("laid for chalk it uses %s, to buy %s", measure.FormatUp(c.Used, unit),
		measure.FormatUp(c.Bought, buy))
	if plain == nil {
		return text + "; the plain layout was not laid, since the run was interrupted"
	}
	if c.Used <= plain.Used+measure.Guard && c.Bought <= plain.Bought+measure.Guard {
		return text + ". Chalk costs nothing: no shorter plain layout was found"
	}
	text += fmt.Sprintf("; laid plain, %s, to buy %s", measure.FormatUp(plain.Used, unit),
		measure.FormatUp(plain.Bought, buy))
	if more := c.Bought - plain.Bought; more > measure.Guard {
		return text + ". Chalk costs " + measure.FormatUp(more, buy) + " more to buy"
	}
	return text + ". Chalk takes " + measure.FormatUp(c.Used-plain.Used, unit) + " more, and no more to buy"
}

// chalkLay describes a marker as it is drawn on the cloth: x from the cut end, y from
// the selvedge, or from the fold where that is the lower edge.
func chalkLay(r *report.Report, c report.Cloth, m report.Stretch) chalk.Marker {
	cloth := c.Spread.Cloth
	lay := chalk.Marker{Name: report.LengthName(c, m), Edge: "selvedge", On: stepWords(c, r.Unit)}
	shift := [2]float64{cloth.Ends, c.Spread.WashedAcross(cloth.Selvedge)}
	if m.Bare {
		lay.Edge, shift = "lower edge", [2]float64{}
	}
	width := m.Strip
	switch job.Lay(m.Lay) {
	case job.LengthwiseFold, job.DoubleFold:
		lay.Edge, width, shift[1] = "fold", width/2, 0
	case job.Open:
		if len(c.Stretches) > 1 && !m.Shelf {
			lay.Name = "the open stretch behind the fold"
		}
	}
	if job.Lay(m.Lay) != job.Open {
		lay.Double = "Two layers: every line is cut through both."
	}
	if m.From > cloth.Skew {
		lay.Begins = m.From - cloth.Skew
	}
	lay.Cloth.Max = [2]float64{m.Length - m.Skew, width}
	for i := range m.Layout.Placed {
		p := chalkPiece(r, c, m, i)
		p.Outline.Move(shift)
		lay.Pieces = append(lay.Pieces, p)
	}
	for _, zone := range m.Problem.Strip.Forbidden {
		flaw := chalk.Outline{Cut: zone}
		flaw.Move(shift)
		lay.Flaws = append(lay.Flaws, flaw.Cut)
	}
	for _, pc := range lay.Pieces {
		lay.Used = max(lay.Used, pc.Outline.Cut.Bound().Max[0])
	}
	return lay
}

// chalkPiece describes placed outline i of a marker.
func chalkPiece(r *report.Report, c report.Cloth, m report.Stretch, i int) chalk.Piece {
	pl := m.Layout.Placed[i]
	drawn, cut := depict.Placed(r, c, m.Problem, pl, m.Cuts[i]), c.Spread.Cuts[m.Cuts[i][0].Piece]
	out := chalk.Outline{Cut: drawn.Cut, Fold: drawn.Fold}
	for k, line := range drawn.Inside {
		out.Inside = append(out.Inside, chalk.Inside{Name: insideName(cut.Part, cut.Piece, k, line, drawn.Seam),
			Line: line})
	}
	for _, n := range drawn.Notches {
		out.Notches = append(out.Notches, n.OnCut(drawn.Cut))
	}
	for _, p := range drawn.Matches {
		out.Points = append(out.Points, chalk.Named{Name: p.Name, At: p.At})
	}
	if match := m.Problem.Pieces[pl.Piece].Match; match != nil {
		first := plane.Pose{Mirrored: pl.Mirrored, Turn: pl.Turn, At: pl.At}.ApplyPoint(match.Point)
		out.First = &first
	}
	return chalk.Piece{Name: drawn.Name, Copy: drawn.Copy, Size: drawn.Size, Outline: out}
}

// folded are the drafts whose straight lines inside are where they are folded.
var folded = []string{"waistband", "binding", "sash", "bow", "ties"}

// insideName is what a line inside a piece of a part is called; its mirror image on an
// opened piece is called alike.
func insideName(part job.Part, p shapes.Piece, i int, line orb.LineString, seam orb.Ring) string {
	for _, n := range p.Names {
		if n.Line == i%len(p.Inside) {
			return n.Name
		}
	}
	on := func(v orb.Point) bool { return planar.DistanceFrom(orb.LineString(seam), v) < 0.1 }
	_, casing := p.Edge("casing")
	switch {
	case len(line) > 3 && line[0] == line[len(line)-1]:
		return "hole"
	case len(line) == 3 && on(line[0]) && on(line[2]):
		return "dart"
	case len(line) == 2 && (slices.Contains(folded, part.Draft) || strings.HasSuffix(p.Name, "sleeve band")):
		return "fold line"
	case len(line) == 2 && casing:
		return "casing line"
	}
	return "line"
}

// stepWords says where the places of pieces lie; "" where that is nowhere in particular.
func stepWords(c report.Cloth, unit measure.Unit) string {
	exact := measure.Inch
	if unit.Metric() {
		exact = measure.Millimetre
	}
	steps, first := c.Spread.Steps, "Point 1 of each piece, or the pivot of a circle, lies whole steps of "
	switch {
	case steps.Across > 0:
		return first + measure.Format(steps.Along, exact) + " from both."
	case steps.Along > 0:
		return first + measure.Format(steps.Along, exact) + " from the cut end."
	case c.Spread.Cloth.Repeat != (job.Repeat{}):
		return "Pieces lie on the repeat of the cloth, and so not on whole steps of the tape."
	}
	return ""
}
