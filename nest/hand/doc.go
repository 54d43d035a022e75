// Package hand moves pieces by hand: it knows where a piece in the hand comes to lie among
// those on the cloth, what is wrong with a place, and what a drawing needs to let the piece
// slide without asking.
//
// A Table is made once for a cloth and keeps no-fit regions from one question to the next. It
// remembers no layout: each question brings the pieces that lie on the cloth, of which the
// one in the hand may still be one.
//
//   - nest.Problem.Ways says how a copy may be turned and mirrored by the nap.
//   - Table.Faults is the judge's word on a place: exact, of each neighbour that is overlapped
//     or too near, of edges, folds, flaws, naps, repeats, grains of pairs and pins.
//   - Table.Contact is the place in contact that is nearest to where a piece is wished: along
//     its neighbours, the edges of the cloth and its flaws; on a repeat where it meets that.
//   - Table.Slide gives regions as rings, in which the origin of the piece may not lie, with
//     the bounds within which it may: a browser holds a dragged piece out of them at each frame. Rings
//     are sent once for each pair of outlines, and what is near can be asked for first.
//   - nest.Verify judges the whole when it is laid.
//
// Regions are those of the search: outlines coarsened outward by a tenth of a millimetre,
// slanted sides off by what rounding to the lattice takes. So a contact may leave that much,
// and the judge passes it.
package hand
