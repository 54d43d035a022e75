// Package files names and encodes what is left in a folder: which files each command makes of a
// job, and what is in them.
package files

import (
	"regexp"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
)

// What a run may leave in a folder, each kind with files of its own.
const (
	SetLay     = "lay"
	SetCompare = "compare"
	SetQuote   = "quote"
	SetClient  = "client"
	SetShop    = "shop"
	SetDraft   = "draft"
	SetTake    = "take"
	SetShelf   = "shelf"
	SetRecord  = "record"
)

// MarkerParts may follow the name of a cloth in the names of its markers: of the
// open stretch behind a fold, and of leftovers and whole bolts by their number.
const MarkerParts = "open|shelf-[0-9]+|bolt-[0-9]+"

// odd are the ids of cloths that could not name files as they are: they mean
// something else there, or are names of devices on some systems (Microsoft,
// "Naming Files, Paths, and Namespaces", in every folder and with any extension).
var odd = regexp.MustCompile(`^((lay|compare|quote|client|shop|take|shelf|record)(-[0-9]+)?|` +
	`con|prn|aux|nul|(com|lpt)[0-9]|-.*|.*-(` + MarkerParts + `|pieces|sizes|cutter|roll|projector|steps|chalk))$`)

// OfCloth names a file of a cloth: by its id, by what it is of, if that is not
// the whole, and by its kind. No two cloths come to one name: an id holds no dot,
// and where it could be taken for something else it stands between dots.
func OfCloth(id, what, kind string) string {
	if odd.MatchString(id) {
		id, what = "cloth."+id, strings.Replace(what, "-", ".", 1)
	}
	return id + what + kind
}

// PiecesPart is in the names of drawings of pieces, SizesPart in those of pieces in the
// sizes of all bodies.
const (
	PiecesPart = "-pieces"
	SizesPart  = "-sizes"
)

// CutterPart is in the names of lines for machines that could be taken for drawings.
const CutterPart = "-cutter"

// LaySet is what lay makes of a job.
func LaySet(j *job.Job) folder.Set {
	return folder.Set{Name: SetLay, Makes: func(name string) bool {
		return name == SetLay+".json" || slices.ContainsFunc(j.Cloths, func(c job.Cloth) bool {
			return ofMarkers(name, c.ID)
		})
	}}
}

// ofMarkers says whether a file is what lay makes of a cloth, and not of one whose id begins alike.
func ofMarkers(name, id string) bool {
	rest, ok := strings.CutPrefix(name, OfCloth(id, "", ""))
	if !ok || !ofMarker.MatchString(rest) {
		return false
	}
	dot := strings.LastIndexByte(rest, '.')
	return name == OfCloth(id, strings.Replace(rest[:dot], ".", "-", 1), rest[dot:])
}

// ofMarker is what follows the name of a cloth in the names of what lay makes.
var ofMarker = regexp.MustCompile(`^([-.](` + MarkerParts + `))?\.(svg|geojson)$`)

// DraftSet is what draft makes of a job.
func DraftSet(j *job.Job) folder.Set {
	return folder.Set{Name: SetDraft, Makes: func(name string) bool {
		return slices.ContainsFunc(j.Cloths,
			func(c job.Cloth) bool {
				return name == OfCloth(c.ID, PiecesPart, ".svg") || name == OfCloth(c.ID, SizesPart, ".svg")
			})
	}}
}

// PageSet is what is made of pages: NAME.svg, NAME-2.svg and so on, and NAME.json.
func PageSet(name string) folder.Set {
	made := regexp.MustCompile(`^` + regexp.QuoteMeta(name) + `(\.json|(-[0-9]+)?\.svg)$`)
	return folder.Set{Name: name, Makes: made.MatchString}
}
