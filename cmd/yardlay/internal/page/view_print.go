package page

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/live"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/ways"
	"yardlay/shapes/say"
)

// printView brings the pieces to the table at full size.
func printView() view {
	return view{path: "print", name: "Print", template: "print",
		show: func(o *opened, _ *http.Request) (any, error) { return printsOf(o), nil },
		answers: map[string]answerOf{
			"POST /make":              beginPrint,
			"GET /made":               showPrinted,
			"POST /made/stop":         stopping(printRun, showPrinted),
			"GET /made/{run}/{file}":  printedFile,
			"GET /made/{run}/all/zip": printedZip,
		},
	}
}

// printRun is the kind of run that prints.
const printRun = "print"

// mostPrinted is the most bytes of files that are kept for a job.
const mostPrinted = 64 << 20

// toPrint is what the view shows.
type toPrint struct {
	Job    string
	Ways   []printWay
	Cloths []job.Cloth
	Made   printShown
	Wrong  error // the job cannot be read
	Hand   bool  // some of it is laid by hand
}

func printsOf(o *opened) toPrint {
	shown := toPrint{Job: o.Name(), Made: printedOf(o), Hand: o.hand.kept()}
	now := o.State()
	if now.File == nil {
		shown.Wrong = now.Errors
		return shown
	}
	shown.Ways, shown.Cloths = printWays(now.File.Job().Unit.Metric()), now.File.Job().Cloths
	return shown
}

// printed is what a run has made.
type printed struct {
	way  string // in words
	made ways.Made
	list []folder.File
	date time.Time
}

// printShown is how the last print stands.
type printShown struct {
	Job          string
	Run          *running // nil: nothing was printed yet
	Way          string
	Files        []fileShown
	Lines, Notes []string
	Cleared      []string // slots of errors that do not hold any more
}

type fileShown struct{ Name, Size string }

func printedOf(o *opened) printShown {
	now, _, found := o.runOf(printRun)
	shown := printShown{Job: o.Name(), Run: now}
	if p, ok := found.(printed); ok {
		shown.Way, shown.Lines, shown.Notes = p.way, spokenAll(p.made.Lines), spokenAll(p.made.Notes)
		for _, f := range p.list {
			shown.Files = append(shown.Files, fileShown{f.Name, sizeWords(len(f.Data))})
		}
	}
	return shown
}

// sizeWords shows how large a file is.
func sizeWords(bytes int) string {
	if bytes < 1_000_000 {
		return strconv.Itoa(max(1, (bytes+500)/1000)) + " kB"
	}
	return strconv.FormatFloat(float64(bytes)/1e6, 'f', 1, 64) + " MB"
}

func showPrinted(o *opened, w http.ResponseWriter, _ *http.Request) error {
	o.server.render(w, http.StatusOK, "print-made", printedOf(o))
	return nil
}

// chosen reads the choices of a form into options, as flags are read.
func chosen(r *http.Request, way printWay) (o ways.Options, err error) {
	flags := pflag.NewFlagSet("print", pflag.ContinueOnError)
	ways.Flags(flags, &o)
	set := func(name, value string) error {
		if err := flags.Set(name, value); err != nil {
			return &ways.Refused{Option: name, What: "cannot be " + strconv.Quote(value)}
		}
		return nil
	}
	for _, name := range way.Sets {
		if err := set(name, "true"); err != nil {
			return o, err
		}
	}
	for _, c := range way.Choices {
		for _, value := range r.PostForm[c.Option] {
			if strings.TrimSpace(value) == "" {
				continue
			}
			if err := set(c.Option, value); err != nil {
				return o, err
			}
		}
	}
	for _, name := range []string{"cloth", "date"} {
		for _, value := range r.PostForm[name] {
			if value == "" || name == "cloth" && !way.Pieces {
				continue
			}
			if err := set(name, value); err != nil {
				return o, err
			}
		}
	}
	return o, o.Ready()
}

// beginPrint makes the files of a way; nothing is written to the folder.
func beginPrint(o *opened, w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	now := o.State()
	if now.File == nil || !now.Holds {
		return invalid(errUnread)
	}
	list := printWays(now.File.Job().Unit.Metric())
	i := slices.IndexFunc(list, func(way printWay) bool { return way.ID == r.PostForm.Get("way") })
	if i < 0 {
		return notFound("there is no such way to print")
	}
	way := list[i]
	p, date, err := printing(o, r, now.File, way)
	var refused *ways.Refused
	if errors.As(err, &refused) {
		o.server.refused(w, way, refused)
		return nil
	} else if err != nil {
		return err
	}
	err = o.begin(printRun, func(ctx context.Context, r *run) error {
		if way.Laid && len(p.Cloths()) == 0 {
			if laid := o.laidFor(ctx, r); laid != nil {
				p.Laid(laid)
			}
		}
		p.Tell(r.say, r.progress)
		made, err := p.Make(ctx)
		if err != nil {
			return err
		}
		found := printed{way: way.Title, made: made, date: date}
		size := 0
		for _, s := range p.Sets() {
			for _, f := range made.Files[s.Name] {
				found.list = append(found.list, f)
				size += len(f.Data)
			}
		}
		if size > mostPrinted {
			return say.Errorf("the files take %d MB, and a page keeps %d", size>>20, mostPrinted>>20).
				Hint("choose one cloth at a time, or run `yardlay print`")
		}
		r.set(func() { r.found = found })
		return nil
	})
	if err != nil {
		return err
	}
	shown := printedOf(o)
	shown.Cleared = way.slots()
	o.server.render(w, http.StatusOK, "print-made", shown)
	return nil
}

// laidFor waits for what is being laid on the desk anyway, as the command would lay it; nil
// where that is something else.
func (o *opened) laidFor(ctx context.Context, r *run) *report.Report {
	for on := o.desk.Snapshot(); on.File == r.file && on.Search == r.search && !on.Search.OnAndOn; {
		if on.Final {
			return on.Report
		}
		if !on.Busy {
			return nil
		}
		r.say(laying(on))
		var err error
		if on, err = o.desk.Await(ctx, on.Version); err != nil {
			return nil
		}
	}
	return nil
}

// laying says how far the cloths on the desk are.
func laying(on live.Snapshot) string {
	var going []string
	for _, c := range on.Cloths {
		if c.State == live.Waiting || c.State == live.Laying {
			going = append(going, fmt.Sprintf("%s %.0f %%", c.ID, 100*c.Done))
		}
	}
	return "the cloths are being laid: " + strings.Join(going, ", ")
}

// printing makes ready to print in a way that a form asks for.
func printing(o *opened, r *http.Request, f *job.File, way printWay) (*ways.Printing, time.Time, error) {
	options, err := chosen(r, way)
	if err != nil {
		return nil, time.Time{}, err
	}
	date, err := options.Day()
	if err != nil {
		return nil, date, err
	}
	lay := planned(f, o.desk.Snapshot().Search)
	lay.Begin = o.hand.begin
	p, err := ways.New(f, lay, options, date, nil)
	return p, date, err
}

// refusedChoice is a choice that cannot be followed, for the place beside it.
type refusedChoice struct {
	Slot string
	Why  trouble
}

// refused says beside a choice why it cannot be followed.
func (s *Server) refused(w http.ResponseWriter, way printWay, why *ways.Refused) {
	slot := way.slot(why.Option)
	what := strings.TrimPrefix(why.What, "cannot be ")
	if what != why.What {
		what = "it cannot be " + what
	}
	w.Header().Set("HX-Retarget", "#"+slot)
	w.Header().Set("HX-Reswap", "outerHTML")
	s.render(w, http.StatusUnprocessableEntity, "print-wrong", refusedChoice{slot, trouble{what, why.Help}})
}

// printedRun is the print that an address names, if it is the last one.
func printedRun(o *opened, r *http.Request) (printed, error) {
	now, _, found := o.runOf(printRun)
	p, ok := found.(printed)
	if !ok || strconv.Itoa(now.Number) != r.PathValue("run") {
		return p, notFound("these files are not kept any more")
	}
	return p, nil
}

func printedFile(o *opened, w http.ResponseWriter, r *http.Request) error {
	p, err := printedRun(o, r)
	if err != nil {
		return err
	}
	return sendOne(w, r, p.list)
}

// printedZip sends all files of a print in one.
func printedZip(o *opened, w http.ResponseWriter, r *http.Request) error {
	p, err := printedRun(o, r)
	if err != nil {
		return err
	}
	f, err := zipped(strings.TrimSuffix(o.Name(), suffix)+"-print.zip", p.list, p.date)
	if err != nil {
		return err
	}
	return download(w, f)
}
