package outline

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// polygon reads the one ring of a Polygon and puts it in order.
func polygon(p object) (orb.Ring, error) {
	var rings [][][]*float64 // null would be 0 without the pointers
	if raw, ok := p["coordinates"]; !ok {
		return nil, errors.New("the Polygon has no \"coordinates\"")
	} else if err := json.Unmarshal(raw, &rings); err != nil {
		return nil, fmt.Errorf("\"coordinates\" is not a list of rings of [x, y]%s", instead(err))
	}
	switch len(rings) {
	case 0:
		return nil, errors.New("the Polygon has no ring")
	case 1:
	default:
		return nil, say.Errorf("the Polygon has %d hole(s): a piece is cut from one outline", len(rings)-1).
			Hint("leave the holes out, or cut them after the piece is laid")
	}
	if n := len(rings[0]); n > MaxVertices+1 { // the first may be there again at the end
		return nil, tooMany(n)
	}
	ring := make(orb.Ring, 0, len(rings[0])+1)
	for i, position := range rings[0] {
		p, err := corner(position)
		if err != nil {
			return nil, say.Errorf("corner %d: %w", i+1, err)
		}
		ring = append(ring, p)
	}
	if ring, err := order(ring); err != nil || len(ring)-1 <= MaxVertices {
		return ring, err
	}
	return nil, tooMany(len(ring))
}

func tooMany(corners int) error {
	return fmt.Errorf("the outline has %d corners, the most is %d", corners, MaxVertices)
}

// corner snaps one position to the lattice.
func corner(position []*float64) (orb.Point, error) {
	if n := len(position); n != 2 && n != 3 {
		return orb.Point{}, fmt.Errorf("%d number(s) where x and y belong", n)
	}
	var p orb.Point
	for i, v := range position[:2] {
		switch {
		case v == nil:
			return orb.Point{}, errors.New("null where a number belongs")
		case math.Abs(*v) > MaxCoordinate:
			return orb.Point{}, say.Errorf("coordinate %g lies beyond %.0f m", *v, MaxCoordinate/1000).
				Hint("coordinates are millimetres")
		}
		p[i] = *v
	}
	return plane.SnapPoint(p), nil
}

// order closes the ring, drops corners that repeat the one before, turns it
// counter-clockwise and checks that it bounds one region.
func order(corners orb.Ring) (orb.Ring, error) {
	ring := make(orb.Ring, 0, len(corners)+1)
	for _, p := range corners {
		if len(ring) == 0 || ring[len(ring)-1] != p {
			ring = append(ring, p)
		}
	}
	for len(ring) > 1 && ring[0] == ring[len(ring)-1] {
		ring = ring[:len(ring)-1]
	}
	if len(ring) < 3 {
		return nil, fmt.Errorf("the outline has %d different corner(s), it takes three", len(ring))
	}
	ring = append(ring, ring[0])
	if plane.Area(ring) < 0 {
		ring.Reverse()
	}
	if err := plane.CheckSimple(ring); err != nil {
		return nil, say.Errorf("the outline is not one simple closed line: %w", err)
	}
	if a := plane.Area(ring); a < MinArea {
		return nil, say.Errorf("the outline covers %.3g square millimetres, less than %g", a, MinArea).
			Hint("coordinates are millimetres")
	}
	return ring, nil
}
