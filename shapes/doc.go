// Package shapes drafts the flat pieces of a gown: skirts, bodices,
// sleeves, capes, bands and ruffles from body measures and style lines, one family
// a file. Lengths are millimetres throughout.
//
// A family is a struct of measures whose Draft method returns its pieces and all that
// follows from them (Drafted). Each
// piece is drawn with its grain along +x and its waist, neck or top edge towards
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
// Drafted says too which edges are sewn to which: from its joins come notches that
// match across each seam (MatchNotches) and the order of sewing with the lengths of
// both sides (SewingOrder).
//
// Arcs are sampled so that no chord strays from its arc by more than a stated
// chord error. Lengths that must meet in a seam are equal as drafted, and as
// sampled far within that error.
package shapes
