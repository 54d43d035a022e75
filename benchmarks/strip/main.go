package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"runtime/pprof"
	"time"

	"github.com/paulmach/orb"
	"github.com/spf13/pflag"

	"yardlay/nest"
)

func main() {
	tm := pflag.Duration("time", 10*time.Second, "")
	seed := pflag.Uint64("seed", 1, "")
	workers := pflag.Int("workers", 2, "")
	prof := pflag.String("prof", "", "")
	effort := pflag.String("effort", "", "")
	pflag.Parse()
	if *prof != "" {
		f, _ := os.Create(*prof)
		pprof.StartCPUProfile(f)
		defer pprof.StopCPUProfile()
	}
	for _, name := range pflag.Args() {
		b, _ := os.ReadFile(name)
		var d struct {
			Name       string
			StripWidth float64
			Features   []struct {
				Properties struct {
					Quantity  int
					Rotations []float64
				}
				Geometry struct{ Coordinates [][][2]float64 }
			}
		}
		if err := json.Unmarshal(b, &d); err != nil {
			panic(err)
		}
		sc := 1.0
		for d.StripWidth*sc < 1024 {
			sc *= 2
		}
		for d.StripWidth*sc >= 2048 {
			sc /= 2
		}
		p := nest.Problem{Strip: nest.Strip{Width: d.StripWidth * sc}}
		for i, f := range d.Features {
			var r orb.Ring
			for _, q := range f.Geometry.Coordinates[0] {
				r = append(r, orb.Point{q[0] * sc, q[1] * sc})
			}
			p.Pieces = append(p.Pieces, nest.Piece{Name: fmt.Sprint("p", i), Outline: r, Count: f.Properties.Quantity, Turns: f.Properties.Rotations})
		}
		o := nest.Options{Effort: nest.Endless, Seed: *seed, Workers: *workers, Time: *tm}
		if *effort != "" {
			o.Effort, _ = nest.ParseEffort(*effort)
		}
		if os.Getenv("V") != "" {
			t0 := time.Now()
			o.Progress = func(p nest.Progress) {
				fmt.Printf("%.1f %s %.2f%%\n", time.Since(t0).Seconds(), p.Phase, 100*p.Utilisation)
			}
		}
		r, err := nest.Solve(context.Background(), p, o)
		if err != nil {
			fmt.Println(d.Name, err)
			continue
		}
		fmt.Printf("%s length=%.4f density=%.3f%% first=%.3fs (%.2f%%) time=%.2fs Mevals/s=%.2f\n", d.Name, r.Layout.Length/sc, 100*r.Utilisation, r.Stats.First.Seconds(), 100*p.Area()/p.Strip.Width/r.Stats.FirstLength, r.Stats.Elapsed.Seconds(), float64(r.Stats.Evaluations)/1e6/r.Stats.Elapsed.Seconds())
	}
}
