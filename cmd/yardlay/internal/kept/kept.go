// Package kept reads and writes layout files: layouts that are kept beside a job, to go on
// from. A file says of each copy where it lies and whether it is pinned there; it bears a
// mark of what each piece looked like, so that it can be told which of them changed.
//
// # The file
//
// JSON (RFC 8259), an object; all lengths are mm, on the lattice of 2^-10 mm where they are
// places.
//
//	{"layout": 1,                     the version of the format
//	 "cloths": [
//	  {"cloth": "satin",              its id in the job
//	   "width": 1447.8,               usable width, as laid
//	   "gap": 0,                      kept between pieces
//	   "repeat": [0, 0],              along the cloth and across it; 0: none
//	   "flaws": "",                   a mark of the flaws; "": none
//	   "stretches": [                 one, or two where a fold leaves an open stretch behind
//	    {"lay": "open",               or lengthwise-fold, crosswise-fold, crosswise-turned, double-fold
//	     "length": 1854.19921875,     used by the marker
//	     "pieces": [
//	      {"piece": "sash",           its name
//	       "copy": 1,                 from 1
//	       "mark": "57c01f9b0b5c2e55", of its outline, as drawn
//	       "at": [0, 12.5],           where its origin lies: x along the cloth from the cut end, y across it
//	       "turn": 180,               degrees counter-clockwise
//	       "mirrored": false,         about the grain, before it is turned
//	       "pinned": true}]}]}]}      it stays there, and the others are laid around it; false where left out
//
// Every other key is needed, and no others are allowed. On a fold "piece" is what is cut
// through both layers.
//
// Nothing in a file is trusted: what it says is judged anew each time (File.Begin), and
// files are limited in size (MaxFile), depth and number of pieces.
package kept

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"math"

	"github.com/paulmach/orb"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// File is what a layout file holds.
type File struct {
	Name   string // of the file, for messages
	Cloths []Cloth
}

// Cloth is the layout of one cloth.
type Cloth struct {
	ID        string
	Width     float64 // mm, as are all lengths
	Gap       float64
	Repeat    [2]float64
	Flaws     string
	Stretches []Stretch
}

// Stretch is one marker.
type Stretch struct {
	Lay    nest.Lay
	Length float64
	Pieces []Piece
}

// Piece is one copy where it lies.
type Piece struct {
	Name     string
	Copy     int // from 0; in the file from 1
	Mark     string
	At       orb.Point
	Turn     float64
	Mirrored bool
	Pinned   bool
}

// version is that of the format.
const version = 1

// lays names the lays in the file.
var lays = [...]string{"open", "lengthwise-fold", "crosswise-fold", "crosswise-turned", "double-fold"}

// markOf is equal for two pieces of equal outlines, as drawn, to the lattice.
func markOf(p nest.Piece) string { return markOfRings([]orb.Ring{p.Outline}) }

// markOfRings is equal for equal rings; "" for none.
func markOfRings(rings []orb.Ring) string {
	if len(rings) == 0 {
		return ""
	}
	var text []byte
	for _, ring := range rings {
		text = binary.LittleEndian.AppendUint64(text, uint64(len(ring)))
		for _, v := range plane.SnapRing(ring) {
			for _, c := range v {
				text = binary.LittleEndian.AppendUint64(text, math.Float64bits(c+0)) // of both zeros the one
			}
		}
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:8])
}
