package compare

import (
	"context"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cost"
	"yardlay/shapes"
)

// seamsAlone prices a gown by its cloth and 0.02 for each millimetre of seam.
func seamsAlone(_ context.Context, j *job.Job, r *report.Report) (Priced, error) {
	p := Priced{Price: r.Bill.Total, More: true, Seam: seamOf(j)}
	p.Price.Minor += int64(2 * p.Seam)
	p.Labour = cost.Money{Minor: int64(2 * p.Seam), Currency: r.Currency}
	return p, nil
}

// seamOf is how long the edges that are sewn are, one of two, mm: a twin of what a quote counts.
func seamOf(j *job.Job) (mm float64) {
	for _, part := range j.Parts {
		for _, l := range part.Layers {
			made, _ := l.Drafted()
			for _, p := range made.Pieces {
				for _, e := range p.Unfold().Edges {
					if e.Kind == shapes.Seam {
						mm += e.Length() * float64(p.Count) / 2
					}
				}
			}
		}
	}
	return mm
}
