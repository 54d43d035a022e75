package ways

import (
	"crypto/sha256"
	"encoding/base32"
	"fmt"
	"strings"

	"yardlay/cmd/yardlay/internal/plan"
)

// markLetters tell a million prints apart: 32^4. Letters and digits of RFC 4648.
const markLetters = 4

// markOf returns a short mark of what is cut: outlines, numbers, names and cloths. Two
// prints with the same mark are of the same pieces; people compare it by eye.
func markOf(spreads []plan.Spread) string {
	sum := sha256.New()
	for _, s := range spreads {
		fmt.Fprintf(sum, "%q\n", s.Cloth.ID)
		for _, c := range s.Cuts {
			fmt.Fprintf(sum, "%q %q %d %v %v\n", c.Part.Name, c.Piece.Name, c.Piece.Count, c.Piece.Cut, c.Piece.Seam)
		}
	}
	return strings.ToLower(base32.StdEncoding.EncodeToString(sum.Sum(nil))[:markLetters])
}
