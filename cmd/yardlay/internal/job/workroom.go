package job

import (
	"path/filepath"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cost"
	"yardlay/shapes/measure"
)

// WorkroomFile is the file that makes a folder of jobs a workroom: its book.
const WorkroomFile = "workroom.toml"

// IsWorkroom says whether a file is the book of a workroom by its name, and so no job.
func IsWorkroom(name string) bool { return strings.EqualFold(filepath.Base(name), WorkroomFile) }

// Workroom is the book of a workroom: what its jobs share, and what became of them.
// Lengths are in mm.
type Workroom struct {
	File       string // as it was read, for messages
	Unit       measure.Unit
	Currency   string // ISO 4217
	PricesHold int    // days; an older price is told
	Cloths     []Cloth
	People     []Person
	Leftovers  []Leftover
	Gowns      []Gown
	rates      rates
	root       *strict.Value
}

// Person is somebody who is sewn for, and how she measured from time to time.
type Person struct {
	Name     string
	Unusual  bool        // measures that people do not have are meant so
	Measured []Measuring // in the order of their days
	At       strict.Position
}

// Measuring is what was taken on one day.
type Measuring struct {
	On       Date
	Measures map[string]float64 // mm, by the names of the reference
	At       strict.Position
}

// Measures are those of a person as they were known at the end of a day, each as it was
// taken last, mm. The zero day is that of the last one.
func (p Person) Measures(by Date) map[string]float64 {
	known := map[string]float64{}
	for _, m := range p.Measured {
		if !by.IsZero() && by.Before(m.On) {
			break
		}
		for name, mm := range m.Measures {
			known[name] = mm
		}
	}
	return known
}

// Leftover is a length of cloth, or an outline of it, that lies on the shelf.
type Leftover struct {
	Have
	Cloth    string // id of the cloth in the room
	Lot      string // of dye; may be empty
	From     string // the job that it was left from; may be empty
	On       Date   // when; may be none
	Promised string // the job that is to be cut from it; "" for none
	Used     string // the job that was cut from it: it is on the shelf no more; "" where it is
}

// Gown is a job in the book. All but Job may be missing.
type Gown struct {
	Job            string // the name of its file in the folder
	Ordered        Date
	Deliver        Date
	Fittings       []Date
	Price, Deposit cost.Money // as agreed; without a currency: not agreed yet
	Paid           []Payment
	Cut            *WasCut // nil: not cut yet
	Took           *Took   // nil: not told yet
	At             strict.Position
}

// Payment is what was paid on one day.
type Payment struct {
	On     Date
	Amount cost.Money
}

// WasCut says that the cloth of a job was cut.
type WasCut struct {
	On     Date
	Before string // a mark of the book before; may be empty
	Cloths []ClothCut
	At     strict.Position
}

// ClothCut is what a job was cut from in one cloth.
type ClothCut struct {
	Cloth  string  // its id
	Length float64 // bought for it, mm; 0: none
	Lot    string
	Used   []string // names of the leftovers it was cut from
	Left   []string // names of what it left on the shelf
}

// Took is what a job really took, beside what was planned.
type Took struct {
	On                  Date
	Hours, PlannedHours cost.Decimal // 0: not told
	Cloths              []ClothTook
	At                  strict.Position
}

// ClothTook is what a job took of one cloth, beside the plan.
type ClothTook struct {
	Cloth           string
	Planned, Length float64 // mm; 0: not told
	Price           cost.Money
	Per             measure.Unit // of the price
}

// Cloth finds a cloth by its id.
func (w *Workroom) Cloth(id string) (Cloth, bool) {
	return oneCalled(w.Cloths, id, func(c Cloth) string { return c.ID })
}

// Person finds somebody by name.
func (w *Workroom) Person(name string) (Person, bool) {
	return oneCalled(w.People, name, func(p Person) string { return p.Name })
}

// Gown finds a job of the book by the name of its file, whatever folder it is named with.
func (w *Workroom) Gown(file string) (Gown, bool) {
	return oneCalled(w.Gowns, filepath.Base(file), func(g Gown) string { return g.Job })
}

// Shelf lists the leftovers that lie there still: those that nothing was cut from.
func (w *Workroom) Shelf() []Leftover {
	return slices.DeleteFunc(slices.Clone(w.Leftovers), func(l Leftover) bool { return l.Used != "" })
}

// oneCalled finds the one of a list that is called by a name.
func oneCalled[T any](all []T, name string, called func(T) string) (found T, ok bool) {
	for _, one := range all {
		if called(one) == name {
			return one, true
		}
	}
	return found, false
}

// FromRoom says whether a part is cut for somebody of the workroom, whose measures are not
// said.
func (j *Job) FromRoom(p Part) bool {
	body, _ := oneCalled(j.Bodies, p.Body, func(b Body) string { return b.Name })
	return body.From != ""
}

// PricesHold is how many days the prices of a job are believed.
func (j *Job) PricesHold() int {
	if j.Room == nil {
		return usualHold
	}
	return j.Room.PricesHold
}

// MaxWorkroom is the longest book read, in bytes: thousands of leftovers with outlines.
const MaxWorkroom = 8 << 20

// Most tables of a book: what a workroom comes to in twenty years, and ten times what it
// has at once.
const (
	mostRoomCloths    = 500
	mostRoomSuppliers = 100
	mostPeople        = 1000
	mostMeasured      = 200
	mostLeftovers     = 5000
	mostGowns         = 2000
	mostFitted        = mostFittings
	mostPaid          = 100
)

// usualHold is how many days a price is believed where the book does not say: half a
// year, common practice.
const usualHold = 180

// roomFormat is more than any book takes.
var roomFormat = strict.Format{
	Deep: 16, Keys: 1000, Tables: 20000,
	DeepHint:   "the deepest keys of a workroom are like `cloth.bolt.price`",
	KeysHint:   "`yardlay help workroom` lists the keys",
	TablesHint: "take out gowns of years ago, and leftovers that are gone",
	SyntaxHint: "text stands in quotes, a date without them, a key and its value on one line: on = " + dateExample,
	TwiceHint:  "give each key once; a further cloth, person or leftover starts with its own line, such as [[cloth]]",
}

// calledRoom is how messages call such a file.
const calledRoom = "workroom"

// ReadWorkroom reads the book in src. name is the file's name for messages. The error,
// when there is one, is a strict.Errors.
func ReadWorkroom(name string, src []byte) (*Workroom, error) {
	r := newReader(name, measure.Inch, "")
	r.Called = calledRoom
	if len(src) > MaxWorkroom {
		r.Fail(strict.Position{Line: 1, Column: 1}, "take out gowns of years ago, and leftovers that are gone",
			"the file is over %d bytes long, the most a workroom takes", MaxWorkroom)
		return nil, r.Errors
	}
	root, bad := roomFormat.Parse(src)
	if bad != nil {
		bad.File = name
		return nil, strict.Errors{bad}
	}
	w := r.workroom(root)
	if len(r.Errors) > 0 {
		return nil, r.Told()
	}
	return w, nil
}
