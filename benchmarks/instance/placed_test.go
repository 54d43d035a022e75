package instance

import (
	"bytes"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"

	"yardlay/nest"
)

// sampleMarker lays the sample: both panels and the triangle, at the scale of in.
func sampleMarker(t testing.TB) (Instance, nest.Layout) {
	t.Helper()
	in, err := Read(strings.NewReader(sample))
	if err != nil {
		t.Fatal(err)
	}
	at := func(x, y float64) orb.Point { return orb.Point{x * in.Scale, y * in.Scale} }
	l := nest.Layout{Length: 4.25 * in.Scale, Placed: []nest.Placed{
		{Piece: 0, Copy: 0, At: at(0, 0)},
		{Piece: 0, Copy: 1, Turn: 180, At: at(4, 7)},
		{Piece: 1, Copy: 0, At: at(2.25, 7.125)},
	}}
	if err := nest.Verify(in.Problem, l); err != nil {
		t.Fatal(err)
	}
	return in, l
}

func written(t testing.TB, in Instance, l nest.Layout) string {
	t.Helper()
	var out bytes.Buffer
	if err := WritePlaced(&out, in.Name, in.Problem, l, in.Scale); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func TestWritePlaced(t *testing.T) {
	in, l := sampleMarker(t)
	want := `{"type": "FeatureCollection", "cloth": "two", "width": 10, "length": 4.25, "features": [
{"type":"Feature","properties":{"piece":"panel","copy":1,"turn":0,"mirrored":false},"geometry":{"type":"Polygon","coordinates":[[[0,0],[4,0],[4,3.5],[0,3],[0,0]]]}},
{"type":"Feature","properties":{"piece":"panel","copy":2,"turn":180,"mirrored":false},"geometry":{"type":"Polygon","coordinates":[[[4,7],[0,7],[0,3.5],[4,4],[4,7]]]}},
{"type":"Feature","properties":{"piece":"7","copy":1,"turn":0,"mirrored":false},"geometry":{"type":"Polygon","coordinates":[[[2.25,7.125],[4.25,7.125],[2.25,9.125],[2.25,7.125]]]}}
]}
`
	if diff := cmp.Diff(want, written(t, in, l)); diff != "" {
		t.Error(diff)
	}
}

func TestPlacedRoundTrip(t *testing.T) {
	in, l := sampleMarker(t)
	in.Problem.Pieces[0].Turns = append(in.Problem.Pieces[0].Turns, 33.3)
	l.Placed[1].Turn = 33.3
	l.Placed[2].Mirrored = true
	l.Placed[2].At[0] += 1.0 / 1024
	name, got, err := readPlaced(strings.NewReader(written(t, in, l)), in.Problem, in.Scale)
	if err != nil || name != "two" {
		t.Fatal(name, err)
	}
	if diff := cmp.Diff(l, got); diff != "" {
		t.Error(diff)
	}
}

func TestReadPlacedErrors(t *testing.T) {
	in, l := sampleMarker(t)
	text := written(t, in, l)
	for _, c := range []struct{ name, old, new, says string }{
		{"cut short", "\n]}\n", "", "near byte"},
		{"no length", `"length"`, `"reach"`, "width and length"},
		{"another width", `"width": 10`, `"width": 11`, "width is 11, the problem's 10"},
		{"unknown piece", `"panel"`, `"yoke"`, `piece "yoke"`},
		{"bent", `[4,3.5]`, `[4,3.25]`, "outline is not that"},
		{"off the lattice", `[[0,0],[4,0],[4,3.5],[0,3],[0,0]]`, `[[0.1,0],[4.1,0],[4.1,3.5],[0.1,3],[0.1,0]]`,
			"outline is not that"},
		{"a vertex less", `[0,3.5],[4,4]`, `[4,4]`, "outline is not that"},
		{"a vertex more", `[0,3.5],[4,4]`, `[0,3.5],[2,3.75],[4,4]`, "outline is not that"},
		{"turned otherwise", `"turn":180`, `"turn":0`, "outline is not that"},
		{"empty", `[[[0,0],[4,0],[4,3.5],[0,3],[0,0]]]`, `[[]]`, "outline is not that"},
	} {
		if !strings.Contains(text, c.old) {
			t.Fatalf("%s: marker lacks %q", c.name, c.old)
		}
		_, _, err := readPlaced(strings.NewReader(strings.Replace(text, c.old, c.new, 1)), in.Problem, in.Scale)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: got %v, want %q", c.name, err, c.says)
		}
	}
	in.Problem.Pieces[1].Name = "panel"
	if _, _, err := readPlaced(strings.NewReader(text), in.Problem, in.Scale); err == nil {
		t.Error("two pieces of one name accepted")
	}
}

func FuzzReadPlaced(f *testing.F) {
	in, l := sampleMarker(f)
	f.Add([]byte(written(f, in, l)))
	f.Fuzz(func(t *testing.T, data []byte) {
		name, got, err := readPlaced(bytes.NewReader(data), in.Problem, in.Scale)
		if err != nil {
			return
		}
		_ = nest.Verify(in.Problem, got) // whatever was read must be fit to be judged
		var again bytes.Buffer
		if err := WritePlaced(&again, name, in.Problem, got, in.Scale); err != nil {
			t.Fatal(err)
		}
		_, second, err := readPlaced(&again, in.Problem, in.Scale)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(got, second); diff != "" {
			t.Fatal(diff)
		}
	})
}
