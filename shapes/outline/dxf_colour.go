package outline

import (
	"fmt"
	"math"
)

// Colours of an entity: numbers of the index, or 24 bits with this one set.
const (
	dxfByBlock   = 0
	dxfByLayer   = 256
	dxfTrueColor = 1 << 24
)

// indexColours are the first colours of the index and its greys. Number 7 is black on white
// and white on black; a drawing to cut is looked at on white. ezdxf's table agrees (a test
// holds it), but for 7 and 255.
var indexColours = map[int]string{
	1: "#ff0000", 2: "#ffff00", 3: "#00ff00", 4: "#00ffff", 5: "#0000ff", 6: "#ff00ff", 7: "#000000",
	8: "#808080", 9: "#c0c0c0", 250: "#000000", 251: "#656565", 252: "#666666", 253: "#999999", 254: "#cccccc",
	255: "#ffffff",
}

// colourName writes a colour as "#rrggbb", "" where the number is none. From 10 to 249 the
// tens are 24 hues, a quarter of a sextant apart, red first, and the ones five darknesses,
// the even ones in full colour, the odd ones half mixed with white.
func colourName(colour int) string {
	if colour >= dxfTrueColor {
		return fmt.Sprintf("#%06x", colour&(dxfTrueColor-1))
	}
	if name, ok := indexColours[colour]; ok {
		return name
	}
	if colour < 10 || colour > 249 {
		return ""
	}
	full := [5]int{255, 165, 127, 76, 38}[colour%10/2]
	quarters := float64(colour/10-1) / 4 // sextants from red
	rgb := [3]int{}
	for i := range rgb {
		// each primary is full for two sextants around its own hue, and rises and falls in one
		away := math.Abs(math.Mod(quarters-float64(2*i)+9, 6) - 3)
		share := math.Min(math.Max(2-away, 0), 1)
		if colour%2 == 1 {
			share = (1 + share) / 2
		}
		rgb[i] = int(float64(full) * share)
	}
	return fmt.Sprintf("#%02x%02x%02x", rgb[0], rgb[1], rgb[2])
}
