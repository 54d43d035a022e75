// Package search looks for short layouts of outlines on a strip: construct,
// separate, shrink, disturb, compress, polish, settle. It works in floating
// point on slightly enlarged outlines; what leaves it lies on the lattice and
// is judged elsewhere.
//
// # A state, and how it is separated
//
// A state gives every item a way (its turn and mirroring) and a place; items may
// overlap. The overlap of a pair is the least translation that parts it, read off
// the pair's no-fit region (package nofit), and counts as that depth to the power
// 3/4. A separation at a fixed length moves one overlapping item at a time to the
// cheapest of some sampled places: the best take a Newton step onto the lines of
// their contacts, and those then cheapest walk on. It raises the weight of pairs that still overlap: guided local
// search, as in J. Egeblad, B. K. Nielsen & A. Odgaard, EJOR 183 (2007), and
// S. Umetani et al., ITOR 16 (2009). Exploring shortens the strip, tries L-BFGS
// over all places at once (T. Imamichi, M. Yagiura & H. Nagamochi, Discrete
// Optimization 6, 2009), then separates; on failure it disturbs a kept failure and
// tries again. Compressing shortens the best layout by less and less.
//
// Steps of 2 % at most never take apart full columns of like pieces. So attempts
// also leap: to lengths midway between bound and best, then by halving, from the
// best layout and from ones laid in rows or columns. While a layout stands a
// quarter above the bound they wait until steps fail, and then take half of the work.
//
// # Lanes
//
// Two lanes do this side by side and meet after equal work to share the best
// layout. The number of lanes is fixed, that of workers is not, which is why
// workers do not change the result. The bound is computed beside the search and
// waited for at the lanes' first meeting, so that the search ends at the same
// point whatever the machine does. Where the first layout turns out to reach it, or
// purchases are compared and nothing less can be bought, that is what comes out, and the lanes
// end at once.
//
// The work granted grows as long as something shorter might yet be bought
// (budget.go). Where the search stands still it begins anew, and the best of all
// searches is compressed. On lots of few pieces that
// is worth far more than going on: of four searches for twelve corset panels twice
// one still stood above 31 1/2 in after eight times the work; begun anew when
// stuck, eight of eight came below within four times.
//
// What is asked for thoroughly does first all that is done by default, and goes on from its best
// with other random numbers: it ends no longer, by construction.
//
// # Repeats, pairs, leans
//
// On a repeat the copies of a group (a garment's matched pieces, or one part of
// it) share a phase, which is part of the state: the first of a group to be placed
// sets it. A group moves as a whole to a cheaper phase, a disturbance moves it to a
// random one, L-BFGS along with everything else. What lies best is decided by
// which group comes next to which, so three tenths of the work builds whole layouts
// anew, in other orders and with other first places, and attempts begin from those
// as often as from the best. A copy that shares its phase with none lies anywhere.
// A group that is cut from several lengths has one phase on all of them: the one laid
// first finds it, the others are given it.
//
// The lean of a pair off the grain is a move of both, held to 15 % of the work:
// without that limit a chorus came out longer than without tilt. Ways that lean a
// few degrees multiply the pairs: where there are more than 4000 they wait until
// layouts are compressed, and are tried only near where a piece lies.
//
// # Pins
//
// What is pinned is fixed as flaws are, but that the gap is kept from it: an obstacle to
// construction, separation, rows and rounding alike, never moved, and the strip is never shorter
// than where the last pin ends. A pin settles the phase of its group, and the grain and lean of
// the other one of its pair. With no pins nothing is done otherwise, to the bit.
//
// # Memory
//
// No-fit regions are made when first needed and kept within the budget that
// the caller gives: half of it, since the collector lets the heap grow to twice
// what is alive. Shapes that differ by a motion of the lattice (half and quarter
// turns, mirrored or not) have one outline, and pairs that differ by one motion
// share one region, which each of them sees through a view of its own. What has not
// been asked for the longest goes first; a region made anew is the same, so the
// budget changes no result. Outlines of more than 32 convex parts are simplified
// until they have fewer, at last to their hulls.
//
// # Onto the lattice, and out of time
//
// Regions are loosened, so that a finished layout is rounded place by place and
// holds, exact fits included. Where a tie still rounds apart the judge's word is
// followed. Where that fails too, the shortest stands in of an earlier layout that
// settles and the best one lined up anew, which always ends in a valid layout. The
// search's tolerances are a quarter of the lattice at most, the judge has none.
//
// Time and the context halt the search; then 0.1 s are left to bring the best
// layout before the judge, after which the last one counts that the judge has
// passed (once a second at most, outside the counted work). Where nothing stands
// yet, what was laid is kept and the rest follows in rows by bounding boxes. Lots
// above 2500 pieces are laid in rows and not searched, as a lane keeps all pairs.
//
// # Measured, and not adopted
//
// The instances and their figures are in benchmarks/README.md.
//   - Overlap as the depth itself, its square root, its power 3/2: worse. Weights
//     grow by 1.2 to 2 a sweep: slower and faster ones were both worse. Sample
//     counts, refinements, strikes and swaps are flat over wide ranges.
//   - A compass search after the Newton steps cost a third of the time; without it,
//     at equal work, shirts went from 87.8 to 88.7 %, swim from 74.0 to 75.4 (two
//     seeds each). Patience of 50 sweeps instead of 100 lost 0.8 on shirts and 1.2
//     on swim; lanes that do not share their best lost 0.7 on albano; separating
//     from where a failed L-BFGS ended lost 0.3 to 1. Restarts gain on trousers and
//     nothing on albano and marques.
//   - Pushing rounded pieces apart, in place of loosened regions, ran in circles in
//     interlocked layouts.
//   - Workers that share one state: not repeatable, and locks in the loop.
//   - Small steps among the bold ones of exploring, starts with like items in rows and
//     columns, several short searches and then the best of them: on gown cloths each
//     is better for some and worse for others, and on the whole what seeds do.
//   - Bold disturbances, one in four: neighbouring stretches change places (52 pairs of runs),
//     a stretch laid anew (25), a stretch of the other lane's layout (10), pairs that fit well
//     glued for a while (10). 0.06 to 0.16 points on the five large instances, standard error
//     0.09 to 0.17, and satin of the chorus 0.6 % longer where it was tried.
//   - A lane that begins anew where nothing gains, and waits the longer the worse it ends:
//     trousers and albano -0.1 (500 M evaluations, three seeds each).
package search
