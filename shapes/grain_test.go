package shapes

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// runAt is the longest run of cloth on a level, by trying points 2 mm apart: the slow twin
// of longestRun.
func runAt(ring orb.Ring, level float64) float64 {
	const step = 2.0
	b := ring.Bound()
	longest, run := 0.0, 0.0
	for x := b.Min[0]; x <= b.Max[0]; x += step {
		if planar.RingContains(ring, orb.Point{x, level}) {
			run += step
			longest = math.Max(longest, run)
		} else {
			run = 0
		}
	}
	return longest
}

// The arrow lies in the piece, level, seven tenths of the longest run on its level long,
// and is at least four fifths of what it would be on any other of the seven levels.
func TestGrainArrow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := panelOf(t, "panel", false)
		checkArrow(t, p.Seam, p.Grain)
	})
}

func checkArrow(t *rapid.T, seam orb.Ring, arrow orb.LineString) {
	if len(arrow) != 2 || math.Abs(arrow[0][1]-arrow[1][1]) > 1e-9 || arrow[0][0] >= arrow[1][0] {
		t.Fatalf("arrow %v", arrow)
	}
	for i := range 21 {
		x := arrow[0][0] + (arrow[1][0]-arrow[0][0])*float64(i)/20
		if !planar.RingContains(seam, orb.Point{x, arrow[0][1]}) {
			t.Fatalf("the arrow %v leaves the piece at %g", arrow, x)
		}
	}
	length := arrow[1][0] - arrow[0][0]
	if want := 0.7 * runAt(seam, arrow[0][1]); math.Abs(length-want) > 4 {
		t.Fatalf("the arrow is %g long, want %g", length, want)
	}
	b := seam.Bound()
	for i := 1; i < 8; i++ {
		if run := runAt(seam, b.Min[1]+float64(i)/8*(b.Max[1]-b.Min[1])); length < 0.7*run/1.25-4 {
			t.Fatalf("the arrow is %g long, on level %d/8 the run is %g", length, i, run)
		}
	}
}

// Cut turned, the line lies along the warp once the piece lies so, inside it and as long as
// an arrow of the turned piece; the piece's own arrow stays.
func TestGrainLineOfATurnedPiece(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := panelOf(t, "panel", false)
		turn := rapid.SampledFrom([]float64{0, 45, 90, 180, 270, 3, -7.5}).Draw(t, "turn")
		before := p.Grain.Clone()
		line := p.GrainLine(turn)
		pose := plane.Pose{Turn: turn}
		laid := make(orb.LineString, len(line))
		for i, v := range line {
			laid[i] = pose.ApplyPoint(v)
		}
		checkArrow(t, pose.Apply(p.Seam), laid)
		if !p.Grain.Equal(before) || turn == 0 && !line.Equal(p.Grain) {
			t.Fatalf("arrow %v, before %v", p.Grain, before)
		}
	})
	if line := (Piece{}).GrainLine(45); line != nil {
		t.Errorf("a piece without an arrow has %v", line)
	}
}
