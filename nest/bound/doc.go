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
// and are the solution of a small linear program. Any prices, however found, are a
// proof. The same holds along the cloth, for a trial length, and with a dual
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
// Research 18, 1970); penalties put on again, no row of the right pieces is shorter. On a repeat, matched pieces of a row
// follow each other by whole repeats. Abreast of others, a matched piece with straight
// ends keeps idle what is left up to the next of its group, and counts as longer by that.
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
// # Rounding, and a check
//
// Every figure is rounded downward, and a piece with several allowed ways pays the
// least over them. A bound above a layout that the judge has passed is an error,
// not a result: one of the two would be wrong.
package bound
