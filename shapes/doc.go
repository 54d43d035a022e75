// Package shapes is the kernel that flat pieces are drafted with: pieces and their edges,
// darts, notches and grain, halves on the fold and their unfolding, what takes up the
// surplus of an edge, what is sewn to what. It knows no gown; the families of pieces are
// in shapes/draft. Lengths are millimetres throughout.
//
// Each piece is drawn with its grain along +x and its waist, neck or top edge towards
// low x, the least x and y of its cut line being 0:
//
//	y
//	|   .-------------------------.   cut line: seam line + allowances
//	|   | .---------------------. |
//	|   | | waist  ---->   hem  | |   the arrow is the grain
//	|   | '---------------------' |
//	|   '-------------------------'
//	+---------------------------------- x
//
// Seen from low to high x with y upward the piece shows the right side of the
// cloth; the mirrored copy of a pair belongs to the other side of the body.
//
// From joins come notches that match across each seam (MatchNotches) and the order of
// sewing with the lengths of both sides (SewingOrder).
package shapes
