// Package benchmarks holds Go benchmarks of the layout engine on the instances
// of the literature; README.md has recorded results.
package benchmarks

import (
	"context"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"yardlay/benchmarks/instance"
	"yardlay/nest"
	"yardlay/nest/nofit"
	"yardlay/shapes/plane"
)

var names = []string{"shirts", "swim", "trousers", "albano", "marques", "dighe1"}

func read(b *testing.B, name string) instance.Instance {
	b.Helper()
	f, err := os.Open(filepath.Join("..", "testdata", "instances", name+".geojson"))
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	in, err := instance.Read(f)
	if err != nil {
		b.Fatal(err)
	}
	return in
}

func shapesOf(in instance.Instance) []*nofit.Shape {
	var out []*nofit.Shape
	for _, p := range in.Problem.Pieces {
		out = append(out, nofit.NewShape(nofit.Outward(p.Outline, 0.1)))
	}
	return out
}

var keep = nofit.Clearance{Step: plane.Lattice, Tolerance: plane.Lattice / 4}

// BenchmarkNofit builds the no-fit regions of all pairs of pieces, as drawn.
func BenchmarkNofit(b *testing.B) {
	for _, name := range names {
		b.Run(name, func(b *testing.B) {
			shapes := shapesOf(read(b, name))
			b.ReportAllocs()
			for b.Loop() {
				for i := range shapes {
					for j := range shapes[:i+1] {
						nofit.New(never, shapes[j], shapes[i], keep)
					}
				}
			}
			pairs := len(shapes) * (len(shapes) + 1) / 2
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*pairs), "µs/pair")
		})
	}
}

// BenchmarkDepth asks regions for depths at random places within their bounds.
func BenchmarkDepth(b *testing.B) {
	for _, name := range names {
		b.Run(name, func(b *testing.B) {
			shapes := shapesOf(read(b, name))
			var regions []*nofit.Region
			for i := range shapes {
				for j := range shapes[:i+1] {
					regions = append(regions, nofit.New(never, shapes[j], shapes[i], keep))
				}
			}
			rng := rand.New(rand.NewPCG(1, 2))
			type query struct {
				r    *nofit.Region
				x, y float64
			}
			queries := make([]query, 1<<14)
			for k := range queries {
				r := regions[rng.IntN(len(regions))]
				lo, hi := r.Bounds()
				queries[k] = query{r, lo[0] + rng.Float64()*(hi[0]-lo[0]), lo[1] + rng.Float64()*(hi[1]-lo[1])}
			}
			k, sum := 0, 0.0
			for b.Loop() {
				q := &queries[k&(1<<14-1)]
				d, _, _ := q.r.Depth(q.x, q.y)
				sum += d
				k++
			}
			_ = sum
		})
	}
}

// BenchmarkSolve runs the whole search at quick effort and reports the density.
func BenchmarkSolve(b *testing.B) {
	for _, name := range names {
		b.Run(name, func(b *testing.B) {
			in := read(b, name)
			b.ReportAllocs()
			density, seed := 0.0, uint64(0)
			for b.Loop() {
				seed++
				r, err := nest.Solve(context.Background(), in.Problem, nest.Options{Effort: nest.Quick, Seed: seed})
				if err != nil {
					b.Fatal(err)
				}
				density += 100 * r.Utilisation
			}
			b.ReportMetric(density/float64(b.N), "%density")
		})
	}
}

func never() bool { return false }
