package outside_test

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/benchmarks/instance"
	"yardlay/nest"
	"yardlay/shapes/outline"
	"yardlay/shapes/plane"
)

// instanceWays write the pieces of an instance as a drawing whose unit is that of the
// instance, each in another way.
var instanceWays = map[string]func([]nest.Piece) string{
	"paths": func(pieces []nest.Piece) string {
		return drawnBy(`width="5000mm" height="5000mm" viewBox="0 0 5000 5000"`, pieces, func(i int, r orb.Ring) string {
			return fmt.Sprintf(`<path id="p%d" d="M%sZ"/>`, i, strings.Join(pairs(r), "L"))
		})
	},
	"polygons in groups": func(pieces []nest.Piece) string {
		return drawnBy(`width="50cm" height="50cm" viewBox="0 0 500 500"`, pieces, func(i int, r orb.Ring) string {
			return fmt.Sprintf(`<g id="g%d" transform="translate(16 -8)"><polygon transform="translate(-16 8)" points="%s"/>`+
				"</g>", i, strings.Join(pairs(r), " "))
		})
	},
	"used, in relative commands": func(pieces []nest.Piece) string {
		return drawnBy(`height="30mm" viewBox="0 0 30 30"`, pieces, func(i int, r orb.Ring) string {
			d := "m"
			for k, p := range r[:len(r)-1] {
				before := orb.Point{-32, 64}
				if k > 0 {
					before = r[k-1]
				}
				d += fmt.Sprintf("%v,%v ", p[0]-before[0], -(p[1] - before[1]))
			}
			return fmt.Sprintf(`<defs><path id="p%d" d="%sz"/></defs><use href="#p%d" x="-32" y="-64"/>`, i, d, i)
		})
	},
}

func drawnBy(size string, pieces []nest.Piece, one func(int, orb.Ring) string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "<svg xmlns=\"http://www.w3.org/2000/svg\" %s>\n", size)
	for i, p := range pieces {
		b.WriteString(one(i, p.Outline) + "\n")
	}
	return b.String() + "</svg>"
}

// pairs are the corners of a ring, y down.
func pairs(r orb.Ring) (all []string) {
	for _, p := range r[:len(r)-1] {
		all = append(all, fmt.Sprintf("%v,%v", p[0], -p[1]))
	}
	return all
}

// The published instances, turned into SVG and read back, are the same problems to the last
// bit, and so lie as they do from GeoJSON.
func TestInstancesAsSVG(t *testing.T) {
	all, err := instance.Published("../../../../testdata/instances")
	if err != nil {
		t.Fatal(err)
	}
	for name, in := range all {
		for way, write := range instanceWays {
			d, err := outline.ReadSVG(strings.NewReader(write(in.Problem.Pieces)))
			if err != nil || len(d.Lines) != len(in.Problem.Pieces) {
				t.Fatalf("%s, %s: %d lines, %v", name, way, len(d.Lines), err)
			}
			again := in.Problem
			again.Pieces = slices.Clone(again.Pieces)
			for i, l := range d.Lines {
				if !l.Closed {
					t.Errorf("%s, %s: %s is open", name, way, l.Place)
				}
				again.Pieces[i].Outline = plane.SnapRing(orb.Ring(l.Points))
			}
			if !reflect.DeepEqual(again, in.Problem) {
				t.Errorf("%s, %s: another problem", name, way)
			}
		}
	}
}
