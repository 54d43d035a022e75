package ways

import (
	"context"
	"strings"
	"testing"
	"time"

	"yardlay/cmd/yardlay/internal/outside"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// Every row of the tables is found in the PDF by another program, figures and words.
func TestOutsideChalkTablesAreFound(t *testing.T) {
	outside.Wanted(t, "pdftotext")
	p := &Printing{file: testjobs.File(t, "job.toml", testjobs.Small), unit: measure.Inch}
	p.lay.Effort, p.date = nest.Trial, time.Date(2026, 5, 31, 0, 0, 0, 0, time.UTC)
	r, err := p.chalked(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range r.Cloths {
		d, err := p.chalkOf(r, c, nil)
		if err != nil {
			t.Fatal(err)
		}
		pdf, err := d.PDF()
		if err != nil {
			t.Fatal(err)
		}
		said := " " + strings.Join(strings.Fields(outside.Texts(t, pdf)), " ") + " "
		for _, l := range d.Markers {
			for _, piece := range l.Pieces {
				for _, row := range piece.Figures.Points() {
					cells := row.Label + " " + d.Tape.Show(row.At[0]) + " " + d.Tape.Show(row.At[1])
					if !strings.Contains(said, " "+strings.ReplaceAll(cells, "\u00a0", " ")+" ") {
						t.Errorf("%s: %s: no row %q", c.ID, piece.Title(), cells)
					}
				}
				for _, row := range piece.Figures.Lines(d.Tape) {
					words := strings.ReplaceAll(row.Label+" "+row.Words, "\u00a0", " ")
					if !strings.Contains(said, strings.Join(strings.Fields(words), " ")) {
						t.Errorf("%s: %s: no row %q", c.ID, piece.Title(), words)
					}
				}
			}
		}
	}
}
