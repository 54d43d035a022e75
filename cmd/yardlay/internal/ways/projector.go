package ways

import (
	"context"
	"slices"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/paper"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
)

// projectorOptions are the flags of a picture for a projector.
type projectorOptions struct {
	projector, table string
}

// setProjector is what is shown by a projector.
const setProjector = "projector"

// What is in the names of markers for a projector.
const (
	projectorPart = "-projector"
	stepsPart     = "-steps"
)

// projectorWay shows the markers in light on the cloth.
func projectorWay() way {
	return way{
		flags: func(flags *pflag.FlagSet, o *Options) {
			flags.StringVar(&o.projector, "projector", "", "markers for a projector whose light covers "+
				"WIDTHxHEIGHT of the table, along the cloth by across it, such as 48x27in")
			flags.StringVar(&o.table, "table", "",
				"with --projector: steps of a table this long besides, such as 60in")
		},
		asked: func(o *Options) bool { return o.projector != "" || o.table != "" },
		check: func(o *Options, j *job.Job) error {
			if o.projector == "" {
				return &Refused{"table", "needs --projector", "for example --projector 48x27in --table 60in"}
			}
			_, _, err := sizeFlag("projector", o.projector, j.Unit, paper.CheckProjector)
			if err == nil && o.table != "" {
				_, err = lengthFlag("table", o.table, j.Unit, paper.CheckTable)
			}
			return err
		},
		set: func(j *job.Job) folder.Set {
			return folder.Set{Name: setProjector, Makes: func(name string) bool {
				return slices.ContainsFunc(j.Cloths, func(c job.Cloth) bool {
					return name == files.OfCloth(c.ID, projectorPart, ".pdf") || name == files.OfCloth(c.ID, stepsPart, ".pdf")
				})
			}}
		},
		make: printProjector,
	}
}

// lightLetters is how much larger words are in light than on a small drawing.
const lightLetters = 6.0

func printProjector(ctx context.Context, p *Printing) (done printed, err error) {
	unit := p.file.Job().Unit
	width, height, err := sizeFlag("projector", p.o.projector, unit, paper.CheckProjector)
	if err != nil {
		return printed{}, err
	}
	spreads, _, err := p.drafted(ctx)
	if err != nil {
		return printed{}, err
	}
	r, err := p.laid(ctx)
	if err != nil {
		return printed{}, err
	}
	for _, c := range r.Cloths {
		picture := paper.Projector{Title: p.head(c.Title).Title, Subject: inLight, Date: p.date,
			Mark: p.signature(), Width: width, Height: height, Unit: p.unit}
		names, markers := p.fullMarkers(r, c, lightLetters, sheet.ThemeLight)
		doc, err := picture.Markers(names, markers)
		if err == nil {
			err = done.add(files.OfCloth(c.ID, projectorPart, ".pdf"), inLight, doc, p.unit)
		}
		if err == nil && p.o.table != "" {
			table, _ := measure.ParsePositive(p.o.table, unit) // checked
			if doc, err = picture.Steps(table, names, markers); err == nil {
				err = done.add(files.OfCloth(c.ID, stepsPart, ".pdf"), inLight, doc, p.unit)
			}
		}
		if err != nil {
			return printed{}, wrapped(err, "cannot show the markers of `%s`", c.ID)
		}
	}
	done.notes = append(done.notes, report.Cautions(spreads)...)
	return done, nil
}
