package main

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/paulmach/orb"
	"github.com/spf13/pflag"

	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cmd/yardlay/internal/workroom"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

var shelfCommand = command{
	name: "shelf", args: "[JOB...]", brief: "list what is left of each cloth",
	about: `Lists what lies on the shelf of a workroom, the one in this folder where neither job
nor folder is named: of each leftover how far it reaches, what it covers, its lot, the job it was
left from, and the job it is promised to.

With jobs, or with --jobs for all of the room that are not cut yet, it says which of
them could be cut from the shelf alone, each by itself. --time ends that: what is
not looked at by then is said so.

A leftover is promised to a job by ` + "`yardlay lay JOB --promise`" + `, and other jobs leave
it alone then. --release JOB makes free what is promised to it.

With --out it draws what is left of each cloth, shelf.svg, shelf-2.svg and so on,
and writes shelf.json.
`,
	flags: func(flags *pflag.FlagSet, o *options) {
		flags.BoolVar(&o.shelf.jobs, "jobs", false, "say of all jobs that are not cut what the shelf is enough for")
		flags.StringVar(&o.shelf.release, "release", "", "make free what is promised to this `JOB`")
		flags.DurationVar(&o.time, "time", 0, "end looking at jobs after this long, such as 30s or 2m")
		flags.IntVar(&o.workers, "workers", 0, "how many processors to use; 0 takes all")
		o.outputFlags(flags, "shelf.svg and shelf.json")
	},
	run: showShelf,
}

// shelfOptions are the flags of shelf.
type shelfOptions struct {
	jobs    bool
	release string
}

// shelfReport is what lies on the shelf.
type shelfReport struct {
	File      string       `json:"file"`
	Leftovers []lyingLeft  `json:"leftovers"`
	Jobs      []enoughFor  `json:"jobs,omitempty"`
	asked     bool         // for all jobs
	unit      measure.Unit // to show lengths in
	cloths    []job.Cloth
}

// lyingLeft is one leftover; lengths are mm, areas mm2.
type lyingLeft struct {
	Name     string   `json:"name"`
	Cloth    string   `json:"cloth"`
	Lot      string   `json:"lot,omitempty"`
	Length   float64  `json:"length"`
	Width    float64  `json:"width"`
	Area     float64  `json:"area"`
	Outline  orb.Ring `json:"outline"`
	From     string   `json:"from,omitempty"`
	On       string   `json:"on,omitempty"`
	Promised string   `json:"promised,omitempty"`
	flaws    []orb.Ring
}

func showShelf(ctx context.Context, s streams, args []string, o *options) error {
	dir, jobs, err := shelfArgs(args)
	if err != nil {
		return err
	}
	o.effort, o.gowns = "quick", 1
	if _, err := o.searchEffort(); err != nil {
		return err
	}
	path := filepath.Join(dir, job.WorkroomFile)
	if o.shelf.release != "" {
		return o.released(ctx, s, path)
	}
	_, w, err := workroom.Read(path)
	if err != nil {
		return err
	}
	r := shelfReport{File: path, Leftovers: lying(w), cloths: w.Cloths}
	if r.unit, err = o.unitOr(w.Unit); err != nil {
		return err
	}
	if r.asked = o.shelf.jobs; r.asked {
		if jobs, err = uncutJobs(w, dir); err != nil {
			return err
		}
	}
	out, err := o.opened(ctx, files.PageSet(files.SetShelf))
	if err != nil {
		return err
	}
	defer out.close()
	if r.Jobs, err = o.enoughFor(ctx, s, w, jobs); err != nil {
		return err
	}
	return out.finish(s, r, func() (made, error) {
		list, err := r.drawn()
		return made{files.SetShelf: list}, err
	}, r.print)
}

// shelfArgs tells the folder of a workroom from jobs in one.
func shelfArgs(args []string) (dir string, jobs []string, err error) {
	dir = "."
	if len(args) == 0 {
		return dir, nil, nil
	}
	if info, err := os.Stat(args[0]); err == nil && info.IsDir() {
		if len(args) > 1 {
			return "", nil, &usageError{"shelf takes one folder, or jobs", "`yardlay help shelf` shows how"}
		}
		return args[0], nil, nil
	}
	for _, a := range args {
		if filepath.Dir(a) != filepath.Dir(args[0]) {
			return "", nil, &usageError{fmt.Sprintf("%s and %s are not in one workroom", args[0], a),
				"name jobs of one folder"}
		}
	}
	return filepath.Dir(args[0]), args, nil
}

// released makes free what is promised to a job.
func (o *options) released(ctx context.Context, s streams, path string) error {
	var names []string
	err := workroom.Change(ctx, path, func(src []byte, w *job.Workroom) (out []byte, err error) {
		out, names, err = workroom.Release(src, w, o.shelf.release)
		if err == nil && len(names) == 0 {
			err = say.Errorf("nothing on the shelf is promised to %s", filepath.Base(o.shelf.release))
		}
		return out, err
	})
	if err != nil || o.quiet {
		return err
	}
	fmt.Fprint(s.out, wrapAt("Free again: "+strings.Join(names, ", ")+".", "", columns(s.out)))
	return nil
}

// lying lists what is on the shelf, cloth by cloth as they stand in the book, the largest first.
func lying(w *job.Workroom) []lyingLeft {
	all := []lyingLeft{}
	for _, l := range w.Shelf() {
		one := lyingLeft{Name: l.Name, Cloth: l.Cloth, Lot: l.Lot, Length: l.Length, Width: l.Width, Outline: l.Outline,
			From: l.From, On: l.On.String(), Promised: l.Promised}
		if one.Width == 0 {
			cloth, _ := w.Cloth(l.Cloth)
			one.Width = cloth.Width
		}
		if one.Outline == nil {
			one.Outline = orb.Bound{Max: orb.Point{one.Length, one.Width}}.ToRing()
		} else {
			b := plane.Bounds(one.Outline)
			one.Length, one.Width = b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
		}
		for _, f := range l.Flaws {
			one.flaws = append(one.flaws, f.Outline)
		}
		one.Area = plane.Area(one.Outline)
		all = append(all, one)
	}
	place := func(id string) int {
		return slices.IndexFunc(w.Cloths, func(c job.Cloth) bool { return c.ID == id })
	}
	slices.SortStableFunc(all, func(a, b lyingLeft) int {
		return cmp.Or(cmp.Compare(place(a.Cloth), place(b.Cloth)), cmp.Compare(b.Area, a.Area))
	})
	return all
}

// byCloth calls for each cloth of which something is left.
func (r shelfReport) byCloth(each func(title string, left []lyingLeft)) {
	for _, c := range r.cloths {
		var left []lyingLeft
		for _, l := range r.Leftovers {
			if l.Cloth == c.ID {
				left = append(left, l)
			}
		}
		if len(left) > 0 {
			each(c.ID, left)
		}
	}
}

// print lists it.
func (r shelfReport) print(out io.Writer) {
	wide := columns(out)
	if len(r.Leftovers) == 0 {
		fmt.Fprintf(out, "Nothing lies on the shelf of %s.\n", r.File)
	}
	first := true
	r.byCloth(func(title string, left []lyingLeft) {
		if !first {
			fmt.Fprintln(out)
		}
		first = false
		sum := 0.0
		for _, l := range left {
			sum += l.Area
		}
		fmt.Fprintf(out, "%s: %s, %s\n", title, say.Count(len(left), "leftover"), areaWords(sum, r.unit))
		for _, l := range left {
			fmt.Fprintf(out, "  %-18s %s\n", l.Name, strings.Join(l.words(r.unit), ", "))
		}
	})
	if r.asked && len(r.Jobs) == 0 {
		fmt.Fprint(out, "\nNo job of the room is to be cut from its cloths still.\n")
	}
	if len(r.Jobs) > 0 {
		fmt.Fprint(out, "\nfrom the shelf alone, each by itself\n")
	}
	for _, j := range r.Jobs {
		first, more, _ := strings.Cut(wrapAt(j.words(), "", wide-25), "\n")
		fmt.Fprintf(out, "  %-22s %s\n", j.Job, first)
		for line := range strings.Lines(more) {
			fmt.Fprintf(out, "%25s%s", "", line)
		}
	}
}

// words are what is known of a leftover.
func (l lyingLeft) words(unit measure.Unit) []string {
	words := []string{sizeWords(l.Length, l.Width, l.Area, unit)}
	if l.Lot != "" {
		words = append(words, "lot "+l.Lot)
	}
	if l.From != "" {
		words = append(words, "from "+l.From)
	}
	if l.Promised != "" {
		words = append(words, "promised to "+l.Promised)
	}
	return words
}

// drawn draws the shelf, a page for each cloth.
func (r shelfReport) drawn() (list []folder.File, err error) {
	r.byCloth(func(title string, left []lyingLeft) {
		page := sheet.Shelf{Title: title, Unit: r.unit}
		for _, l := range left {
			one := sheet.Left{Name: l.Name, Notes: l.words(r.unit), Ring: l.Outline, Flaws: l.flaws}
			page.Left = append(page.Left, one)
		}
		svg, bad := page.Drawing().SVG()
		if bad != nil && err == nil {
			err = say.Errorf("cannot draw the shelf: %w", bad)
		}
		list = append(list, folder.File{Name: files.Page(files.SetShelf, len(list)), Data: svg})
	})
	if err != nil {
		return nil, err
	}
	asJSON, err := files.JSON(r)
	return append(list, folder.File{Name: files.SetShelf + ".json", Data: asJSON}), err
}
