// Package nofit computes no-fit regions: where the origin of one outline may
// not lie relative to another's without the two overlapping.
//
// For outlines A and B the region is the interior of A + (-B). It is kept as
// the open convex sums of convex parts, whose union it is, together with the
// boundary of that union and a grid of 16 x 16 cells, each with the stretches of
// boundary that can be nearest there: one cell look-up answers "how deep, and which
// way out". J. A. Bennell & J. F. Oliveira, "The geometry of nesting problems: a
// tutorial", EJOR 184 (2008), describes the no-fit polygon; P. K. Agarwal, E. Flato
// & D. Halperin, "Polygon decomposition for efficient construction of Minkowski
// sums", Computational Geometry 21 (2002), the sums of convex parts.
//
// # Why so
//
//   - Convex sums and clipping, not sliding or a general polygon union: no floating
//     boolean operation stands in the way of a layout, and slits of no width (exact
//     fits) survive.
//   - The nearest boundary with a grid, not scans of the half-planes of all sums: one
//     cell look-up. Finer grids (24, 32) and coarser (8) were measured within 5 % of
//     each other. Telling inside from outside by the nearest segment instead of the
//     cell's half-planes gave no gain and was left out.
//   - Only sides that both outlines own are clipped (reduced convolution), not every
//     side of every sum, and stretches of boundary finer than the lattice are left
//     out: regions of darts and caps take a tenth of the time, and half as many sides
//     have to be measured at each look-up. A slow twin that clips every side holds it
//     in the tests.
//   - Rounding is safe by construction instead of by repair: every slanted side stands
//     off by what rounding to the lattice can move a place, sides along an axis do
//     not (loosened has the proof).
package nofit
