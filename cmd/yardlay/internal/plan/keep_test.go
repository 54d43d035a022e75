package plan

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/nest"
	"yardlay/shapes"
)

// A part is one garment of each wearer; parts of a gown that say so keep together,
// and a part may ask for less.
func TestKeptNamesWhatBelongsTogether(t *testing.T) {
	part := func(name, body string, times, wearers int, keep job.Keep) job.Part {
		return job.Part{Name: name, Body: body, Times: times, Count: times * wearers, Keep: keep}
	}
	s := Spread{Gowns: 1, Cuts: []Cut{
		{Piece: shapes.Piece{Count: 4}, Part: part("skirt", "alto", 1, 2, "")},
		{Piece: shapes.Piece{Count: 4, Pair: true}, Part: part("sleeves", "alto", 1, 2, job.KeepPair)},
		{Piece: shapes.Piece{Count: 4}, Part: part("bow", "alto", 2, 2, job.KeepGown)},
		{Piece: shapes.Piece{Count: 2}, Part: part("bodice", "alto", 1, 2, job.KeepGown)},
		{Piece: shapes.Piece{Count: 1}, Part: part("belt", "soprano", 1, 1, job.KeepGown)},
	}}
	p := nest.Problem{}
	for _, c := range s.Cuts {
		p.Pieces = append(p.Pieces, nest.Piece{Count: c.Piece.Count})
	}
	want := func(skirt ...string) []string {
		return append(skirt, "pair 1 0", "pair 1 0", "pair 1 1", "pair 1 1",
			"gown alto 0", "gown alto 0", "gown alto 1", "gown alto 1", "gown alto 0", "gown alto 1", "gown soprano 0")
	}
	if diff := cmp.Diff(want("garment skirt 0", "garment skirt 0", "garment skirt 1", "garment skirt 1"),
		s.kept(false, nil).Names(p)); diff != "" {
		t.Error("between lots that differ:", diff)
	}
	if diff := cmp.Diff(want("", "", "", ""), s.kept(true, nil).Names(p)); diff != "" {
		t.Error("between lots that agree:", diff)
	}
	if got := s.kept(false, map[int]job.Keep{0: job.KeepPair})(nest.Placed{}); got != "" {
		t.Errorf("a freed garment without pairs keeps %q together", got)
	}
}
