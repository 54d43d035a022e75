// Package bound proves how short a marker can never be. Every bound it gives is
// a theorem about the outlines, with the numbers by which anybody can check it;
// it shares no code with the search and knows no layout.
//
// # Prices
//
// Lines are drawn over the cloth, each with a price; a piece, wherever it lies,
// crosses lines worth at least so much, and a line offers no more than its own
// length. When the pieces need more than all lines together offer, no marker of that
// length exists. With prices p(s) >= 0 of the lines s across the cloth that sum to
// 1, a piece whose chord along the cloth is r(s) needs v = min over its places and
// turns of the sum of p(s) r(s - y), and L >= sum v. All prices alike are the bound
// by area; the best charge the middle of the cloth, which wide pieces cannot avoid,
// and are the solution of a small linear program, first for a few cells between which
// they may differ, then for more. Any prices, however found, are a proof. The same
// holds along the cloth, for a trial length, and with a dual
// feasible function of the chords in place of the chords: f on [0, 1] with
// sum f(x) <= 1 wherever sum x <= 1, which counts pieces too big to share a line
// (S. P. Fekete & J. Schepers, Mathematical Programming 91, 2001).
//
// # Rows
//
// Pieces so wide that all must cross one line follow each other in one order, and
// the shortest such row is found from below. Where they are of too many kinds to tell apart how
// many copies of each are laid, each kind has a penalty instead, and of all rows of so many
// pieces the one that is shortest less its penalties is found (M. Held & R. M. Karp, Operations
// Research 18, 1970); penalties put on again, no row of the right pieces is shorter. On a
// repeat, matched pieces of a row follow each other by whole repeats. Abreast of others, a
// matched piece with straight ends keeps idle what is left up to the next of its group, and
// counts as longer by that.
//
// Rectangles as wide as the cloth are walls between the others: however many kinds of them there
// are, each lengthens the row by itself and a gap.
//
// # Rectangles
//
// Of rectangles all that counts is where along the cloth each begins: on every line across it, those that the line
// meets must fit side by side, gaps between them. Whatever lies beside nothing else is set apart. Of the others the
// shortest such places are found by going through them, each piece beginning where another ends, until the worth of
// what is still to come shows that a length is passed (see rectangleSearch). Where sizes are too many for that, like
// ones are counted as the least of them, from few to many: that is often as long, and found far sooner. A piece that
// may be turned by a quarter has two sizes. It sees that
// three pieces of which two lie side by side need two rows, which prices and functions, halving the third, do not.
//
// # Steps
//
// A line across the cloth meets pieces in an order, and from each to the next it is at least
// the step that their outlines need on all lines that they share, which may be far more than
// what the two take of that one line. Each slice of a piece between two lines has a worth; where
// no chain of slices that steps let lie side by side is worth more than 1, the pieces need a
// marker as long as what they are worth. It sees what a shaft, a waist or a notch leaves free
// that nothing can use, and takes an outline as far as lines meet it in one interval.
//
// # One way
//
// Pieces that all point one way are exchanged for others of more area that lie apart wherever they do: convex parts
// of each, which reach less by c(u) in every direction u, where c(-u) = -c(u) (see oneWay). Copies of one become its
// symmetric difference body; of gores of several bodies, with train or beside panels, c is a mean. Prices and
// functions then see the idle cloth between them, which lines through the outlines do not.
//
// # Tried, and not adopted
//
// Inches; layouts of little work in brackets. One program of lines along and slices, in which
// a slice is worth more or less by where across the cloth it lies: prices alone, which need no
// slices, prove more. With 240 slices and 128 lines it comes to 184 for a cape of half circles
// for three bodies (prices 192.9, layout 200.2), 365 for a gored skirt of 6, two-way (374.8, 406.3),
// 212 for a trumpet of 6 (216.8, 274.4) and 208 for flounces (218.4, 230.8), in 1 to 11 s.
// The prices of the cape by these slices come to 179, so that steps bring 3 % and slices cost 7.
//
// Twice the slices and twenty times the work, two-way: 327 for that gored skirt, 313 for a
// trumpet (345.9 by prices): what is lost there is not lost on single lines. 190 slices for a gored
// skirt of 6, one-way: 161.9 for 160.3, in nine times the time. 160 slices for all and programs begun at
// 0.6 of the length that is known, as they are for more than ten ways: 161.0 for 160.3, 240.8 for
// 238.4 on a trumpet of 8 and no more, in 0.2 s more for each of 73 gown cloths. A program with
// chains as its cost, which needs no trial length, takes as long, and came to 216 for 238 on a
// trumpet of 8.
//
// Ways of several bodies put together as what they have in common, 12 hundredths of it apart at the most, for
// steps: 1305 to 1318 for circle gores with a train one-way (1196, layout 1531) and 185 to 194 for panels beside
// gored skirts (180, 248), with 6 to 12 shapes and 160 to 200 slices; but from some starts the worths of the
// first are not found, and a trumpet of 8 came to 237 for 238. Where gores point one way, what is lost is lost between
// lines: 289 to 294 for a gored skirt of 10 with flounces (prices 305, layout 433) with 180 to 360 slices, flounces cut
// into their bow and two legs or not; 455 to 464 for one of 8 with a train (488, 691), the program at its end. A
// line is full with five gores side by side, hems beside waists, and so is the next; but no five keep beside each
// other all along. Exchanged for others, as above, the same gores need 361 and 599.
//
// Of the exchange, on seven cloths: copies counted alike, by their area or its fourth power in place of its square, at
// 0.5 to 1.6 of the mean. By its square, whole and at 0.8, none is more than 0.6 % below the best of all.
//
// Exchange of pieces that may lie two ways, or of more kinds than one mean suits: sets of more area that lie apart
// wherever the pieces do were sought on rasters of 80 to 500 cells a piece, as independent sets of cells (two cells
// exclude each other where some allowed places of their pieces lay one on the other; annealed, 60,000 steps). Trumpets
// two-way gain 0 to 0.7 % of area, bodices with sleeves 1.4 to 2.7 % whichever way they point, a corset with a peplum
// 0 to 0.4 %, where gored skirts, trumpets and trains that point one way gain 13 to 23 %. So no exchange brings much
// there.
//
// Prices that differ along the cloth and across it at once, as a program on rasters of 8 mm with cells of 48 or 64: a
// bodice with straight sleeves two-way may be shorter than 44 for all that they say (bound 42.0, layout 51.8), one
// with puffed sleeves one-way than 52 (49.3, 59.4), a corset with a peplum than 93 (90.1, 110.4).
//
// Prices that fall off towards both ends of the cloth, where hems leave corners free: a price for each line across
// times one for each line along, found in turn on rasters of 48 to 72 cells over the width. Above prices of lines
// along: half circles 0.3 to 0.6 %, gored skirts two-way and all-way 0.1 to 0.2, trumpets 0.3 to 0.8, capes 0.2 to 0.4,
// bodices and corsets 0.6 to 3. Together with prices and functions of lines both ways, as one program of 48 cells
// at the lengths that are proved, four of five bodices and corsets may gain 0.8 to 2 %. The purchases that are
// nearest to a proof lack more than that: of the first 38 gown cloths none was seen for which it would be enough.
//
// Penalties for the 18 ways of circle gores with a train: 1001 with 6 ranges of places in 1 s, 1104 with 12 in 8 s.
// Where copies can be told apart, penalties prove up to 0.6 % less.
//
// # Rounding, and a check
//
// Every figure is rounded downward, and a piece with several allowed ways pays the
// least over them. A bound above a layout that the judge has passed is an error,
// not a result: one of the two would be wrong.
package bound
