package plan

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	_ "yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
)

// Two gowns of striped rectangles, whose stripes match at a seam of each, are laid on one cloth: every piece of both is
// there under the name of its gown, their markers end to end pass the judge, and what is laid from there is never
// longer than both with the gap between them.
func TestGownsTogetherAreNeverLongerThanEndToEnd(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		o := Options{Effort: nest.Trial, Seed: 1}
		var gowns []Gown
		var apart []Laid
		gap := rapid.IntRange(0, 2).Draw(rt, "gap")
		head := fmt.Sprintf("gap = %d\n", gap) + testjobs.Striped(rapid.IntRange(60, 90).Draw(rt, "cloth"),
			rapid.IntRange(7, 20).Draw(rt, "along"))
		sum, pieces := 0.0, 0
		for i := range 2 {
			src := head
			for _, name := range []string{"left", "right"} {
				src += fmt.Sprintf("[[part]]\nname = %q\ndraft = \"rectangle\"\ncloth = \"stripe\"\nlength = %d\nwidth = %d\n",
					name, rapid.IntRange(20, 90).Draw(rt, "length"), rapid.IntRange(10, 50).Draw(rt, "width"))
			}
			src += "[[match]]\nname = \"side\"\ncloth = \"stripe\"\n" +
				"points = [ { piece = \"left\", edge = \"upper side\", at = 3 }, " +
				"{ piece = \"right\", edge = \"lower side\", at = 4 } ]\n"
			j := testjobs.Read(rt, src)
			laid, err := Lay(t.Context(), j, o)
			if err != nil {
				rt.Fatal(err)
			}
			sum, pieces = sum+laid[0].Opened.Length, pieces+len(laid[0].Opened.Placed)
			apart = append(apart, laid[0])
			gowns = append(gowns, Gown{Name: fmt.Sprint("gown ", i), Job: j, Spread: laid[0].Task.Spread})
		}
		task, err := Together(gowns[0].Job, apart[0].Task.Spread.Cloth, gowns)
		if err != nil {
			rt.Fatal(err)
		}
		if task.Problem.Pieces[3].Name != "gown 1 right" || task.Problem.Pieces[0].Match == nil {
			rt.Fatalf("%+v", task.Problem.Pieces)
		}
		start := task.EndToEnd(apart)
		if start == nil || !task.holds(start.stretches) {
			rt.Fatal("the markers end to end do not hold")
		}
		l, err := Do(t.Context(), task, o, start)
		if err != nil {
			rt.Fatal(err)
		}
		if most := sum + task.Problem.Gap; l.Opened.Length > most+1e-6 || len(l.Opened.Placed) != pieces {
			rt.Fatalf("%v long with %d pieces, apart %v with %d", l.Opened.Length, len(l.Opened.Placed), most, pieces)
		}
	})
}
