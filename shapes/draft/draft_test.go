package draft

import (
	"errors"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// inch is 25.4 mm exactly (international yard and pound agreement, 1959).
const inch = 25.4

// failer is what *testing.T and *rapid.T have in common here.
type failer interface {
	Helper()
	Errorf(format string, args ...any)
	Fatalf(format string, args ...any)
}

// Parts of what a draft comes to.
func piecesOf(d Draft) ([]shapes.Piece, error) { made, err := d.Draft(); return made.Pieces, err }
func joinsOf(d Draft) ([]shapes.Join, error)   { made, err := d.Draft(); return made.Joins, err }
func notesOf(d Draft) ([]string, error) {
	made, err := d.Draft()
	var notes []string
	for _, n := range made.Notes {
		notes = append(notes, n.String())
	}
	return notes, err
}
func bonesOf(d Draft) ([]Bone, error)      { made, err := d.Draft(); return made.Bones, err }
func layersOf(d Draft) ([]NetLayer, error) { made, err := d.Draft(); return made.Tables.Layers, err }
func tiersOf(d Draft) ([]Tier, error)      { made, err := d.Draft(); return made.Tables.Tiers, err }
func bindingOf(d Draft) (BindingTable, error) {
	made, err := d.Draft()
	if err != nil {
		return BindingTable{}, err
	}
	return *made.Tables.Binding, nil
}

func waistOf(d Draft) (shapes.JoinSide, error) {
	made, err := d.Draft()
	if err != nil {
		return shapes.JoinSide{}, err
	}
	return WaistOf(made)
}

func checkEntry(d Draft, body map[Passage]float64) error {
	made, err := d.Draft()
	if err != nil {
		return err
	}
	return CheckEntry(made, body)
}

func armholeJoin(bodice, sleeve Draft) (shapes.Join, error) {
	a, errA := bodice.Draft()
	b, errB := sleeve.Draft()
	if err := errors.Join(errA, errB); err != nil {
		return shapes.Join{}, err
	}
	return ArmholeJoin(a, b)
}

func meetingOf(a, b Draft) (Meeting, error) {
	madeA, errA := a.Draft()
	madeB, errB := b.Draft()
	if err := errors.Join(errA, errB); err != nil {
		return Meeting{}, err
	}
	return MeetingOf(madeA, madeB)
}

func mustDraft(t failer, d Draft) []shapes.Piece {
	t.Helper()
	pieces, err := piecesOf(d)
	if err != nil {
		t.Fatalf("%+v: %v", d, err)
	}
	for _, p := range pieces {
		sound(t, p)
	}
	return pieces
}

func draftOne(t failer, d Draft) shapes.Piece {
	t.Helper()
	pieces := mustDraft(t, d)
	if len(pieces) != 1 {
		t.Fatalf("%d pieces drafted, want one", len(pieces))
	}
	return pieces[0]
}

// sound holds what every drafted piece promises.
func sound(t failer, p shapes.Piece) {
	t.Helper()
	if err := plane.CheckSimple(p.Cut); err != nil {
		t.Errorf("%s: cut line: %v", p.Name, err)
	}
	if err := plane.CheckSimple(p.Seam); err != nil {
		t.Errorf("%s: seam line: %v", p.Name, err)
	}
	if b := plane.Bounds(p.Cut); b.Min[0] != 0 || b.Min[1] != 0 {
		t.Errorf("%s: corner at %v", p.Name, b.Min)
	}
	for _, v := range p.Cut {
		if plane.SnapPoint(v) != v {
			t.Errorf("%s: %v is off the lattice", p.Name, v)
		}
	}
	if p.Name == "" || p.Count < 1 || (p.Pair && p.Count%2 != 0) {
		t.Errorf("%q: count %d, pair %v", p.Name, p.Count, p.Pair)
	}
	if cut, seam := p.Area(), plane.Area(p.Seam); cut < seam-plane.Lattice*plane.Length(p.Seam) {
		t.Errorf("%s: cut area %.3f below seam area %.3f", p.Name, cut, seam)
	}
}

// near fails when got is further than slack from want.
func near(t failer, what string, got, want, slack float64) {
	t.Helper()
	if !(math.Abs(got-want) <= slack) {
		t.Errorf("%s is %.6f, want %.6f within %g", what, got, want, slack)
	}
}

// inches fails when got (mm) is not want inches to the third decimal, the
// precision of the worked examples.
func inches(t failer, what string, got, want float64) {
	t.Helper()
	near(t, what+" in inches", got/inch, want, 0.0005)
}

type refusal struct {
	name  string
	draft Draft
	want  string // part of the error
}

func refuses(t *testing.T, cases []refusal) {
	t.Helper()
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			pieces, err := piecesOf(c.draft)
			if err == nil {
				t.Fatalf("drafted %d pieces", len(pieces))
			}
			if !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %q does not say %q", err, c.want)
			}
		})
	}
}

// someOf draws a few of the named changes to a draft: trying all of them on every
// body would take long.
func someOf[T any](t *rapid.T, all map[string]func(*T)) map[string]func(*T) {
	const few = 4
	out := map[string]func(*T){}
	names := slices.Sorted(maps.Keys(all))
	for range few {
		name := rapid.SampledFrom(names).Draw(t, "change")
		out[name] = all[name]
	}
	return out
}
