package ways

import (
	"context"
	"fmt"
	"strings"

	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/paper"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// paged is what --json says of a file of pages. Lengths are mm.
type paged struct {
	File    string  `json:"file"`
	Pages   int     `json:"pages"`
	Height  float64 `json:"height"` // of the highest page
	Length  float64 `json:"length"` // of all pages together
	Bands   int     `json:"bands"`  // side by side, to be joined
	Lengths int     `json:"lengths"`
}

// What a file is for.
const (
	onPaperRoll = "for a roll of paper"
	inLight     = "for a projector"
)

// add writes a print into a file, and says how long it is.
func (d *printed) add(name, what string, made paper.Print, unit measure.Unit) error {
	pdf, err := made.PDF()
	if err != nil {
		return err
	}
	fact := paged{File: name, Pages: len(made.Pages), Bands: made.Bands, Lengths: made.Lengths}
	for _, page := range made.Pages {
		fact.Height, fact.Length = max(fact.Height, page.Height), fact.Length+page.Width
	}
	facts, _ := d.facts.([]paged)
	d.facts = append(facts, fact)
	d.files = append(d.files, folder.File{Name: name, Data: pdf})
	d.lines = append(d.lines, fact.line(what, unit))
	return d.lacking(name, made.Document)
}

// lacking tells of the letters that the font of a file does not have.
func (d *printed) lacking(name string, doc sheet.Document) error {
	lacks, err := doc.Lacking()
	if lacks != "" {
		d.lines = append(d.lines, fmt.Sprintf("The font of %s has no letter for %s: □ stands there instead.", name,
			strings.Join(say.Quoted(strings.Split(lacks, ""), "\""), ", ")))
	}
	return err
}

// line says what a file holds, with lengths in words in the unit of the job.
func (f paged) line(what string, unit measure.Unit) string {
	line := fmt.Sprintf("%s: %s", f.File, say.Count(f.Pages, "page"))
	if what == onPaperRoll {
		line += ", " + measure.BothUp(f.Length, measure.CounterUnit(unit)) + " of paper"
	} else {
		line += ", the first to calibrate by"
	}
	if f.Bands > 1 {
		line += fmt.Sprintf("; %d bands side by side", f.Bands)
	}
	if f.Lengths > 1 {
		line += fmt.Sprintf("; up to %d lengths end to end, as a page of PDF ends at %s", f.Lengths,
			measure.Format(sheet.MaxPage, measure.Metre))
	}
	return line + "."
}

// cutShort says of a run that was interrupted or out of time what pieces on paper cost then.
func cutShort(ctx context.Context) []string {
	if ctx.Err() == nil {
		return nil
	}
	return []string{"Cut short: the pieces are all there, but a full run may take less paper."}
}
