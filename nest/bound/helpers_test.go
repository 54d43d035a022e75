package bound_test

import (
	"context"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/benchmarks/instance"
	"yardlay/nest"
	"yardlay/nest/bound"
	"yardlay/shapes/plane"
)

const inch = 25.4

// ring closes points given in mm.
func ring(xy ...float64) orb.Ring {
	var out orb.Ring
	for i := 0; i < len(xy); i += 2 {
		out = append(out, orb.Point{xy[i], xy[i+1]})
	}
	return append(out, out[0])
}

// turned returns a piece as it may lie in the given turns.
func turned(name string, count int, outline orb.Ring, turns ...float64) bound.Piece {
	p := bound.Piece{Name: name, Count: count}
	for _, t := range turns {
		p.Ways = append(p.Ways, plane.SnapRing(plane.Pose{Turn: t}.Apply(outline)))
	}
	return p
}

// circleGore is a gore of an eighth of a circle with its centre line along x:
// waist 28 in around eight gores (radius 28/(2 pi) = 4.456), length 36, allowance
// 1/2 in all around.
func circleGore() orb.Ring {
	const half, allowance = math.Pi / 8, inch / 2
	inner, outer := 4.456*inch-allowance, 40.456*inch+allowance
	var out orb.Ring
	arc := func(radius, way float64) {
		// A side lies one allowance outside the ray at `half`.
		to := half + math.Asin(allowance/radius)
		for i := range 65 {
			a := way * to * (2*float64(i)/64 - 1)
			out = append(out, orb.Point{radius * math.Cos(a), radius * math.Sin(a)})
		}
	}
	arc(outer, 1)
	arc(inner, -1)
	return plane.SnapRing(append(out, out[0]))
}

// straightGore is 5 in at the top, 12 at the hem, 40 long, centre line along x.
func straightGore() orb.Ring {
	return ring(0, -2.5*inch, 40*inch, -6*inch, 40*inch, 6*inch, 0, 2.5*inch)
}

// known holds the bounds that lower was asked for, by problem.
var known sync.Map

// lower returns all bounds of a problem; those that several tests ask for are looked for once.
func lower(p bound.Problem) []bound.Bound {
	key, err := json.Marshal(p)
	if err != nil {
		panic(err) // finite numbers encode
	}
	find, _ := known.LoadOrStore(string(key), sync.OnceValue(func() []bound.Bound {
		return bound.Lower(context.Background(), p)
	}))
	return find.(func() []bound.Bound)()
}

// best returns the longest bound.
func best(p bound.Problem) bound.Bound { return lower(p)[0] }

// fromNest turns a problem of nest into one of bound. A mirrored copy takes its
// turns clockwise; a half on a fold lies as brings its least y there.
func fromNest(p nest.Problem) bound.Problem {
	out := bound.Problem{Width: p.Strip.Width, MaxLength: p.Strip.MaxLength, Gap: p.Gap, Forbidden: p.Strip.Forbidden}
	for i, piece := range p.Pieces {
		turns := piece.Turns
		if len(turns) == 0 {
			turns = []float64{0}
		}
		ways := func(mirrored bool) (rings []orb.Ring) {
			for _, t := range turns {
				lower := mirrored == (t == 180)
				if piece.OnFold && !lower && p.Strip.Folds != nest.FoldBoth {
					continue
				}
				if mirrored {
					t = -t
				}
				rings = append(rings, p.Outline(nest.Placed{Piece: i, Turn: t, Mirrored: mirrored}))
			}
			return rings
		}
		switch {
		case piece.Mirror == nest.Free || piece.OnFold:
			out.Pieces = append(out.Pieces,
				bound.Piece{Name: piece.Name, Count: piece.Count, Ways: append(ways(false), ways(true)...)})
		case piece.Mirror == nest.AsDrawn:
			out.Pieces = append(out.Pieces, bound.Piece{Name: piece.Name, Count: piece.Count, Ways: ways(false)})
		case piece.Mirror == nest.Paired:
			out.Pieces = append(out.Pieces,
				bound.Piece{Name: piece.Name, Count: piece.Count / 2, Ways: ways(false)},
				bound.Piece{Name: piece.Name, Count: piece.Count / 2, Ways: ways(true)})
		}
	}
	return out
}

// readInstance reads an instance of the literature.
func readInstance(t testing.TB, name string) instance.Instance {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "instances", name+".geojson"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	in, err := instance.Read(f)
	if err != nil {
		t.Fatal(err)
	}
	return in
}
