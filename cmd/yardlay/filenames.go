package main

import (
	"regexp"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
)

// What a run may leave in a folder, each kind with files of its own.
const (
	setLay     = "lay"
	setCompare = "compare"
	setQuote   = "quote"
	setClient  = "client"
	setShop    = "shop"
	setDraft   = "draft"
)

// markerParts may follow the name of a cloth in the names of its markers: of the
// open stretch behind a fold, and of leftovers and whole bolts by their number.
const markerParts = "open|shelf-[0-9]+|bolt-[0-9]+"

// odd are the ids of cloths that could not name files as they are: they mean
// something else there, or are names of devices on some systems (Microsoft,
// "Naming Files, Paths, and Namespaces", in every folder and with any extension).
var odd = regexp.MustCompile(`^((lay|compare|quote|client|shop)(-[0-9]+)?|con|prn|aux|nul|(com|lpt)[0-9]|-.*|` +
	`.*-(` + markerParts + `|pieces|cutter|roll|projector|steps|chalk))$`)

// clothFile names a file of a cloth: by its id, by what it is of, if that is not
// the whole, and by its kind. No two cloths come to one name: an id holds no dot,
// and where it could be taken for something else it stands between dots.
func clothFile(id, what, kind string) string {
	if odd.MatchString(id) {
		id, what = "cloth."+id, strings.Replace(what, "-", ".", 1)
	}
	return id + what + kind
}

// piecesPart is in the names of drawings of pieces.
const piecesPart = "-pieces"

// cutterPart is in the names of lines for machines that could be taken for drawings.
const cutterPart = "-cutter"

// laySet is what lay makes of a job.
func laySet(j *job.Job) folder.Set {
	return folder.Set{Name: setLay, Makes: func(name string) bool {
		return name == setLay+".json" || slices.ContainsFunc(j.Cloths, func(c job.Cloth) bool {
			rest, ok := strings.CutPrefix(name, clothFile(c.ID, "", ""))
			return ok && ofMarker.MatchString(rest)
		})
	}}
}

// ofMarker is what follows the name of a cloth in the names of what lay makes.
var ofMarker = regexp.MustCompile(`^([-.](` + markerParts + `))?\.(svg|geojson)$`)

// draftSet is what draft makes of a job.
func draftSet(j *job.Job) folder.Set {
	return folder.Set{Name: setDraft, Makes: func(name string) bool {
		return slices.ContainsFunc(j.Cloths,
			func(c job.Cloth) bool { return name == clothFile(c.ID, piecesPart, ".svg") })
	}}
}

// pageSet is what is made of pages: NAME.svg, NAME-2.svg and so on, and NAME.json.
func pageSet(name string) folder.Set {
	made := regexp.MustCompile(`^` + regexp.QuoteMeta(name) + `(\.json|(-[0-9]+)?\.svg)$`)
	return folder.Set{Name: name, Makes: made.MatchString}
}
