package ways

import (
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
)

// ids are ids of cloths made of words that mean something in names of files.
var ids = rapid.Custom(func(t *rapid.T) string {
	words := []string{"satin", "cloth", "open", "pieces", "shelf", "bolt", "lay", "compare", "quote", "client", "shop",
		"take", "page-1", "cutter", "chalk", "con", "1", "2", "_", ""}
	return strings.Join(rapid.SliceOfN(rapid.SampledFrom(words), 1, 4).Draw(t, "words"), "-")
})

// namesOf lists the names of the files that a cloth can come to, with the set that each is of.
func namesOf(id string) map[string]string {
	all := map[string]string{}
	for _, what := range []string{"", "-open", "-shelf-1", "-bolt-2"} {
		all[files.OfCloth(id, what, ".svg")], all[files.OfCloth(id, what, ".geojson")] = files.SetLay, files.SetLay
		all[files.OfCloth(id, what, ".dxf")], all[files.OfCloth(id, files.CutterPart+what, ".svg")] = "dxf-markers",
			"svg-markers"
	}
	all[files.OfCloth(id, files.PiecesPart, ".svg")] = files.SetDraft
	all[files.OfCloth(id, files.PiecesPart, ".dxf")],
		all[files.OfCloth(id, files.CutterPart+files.PiecesPart, ".svg")] = "dxf-pieces", "svg-pieces"
	all[files.OfCloth(id, chalkPart, ".txt")], all[files.OfCloth(id, chalkPart, ".pdf")] = setChalk, setChalk
	return all
}

// No two cloths come to one name, and none to that of anything else.
func TestNamesOfFilesCannotCollide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := ids.Draw(t, "a"), ids.Draw(t, "b")
		if a == "" || b == "" || a == b {
			return
		}
		other := namesOf(b)
		for name := range namesOf(a) {
			if other[name] != "" {
				t.Fatalf("%s and %s are both written as %s", a, b, name)
			}
			for _, s := range []folder.Set{files.PageSet(files.SetQuote), files.PageSet(files.SetClient),
				files.PageSet(files.SetShop), files.PageSet(files.SetCompare), files.TakeSet(),
				files.DrawingSet(files.PageOfDrawing(a+".pdf", 1))} {
				if s.Makes(name) || name == "lay.json" {
					t.Fatalf("%s is written as %s, which %s may make", a, name, s.Name)
				}
			}
			if device := regexp.MustCompile(`^(con|prn|aux|nul|com\d|lpt\d)\.`); device.MatchString(name) ||
				name[0] == '-' {
				t.Fatalf("%s is written as %s", a, name)
			}
		}
	})
}

// A set knows all its names, and those of the others are not among them.
func TestSetsKnowTheirNames(t *testing.T) {
	for _, id := range []string{"satin", "satin-open", "satin-shelf-1", "compare", "con", "-", "take", "satin-cutter",
		"satin-cutter-open"} {
		j := &job.Job{Cloths: []job.Cloth{{ID: id}}}
		sets := []folder.Set{files.LaySet(j), files.DraftSet(j), files.TakeSet()}
		for _, w := range ways() {
			sets = append(sets, w.set(j))
		}
		for name, of := range namesOf(id) {
			for _, s := range sets {
				if s.Makes(name) != (s.Name == of) {
					t.Errorf("%s makes %s: %v", s.Name, name, s.Makes(name))
				}
			}
		}
	}
	j := &job.Job{Cloths: []job.Cloth{{ID: "satin"}}}
	for _, name := range []string{"satin-lining.svg", "satin-openings.svg", "satin.txt", "compare.svg", "velvet.svg"} {
		if files.LaySet(j).Makes(name) {
			t.Errorf("%s is taken for a file of lay", name)
		}
	}
}

// Names stay plain where they say what they are.
func TestPlainNamesStayPlain(t *testing.T) {
	for _, c := range [][3]string{
		{"satin", "", "satin.svg"}, {"satin", "-open", "satin-open.svg"}, {"satin-2", "-shelf-1",
			"satin-2-shelf-1.svg"},
		{"satin-open", "", "cloth.satin-open.svg"}, {"compare", "-shelf-1",
			"cloth.compare.shelf-1.svg"}, {"cloth", "", "cloth.svg"},
	} {
		if got := files.OfCloth(c[0], c[1], ".svg"); got != c[2] {
			t.Errorf("%s%s is %s, want %s", c[0], c[1], got, c[2])
		}
	}
}
