// Package draft drafts the flat pieces of a gown: skirts, bodices, sleeves, capes, bands
// and ruffles from body measures and style lines, one family a file. Lengths are
// millimetres throughout.
//
// A family is a struct of measures whose Draft method returns its pieces, as package
// shapes describes them, and all that follows from them (Result).
//
// Arcs are sampled so that no chord strays from its arc by more than a stated
// chord error. Lengths that must meet in a seam are equal as drafted, and as
// sampled far within that error.
package draft
