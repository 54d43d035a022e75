package plan

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/job"
)

// Turns are those of the nap, from each grain, leant over by the tilt. The true
// bias is 45 degrees off warp and weft: common practice.
func TestTurnsFollowNapGrainAndTilt(t *testing.T) {
	for _, c := range []struct {
		nap  job.Nap
		part job.Part
		want []float64
	}{
		{job.OneWay, job.Part{}, []float64{0}},
		{job.TwoWay, job.Part{Grain: job.LengthwiseGrain}, []float64{0, 180}},
		{job.AllWay, job.Part{Grain: job.LengthwiseGrain}, []float64{0, 180}},
		{job.AllWay, job.Part{Grain: job.FreeGrain}, []float64{0, 180, 90, 270}},
		{job.TwoWay, job.Part{Grain: job.FreeGrain}, []float64{0, 180}},
		{job.OneWay, job.Part{Grain: job.FreeGrain}, []float64{0}},
		{job.AllWay, job.Part{Grain: job.CrossGrain}, []float64{90, 270}},
		{job.AllWay, job.Part{Grain: job.BiasGrain}, []float64{45, 225}},
		{job.OneWay, job.Part{Grain: job.CrossGrain}, []float64{90}},
		{job.TwoWay, job.Part{Grain: job.CrossGrain}, []float64{90, 270}},
		{job.TwoWay, job.Part{Grain: job.EitherGrain}, []float64{0, 180, 90, 270}},
		{job.AllWay, job.Part{Grain: job.EitherGrain}, []float64{0, 180, 90, 270}},
		{job.OneWay, job.Part{Grain: job.BiasGrain}, []float64{45}},
		{job.TwoWay, job.Part{Grain: job.BiasGrain}, []float64{45, 225}},
		{job.OneWay, job.Part{Tilt: 2}, []float64{0, 359, 1, 358, 2}},
		{job.OneWay, job.Part{Tilt: 3, Grain: job.BiasGrain}, []float64{45, 43.5, 46.5, 42, 48}},
	} {
		if diff := cmp.Diff(c.want, turns(c.nap, c.part)); diff != "" {
			t.Errorf("%s %+v: %s", c.nap, c.part, diff)
		}
	}
}
