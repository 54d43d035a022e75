package files

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/report"
)

// drawIDs draws ids of cloths, as different as a job asks for, from what names of files are made of.
func drawIDs(t *rapid.T) []string {
	word := rapid.SampledFrom([]string{"satin", "net", "lay", "compare", "quote", "client", "shop", "take", "record",
		"draft", "open", "shelf", "bolt", "pieces", "sizes", "cutter", "roll", "projector", "steps", "chalk", "con", "nul",
		"com1",
		"lpt9",
		"cloth", "1", "2", "svg", "page"})
	id := rapid.Custom(func(t *rapid.T) string { return strings.Join(rapid.SliceOfN(word, 1, 4).Draw(t, "words"), "-") })
	return rapid.SliceOfNDistinct(id, 1, 6, rapid.ID[string]).Draw(t, "ids")
}

// named is what a file of a cloth may be of besides its id, and its kinds.
var named = []struct{ what, kind string }{{"", ".svg"}, {"", ".geojson"}, {"-open", ".geojson"}, {"-open", ".svg"},
	{"-shelf-1", ".geojson"}, {"-shelf-12", ".geojson"}, {"-bolt-2", ".geojson"}, {PiecesPart, ".svg"},
	{SizesPart, ".svg"}, {CutterPart, ".svg"}, {CutterPart + "-open", ".svg"}, {CutterPart + PiecesPart, ".svg"},
	{PiecesPart, ".dxf"},
	{"", ".dxf"}, {"-roll", ".pdf"}, {"-projector", ".pdf"}, {"-steps", ".pdf"}, {"-chalk", ".pdf"}, {"-chalk", ".txt"}}

// reserved are names that mean something of their own on some systems, whatever follows a dot.
var reserved = regexp.MustCompile(`^(con|prn|aux|nul|(com|lpt)[0-9])(\..*)?$|^-|^\.|[<>:"/\\|?*]|[. ]$`)

// Whatever cloths are called, no two files of theirs have one name, none has that of a file of the
// whole job, and every system can have them.
func TestNamesOfFilesNeverCollide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		owner := map[string]string{}
		take := func(name, whose string) {
			if was, there := owner[name]; there {
				t.Fatalf("%s is a file of %s and of %s", name, was, whose)
			}
			if owner[name] = whose; reserved.MatchString(name) || name != strings.ToLower(name) {
				t.Fatalf("%s, of %s, is no name everywhere", name, whose)
			}
		}
		for _, set := range []string{SetLay, SetCompare, SetQuote, SetClient, SetShop, SetTake, SetRecord} {
			take(set+".json", set)
			for page := range 3 {
				take(Page(set, page), set)
			}
		}
		take(SetTake+".toml", SetTake)
		for page := range 3 {
			take(PageOfDrawing("Front view.pdf", page+1), "a page")
		}
		for _, id := range drawIDs(t) {
			for _, n := range named {
				take(OfCloth(id, n.what, n.kind), fmt.Sprintf("cloth %s, %s", id, n.what))
			}
			for _, kind := range []string{".svg", ".geojson", ".open.geojson"} {
				take(SetShop+"."+id+kind, "gowns that share "+id)
			}
		}
	})
}

// A cloth called compare takes none of the files of one called compare-bolt-2, though both are named between dots.
func TestMarkersOfIDsThatBeginAlike(t *testing.T) {
	lay := LaySet(&job.Job{Cloths: []job.Cloth{{ID: "compare"}, {ID: "satin"}}})
	for name, own := range map[string]bool{
		OfCloth("compare", "-bolt-2", ".svg"): true, OfCloth("compare", "", ".geojson"): true,
		OfCloth("compare-bolt-2", "", ".svg"): false, OfCloth("satin", "-open", ".svg"): true,
		"satin.open.svg": false, OfCloth("satin-open", "", ".svg"): false,
	} {
		if lay.Makes(name) != own {
			t.Errorf("%s is taken for one of the lay: %v", name, !own)
		}
	}
}

// A set knows the files that a run makes of it, of all cloths and of no other, and none of another
// set: what it takes for its own it may remove.
func TestSetsKnowTheirOwnFiles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ids := drawIDs(t)
		j := &job.Job{}
		for _, id := range ids[:max(1, len(ids)-1)] { // the last one is not of the job
			j.Cloths = append(j.Cloths, job.Cloth{ID: id})
		}
		mine := map[string]string{SetLay + ".json": SetLay, SetTake + ".toml": SetTake}
		for _, set := range []string{SetCompare, SetQuote, SetClient, SetShop, SetRecord} {
			mine[set+".json"], mine[Page(set, 0)], mine[Page(set, 11)] = set, set, set
		}
		mine[SetTake+".json"], mine[SetTake+".svg"] = SetTake, SetTake
		for i, id := range ids {
			for _, n := range named {
				set := ""
				switch of := i < len(j.Cloths); {
				case of && n.kind != ".dxf" && (n.what == "" || ofMarker.MatchString(n.what+n.kind)):
					set = SetLay
				case of && (n.what == PiecesPart || n.what == SizesPart) && n.kind == ".svg":
					set = SetDraft
				}
				mine[OfCloth(id, n.what, n.kind)] = set
			}
			mine[SetShop+"."+id+".svg"], mine[SetShop+"."+id+".shelf-2.geojson"] = SetShop, SetShop
		}
		sets := []folder.Set{LaySet(j), DraftSet(j), TakeSet(), ShopSet()}
		for _, name := range []string{SetCompare, SetQuote, SetClient, SetRecord} {
			sets = append(sets, PageSet(name))
		}
		for name, set := range mine {
			for _, s := range sets {
				if s.Makes(name) != (s.Name == set) {
					t.Fatalf("of %q: %s is taken to be of %s: %v, it is of %q", ids, name, s.Name, s.Makes(name), set)
				}
			}
		}
	})
}

// The markers of a cloth have names of their own, by what they are.
func TestPartsOfMarkers(t *testing.T) {
	for want, markers := range map[string][]report.Stretch{
		"":                           {{}},
		",-open":                     {{}, {}},
		",-open,-shelf-1,-shelf-2":   {{}, {}, {Shelf: true}, {Shelf: true}},
		"-shelf-1,-shelf-2":          {{Shelf: true}, {Shelf: true}},
		"-bolt-1,-bolt-2":            {{Bolt: 1}, {Bolt: 2}},
		"-bolt-1,-open":              {{Bolt: 1}, {}},
		",-shelf-1,-shelf-2,-bolt-3": {{}, {Shelf: true}, {Shelf: true}, {Bolt: 3}},
	} {
		var parts []string
		for i := range markers {
			part := MarkerPart(report.Cloth{Markers: markers}, i)
			if parts = append(parts, part); part != "" && !ofMarker.MatchString(part+".geojson") {
				t.Errorf("%s is no part of a marker's name", part)
			}
		}
		if got := strings.Join(parts, ","); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// The drawing of a page is called by it and by the file, in letters that all systems have, and is a
// set of its own.
func TestPagesOfDrawings(t *testing.T) {
	for pdf, want := range map[string]string{"gown.pdf": "page-3.gown.svg", "jazz 09.pdf": "page-3.jazz-09.svg",
		"Front View 2.PDF": "page-3.front-view-2.svg",
		"--.pdf":           "page-3.drawing.svg", "été.pdf": "page-3.t.svg", "a.b.pdf": "page-3.a-b.svg",
		"": "page-3.drawing.svg"} {
		name := PageOfDrawing(pdf, 3)
		if name != want {
			t.Errorf("%q is called %s, want %s", pdf, name, want)
		}
		set := DrawingSet(name)
		if !set.Makes(name) || set.Makes(PageOfDrawing(pdf, 4)) || set.Makes("page-3.svg") ||
			strings.Contains(set.Name, ".") {
			t.Errorf("%s is of set %s", name, set.Name)
		}
	}
}
