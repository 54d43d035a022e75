package report

import (
	"context"
	"time"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
)

// Run takes a job through the whole pipeline, as plan.Run does, and reports what
// was found.
func Run(ctx context.Context, j *job.Job, o plan.Options) (*Report, error) {
	start := time.Now()
	laid, err := plan.Run(ctx, j, o)
	if err != nil {
		return nil, err
	}
	r, err := New(j.ShownIn(o.Unit), laid, o)
	if err != nil {
		return nil, err
	}
	r.Elapsed = time.Since(start)
	return r, nil
}
