package job

import (
	"errors"
	"path/filepath"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/strict"
)

// What is wrong is told once, where it stands: what follows from it is no error of its own, and nothing else is.
func TestOneMistakeIsOneError(t *testing.T) {
	const satin = "cloth = \"satin\""
	bodies := strings.Repeat("\"alto\", ", maxBodies) + "\"bass\""
	choir := "[[body]]\nname = \"alto\"\nwaist_girth = 70\n[[body]]\nname = \"bass\"\nwaist_girth = 80\n"
	block := "[[part]]\nname = \"bodice\"\ndraft = \"bodice-block\"\ncloth = \"satin\"\nopening = \"back\"\n"
	body := "[body]\nwaist_girth = 70\nbust_girth = 90\nhip_girth = 96\nneck_base_girth = 37\nshoulder_length = 12.5\n" +
		"back_neck_point_to_waist = 41\narmhole_depth = 21\n"
	sleeve := func(bodice string) string {
		return "[[part]]\nname = \"sleeve\"\ndraft = \"sleeve\"\ncloth = \"satin\"\nlength = 20\nhem = 30\n" +
			"upper_arm = 28\nbodice = " + bodice + "\n"
	}
	for _, tt := range []struct{ name, src, what, hint string }{
		{"a facing of no edge, twice", skirtJob("", "", satin+"\nfacings = [ { at = §\"knee\", width = 5 } ]", ""),
			"`at`", ""},
		{"a hem bagged and jumped", skirtJob("", "", "cloth = [\"satin\", \"lawn\"]\nbag_hem = 1\n§jump_hem = true",
			"[[cloth]]\nid = \"lawn\"\nwidth = 120\n"), "part `skirt` has both `bag_hem` and `jump_hem`", "give one of them"},
		{"too many bodies", skirtJob("", "", satin+"\n§bodies = ["+bodies+"]", choir), "names", "name each body once"},
		{"no body at all", skirtJob("", "", satin+"\n§bodies = []", choir), "`bodies` names no body", "alto, bass"},
		{"a neck that is not shaped", skirtJob("", "", satin, body+block+"§neck_width = 3\n"),
			"part `bodice` has `neck_width` and its neck lies at the base of the neck", `neckline = "round"`},
		{"a drop that is none", skirtJob("", "", satin, body+block+"§waist_drop_girth = 80\n"),
			"part `bodice` has `waist_drop_girth` and its waist seam lies at the waist", `waist_drop = "2"`},
		{"a sleeve for a bodice misspelt", skirtJob("", "", satin, body+block+sleeve("§\"bodise\"")), "bodise",
			"did you mean `bodice`?"},
		{"a sleeve for no bodice", skirtJob("", "", satin, sleeve("§\"bodice\"")), "bodice",
			"give `front_armhole` and `back_armhole`, or add a part drawn by `bodice-block`"},
		{"a part sewn to itself", skirtJob("", "", satin+"\nsewn_to = §\"skirt\"", ""),
			"part `skirt` cannot be sewn to itself", ""},
		{"no price at a margin of all", skirtJob("", "", satin, "[quote]\nmargin = §\"100 %\"\n"),
			"`margin` cannot be 100 %", "it is a share of the price"},
	} {
		src, at := markedAt(tt.src)
		t.Run(tt.name, func(t *testing.T) {
			wantError(t, src, at, tt.what, tt.hint)
			if _, err := parse("job.toml", []byte(src)); len(err.(strict.Errors)) != 1 {
				t.Errorf("more is told: %v", err)
			}
		})
	}
}

// A closing is cut in the first cloth of its part unless it says another, and only a placket has a panel behind it
// that nobody asked for.
func TestClosingsAsTheyAreUsual(t *testing.T) {
	for keys, want := range map[string]struct {
		cloth string
		panel float64
	}{
		`by = "zip", length = 20`: {"satin", 0}, `by = "placket", length = 20`: {"satin", usualPlacket},
		`by = "placket", length = 20, panel = 5, cloth = "lawn"`: {"lawn", 50},
	} {
		j, err := parse("job.toml", []byte(skirtJob("", "[[cloth]]\nid = \"lawn\"\nwidth = 120\n",
			"cloth = [\"satin\", \"lawn\"]\nopening = true\nclosings = [ { "+keys+" } ]", "")))
		if err != nil {
			t.Fatalf("%s: %v", keys, err)
		}
		if c := j.Parts[0].Closings[0]; c.Cloth.ID != want.cloth || c.Panel != want.panel || c.Draft.At != "centre back" ||
			c.Draft.Length != 200 {
			t.Errorf("%s: %+v", keys, c)
		}
	}
}

// A cloth is net where its name says so, unless the job says it itself.
func TestWhatIsNet(t *testing.T) {
	for cloth, want := range map[string]bool{"": false, "net = true\n": true, "title = \"Moon tulle\"\n": true,
		"title = \"Moon tulle\"\nnet = false\n": false} {
		j, err := parse("job.toml", []byte(skirtJob("", cloth, "cloth = \"satin\"", "")))
		if err != nil || j.Cloths[0].Net != want {
			t.Errorf("%q is net: %v, %v", cloth, j.Cloths[0].Net, err)
		}
	}
}

// What is wrong with the book of a workroom is told at its place there, and one that cannot be read at its
// beginning, to whoever takes from it.
func TestABookThatIsWrong(t *testing.T) {
	_, err := inRoom(t, "unit = \"cm\"\n\n[[cloth]]\nid = \"moon-satin\"\nwidht = 150\n", aJob)
	var all strict.Errors
	if !errors.As(err, &all) || filepath.Base(all[0].File) != WorkroomFile || all[0].Where() != "workroom.toml, line 3" &&
		all[0].Where() != "workroom.toml, line 5" {
		t.Errorf("%v", err)
	}
	for _, e := range all {
		if filepath.Base(e.At.File) != WorkroomFile || e.At.Line < 3 {
			t.Errorf("%+v", e)
		}
	}
	const person = "unit = \"cm\"\n[[person]]\nname = \"mara\"\n[[person.measured]]\non = 2026-05-01\nwaist_girth = 70\n" +
		"[[person.measured]]\non = 2026-05-01\nwaist_girth = 71\n"
	_, err = ReadWorkroom(WorkroomFile, []byte(person))
	if !errors.As(err, &all) || len(all) != 1 || all[0].At != (strict.Position{Line: 8, Column: 6}) ||
		!strings.HasSuffix(all[0].What, "`on` is the day of another one") ||
		all[0].Hint != "one table for a day, with all that was taken on it" {
		t.Errorf("%v", err)
	}
}
