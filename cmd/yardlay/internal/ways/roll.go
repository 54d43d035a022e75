package ways

import (
	"context"
	"fmt"
	"slices"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/paper"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Sets of what is printed on a roll.
const (
	setRoll        = "roll"
	setRollMarkers = "roll-markers"
)

// rollPart is in the names of markers for a roll.
const rollPart = "-roll"

// rollPieces prints the pieces on one long page of a roll.
func rollPieces() way {
	return way{
		flags: func(flags *pflag.FlagSet, o *Options) {
			flags.StringVar(&o.roll, "roll", "", "on one long page of a roll of paper this wide, such as 24in, "+
				"36in, 42in, 610mm, 841mm or 914mm: each piece once")
		},
		asked: func(o *Options) bool { return o.roll != "" && !o.markers },
		check: checkRoll,
		set: func(*job.Job) folder.Set {
			return folder.Set{Name: setRoll, Makes: func(name string) bool { return name == setRoll+".pdf" }}
		},
		make: func(ctx context.Context, p *Printing) (printed, error) {
			spreads, pieces, err := p.piecesFor(ctx, "paper")
			if err != nil {
				return printed{}, err
			}
			roll := p.onRoll("pieces", joinNote)
			roll.Key = fullKey(report.Cautions(spreads))
			doc, err := roll.Pieces(ctx, patternsOf(pieces, roll.Holds))
			var done printed
			if err == nil {
				err = done.add(setRoll+".pdf", onPaperRoll, doc, p.unit)
			}
			done.notes = slices.Concat([]string{atFullSize}, cutShort(ctx), sparingPaper(spreads),
				report.Cautions(spreads))
			return done, wrapped(err, "cannot print the pieces on a roll")
		},
	}
}

// rollMarkers prints the markers of each cloth on a roll, in a file of its own.
func rollMarkers() way {
	return way{
		asked: func(o *Options) bool { return o.roll != "" && o.markers },
		check: checkRoll,
		set: func(j *job.Job) folder.Set {
			return folder.Set{Name: setRollMarkers, Makes: func(name string) bool {
				return slices.ContainsFunc(j.Cloths,
					func(c job.Cloth) bool { return name == files.OfCloth(c.ID, rollPart, ".pdf") })
			}}
		},
		make: func(ctx context.Context, p *Printing) (done printed, err error) {
			spreads, _, err := p.drafted(ctx)
			if err != nil {
				return printed{}, err
			}
			r, err := p.laid(ctx)
			if err != nil {
				return printed{}, err
			}
			for _, c := range r.Cloths {
				doc, err := p.onRoll(c.Title, onCloth, joinNote).Markers(p.fullMarkers(r, c, paperText, sheet.ThemeLines))
				if err == nil {
					err = done.add(files.OfCloth(c.ID, rollPart, ".pdf"), onPaperRoll, doc, p.unit)
				}
				if err != nil {
					return printed{}, wrapped(err, "cannot print the markers of `%s` on a roll", c.ID)
				}
			}
			done.notes = append([]string{atFullSize}, report.Cautions(spreads)...)
			return done, nil
		},
	}
}

// wrapped says what an error keeps from being done.
func wrapped(err error, format string, args ...any) error {
	if err == nil {
		return nil
	}
	return say.Errorf(format+": %w", append(args, err)...)
}

func checkRoll(o *Options, j *job.Job) error {
	_, err := lengthFlag("roll", o.roll, j.Unit, paper.CheckRoll)
	return err
}

// onRoll is a print on the roll asked for.
func (p *Printing) onRoll(what string, notes ...string) paper.Roll {
	width, _ := measure.ParsePositive(p.o.roll, p.file.Job().Unit) // checked
	return paper.Roll{Head: p.head(what, notes...), Subject: onPaperRoll, Date: p.date, Mark: p.signature(),
		Width: width}
}

// What the heads of prints say.
const (
	onCloth  = "Lay it on the cloth, cut end on cut end and selvedge along selvedge, and cut through both."
	joinNote = "Where a page ends at a dotted line, cut it along that and lay it on the next, cross on cross of the " +
		"same name."
)

// paperText is how much larger words are on paper at full size than on a small drawing.
const paperText = 2.5

// fullMarkers draws the markers of a cloth at full size, with what each is called.
func (p *Printing) fullMarkers(r *report.Report, c report.Cloth, k float64, theme sheet.Theme) (names []string,
	markers []sheet.FullSize) {
	m := p.carried().MarkerAtTable(r, c)
	for i, s := range c.Markers {
		name := c.Title
		if len(c.Markers) > 1 {
			name = fmt.Sprintf("%s, marker %d of %d", c.Title, i+1, len(c.Markers))
			if s.Name != "" {
				name += ", " + s.Name
			}
		}
		names, markers = append(names, name), append(markers, m.FullSize(i, k, theme))
	}
	return names, markers
}

// signature ends captions: by it two prints of different measures are told apart.
func (p *Printing) signature() string {
	return fmt.Sprintf("%s · mark %s", p.date.Format("2 January 2006"), p.mark)
}

// head is what the first page of a print says of what it shows.
func (p *Printing) head(what string, notes ...string) paper.Head {
	title := p.file.Job().Title
	if title != "" && what != "" {
		title += ": "
	}
	return paper.Head{Title: title + what, Facts: []string{"printed " + p.date.Format("2 January 2006"),
		"mark " + p.mark + ": prints with the same mark are of the same pieces"}, Notes: notes}
}
