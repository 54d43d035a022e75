// Package plan is the one pipeline from a job to what to buy: it drafts the
// pieces, gathers them by cloth, lays each cloth, judges the layouts and works
// out the purchase. Commands and drawings share it.
//
// # Decided, and why
//
//   - What goes on a fold is settled before a search: all that can be cut double. A
//     stretch then is an ordinary problem with an ordinary bound; the open lay is another row of a comparison. What is
//     proved of the stretches is not yet proved of the purchase. Where less might be bought, other shares are laid
//     (shares.go): all there are, or those beside the best one, as far as simple bounds allow them, side by side by a
//     trial each, the best four quickly, the best of all as the run does. Pieces that differ in name alone change
//     places. It is so for what is cut beside leftovers and bolts, and around pins: these stay on the stretch and the
//     copy that they are given for. Of 236 random jobs of two or three rectangles, counter steps 2 to 5 cm, all cut
//     double that can be bought too much in 76; with other shares tried, none did.
//   - Every folded lay is opened out and judged again: the rules of folds and those of
//     the open cloth would both have to be wrong.
//   - Where parts are pieced is settled before a job is drawn for good, by little work that
//     neither effort nor seed change: a job whose pieces hung on these would have other
//     pieces in its cut list than in its marker, and a layout that was kept would not fit it
//     any more. So it is a property of the job (job.Part.Place), and drafts, markers, prices and
//     pages follow from it (places.go).
//   - The grain is settled apart from the nap, and turns are made of both. That left
//     and right lie on one grain is a right of the pair, settled by a few short
//     searches before the search proper, which moves copies one by one; a rule inside
//     it would freeze pairs on the grain they begin on.
//   - A match group that is cut from several lengths keeps one phase of the repeat on all
//     of them. Which length should choose it is not known before. Of a fold either
//     stretch is laid first, the other keeps to its phase. Leftovers and bolts are filled
//     with one of a group's three biggest pieces in the corner, or with the phase that
//     the first length finds; then the largest share of every plan is laid first, its
//     phase free. Of 200 random jobs of rectangles in a row that buys too much in 4,
//     where the biggest piece in the corner alone did in 70.
//   - Lengths are never added end to end. A purchase of several lengths is a set of
//     bolts, met the cheapest first, and a cut besides. Bounds say what a bolt holds at
//     the most (all ways to share few bundles out, caps of each entry for many), and
//     drop sets; others are laid as leftovers are. What is proved is the money.
package plan
