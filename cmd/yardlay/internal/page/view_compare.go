package page

import (
	"context"
	"net/http"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/depict"
	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/quote"
	"yardlay/shapes/say"
)

// compareView lays the job in other ways and sets them beside it.
func compareView() view {
	return view{path: "compare", name: "Compare", template: "compare",
		show: func(o *opened, _ *http.Request) (any, error) { return waysOf(o), nil },
		answers: map[string]answerOf{
			"GET /rows":                         showRows,
			"POST /rows":                        beginCompare,
			"POST /rows/stop":                   stopping(compareRun, showRows),
			"POST /rows/take":                   takeRow,
			"GET /rows/{row}":                   showRow,
			"GET /rows/{run}/{row}/{cloth}/svg": drawRow,
			"GET /rows/{run}/file/{file}":       compareFile,
		},
	}
}

// compareRun is the kind of run that compares.
const compareRun = "compare"

// mostCompared is the most rows of a comparison on the page; the command takes more.
const mostCompared = 60

// typedLines is how many keys can be varied at a time.
const typedLines = 3

// toCompare is what the view shows: ways to tick, keys to type values for, and the rows.
type toCompare struct {
	Job   string
	Ways  []wayBox
	Keys  []string // that can be varied
	Cloth string   // the id of one, for an example
	Lines []int
	Rows  rowsShown
	Wrong error // the job cannot be read; nil: it can
	Hand  bool  // some of the job is laid by hand
}

// wayBox is a way that is proposed.
type wayBox struct{ Name, Value string }

func waysOf(o *opened) toCompare {
	shown := toCompare{Job: o.Name(), Rows: rowsOf(o), Hand: o.hand.kept()}
	for i := range typedLines {
		shown.Lines = append(shown.Lines, i+1)
	}
	now := o.State()
	if now.File == nil {
		shown.Wrong = now.Errors
		return shown
	}
	shown.Ways = boxesOf(compare.Defaults(now.File.Job()))
	shown.Keys = now.File.Variable()
	if cloths := now.File.Job().Cloths; len(cloths) > 0 {
		shown.Cloth = cloths[0].ID
	}
	return shown
}

// boxesOf makes a box of each way; steps of one choice are ticked together.
func boxesOf(ways [][]job.Change) (boxes []wayBox) {
	last := ""
	for _, way := range ways {
		step := compare.Steps([][]job.Change{way})
		if len(step) > 0 && step[0] == last {
			box := &boxes[len(boxes)-1]
			box.Value += "," + way[0].Value
			box.Name += " or " + way[0].Value
			continue
		}
		last = ""
		if len(step) > 0 {
			last = step[0]
		}
		boxes = append(boxes, wayBox{compare.Name(way), compare.Text(way)})
	}
	return boxes
}

// asked reads a form: the ways that are ticked, those that are typed, and the keys of ticked ones that
// are steps of one choice.
func asked(r *http.Request) (typed []compare.Asked, ways [][]job.Change, steps []string, err error) {
	if err := r.ParseForm(); err != nil {
		return nil, nil, nil, err
	}
	for _, text := range r.PostForm["way"] {
		a, err := compare.Ask(text)
		if err != nil {
			return nil, nil, nil, invalid(err)
		}
		one, err := compare.Combine([]compare.Asked{a})
		if err != nil {
			return nil, nil, nil, invalid(err)
		}
		ways = append(ways, one...)
	}
	steps = compare.Steps(ways)
	keys, values := r.PostForm["key"], r.PostForm["values"]
	for i, key := range keys {
		if i >= len(values) || strings.TrimSpace(key+values[i]) == "" {
			continue
		}
		steps = slices.DeleteFunc(steps, func(step string) bool { return step == strings.TrimSpace(key) })
		a, err := compare.Ask(key + "=" + values[i])
		if err != nil {
			return nil, nil, nil, invalid(say.Errorf("%s: %w", strings.TrimSpace(key), err))
		}
		typed = append(typed, a)
	}
	if typed != nil {
		more, err := compare.Combine(typed)
		if err != nil {
			return nil, nil, nil, invalid(err)
		}
		if ways != nil {
			typed = nil // the rows are not all of these
		}
		ways = append(ways, more...)
	}
	switch {
	case len(ways) == 0:
		return nil, nil, nil, invalid(say.Errorf("nothing is ticked").Hint("tick a way, or type a key and its values"))
	case len(ways) > mostCompared:
		return nil, nil, nil, invalid(say.Errorf("these are %d rows, and a page takes %d", len(ways), mostCompared).
			Hint("`yardlay compare` takes up to %d", compare.MostRows))
	}
	return typed, ways, steps, nil
}

// typing says how to ask for keys and their values on the page.
func typing(keys, values string) string { return "key " + keys + ", values " + values }

// beginCompare lays the job in the ways that a form asks for.
func beginCompare(o *opened, w http.ResponseWriter, r *http.Request) error {
	typed, ways, steps, err := asked(r)
	if err != nil { // beside what was asked for
		w.Header().Set("HX-Retarget", "#ways-wrong")
		w.Header().Set("HX-Reswap", "innerHTML")
		o.server.render(w, statusOf(err), "ways-wrong", troubleOf(err))
		return nil
	}
	err = o.begin(compareRun, func(ctx context.Context, r *run) error {
		lo := planned(r.file, r.search)
		lo.Progress, lo.Begin = r.progress, o.asItLies
		qo := quote.Options{Options: lo}
		lo.Check = quote.Check(qo)
		found, err := compare.Run(ctx, r.file, typed, ways, compare.Options{
			Options: lo, Price: quote.Weigh(qo), Asking: typing, Best: steps,
			Stands: func(now *compare.Result) { r.set(func() { r.found = now }) },
		})
		if err == nil {
			r.set(func() { r.found = found })
		}
		return err
	})
	if err != nil {
		return err
	}
	shown := rowsOf(o)
	shown.Begun = true
	o.server.render(w, http.StatusOK, "compare-rows", shown)
	return nil
}

// rowsShown is the table as it stands.
type rowsShown struct {
	Job     string
	Run     *running // nil: nothing was compared yet
	Begun   bool     // just now: nothing is wrong with what was asked for
	Result  *compare.Result
	Columns []compare.Column
	Wide    int  // columns behind the names
	Priced  bool // gowns have a price besides that of their cloth
	Rows    []rowShown
	Laid    int
	Picture bool
	Said    []string
}

// rowShown is a row of the table.
type rowShown struct {
	compare.Row
	Number  int
	Waits   bool
	Cells   []cell
	Current bool // it is the job as written
}

// cell is a figure, and how it differs from the job as written.
type cell struct{ Text, Change string }

func rowsOf(o *opened) rowsShown {
	now, _, found := o.runOf(compareRun)
	shown := rowsShown{Job: o.Name(), Run: now}
	result, ok := found.(*compare.Result)
	if !ok {
		return shown
	}
	shown.Result, shown.Columns = result, result.Columns()
	for i, row := range result.Rows {
		if row.PassedOver {
			continue
		}
		one := rowShown{Row: row, Number: i, Waits: row.Report == nil && row.Why == "", Current: i == 0}
		for _, col := range shown.Columns {
			at := slices.IndexFunc(row.Cloths, func(c compare.Cloth) bool { return c.ID == col.ID })
			if at < 0 || row.Report == nil {
				one.Cells = append(one.Cells, cell{"-", ""})
				continue
			}
			one.Cells = append(one.Cells, cell{col.Bought(row.Cloths[at]), col.Change(row.Cloths[at])})
		}
		if row.Report != nil {
			shown.Laid++
			shown.Priced = shown.Priced || row.Price != ""
		}
		shown.Rows = append(shown.Rows, one)
	}
	if shown.Wide = len(shown.Columns) + 3; shown.Priced {
		shown.Wide++
	}
	if result.Best() != nil {
		shown.Picture, shown.Said = true, spokenAll(result.Said())
	}
	return shown
}

func showRows(o *opened, w http.ResponseWriter, _ *http.Request) error {
	o.server.render(w, http.StatusOK, "compare-rows", rowsOf(o))
	return nil
}

// rowOf returns the row that an address names, of the last comparison.
func (o *opened) rowOf(r *http.Request) (*running, *run, int, *compare.Row, error) {
	now, of, found := o.runOf(compareRun)
	result, ok := found.(*compare.Result)
	n, err := rowAsked(r)
	if !ok || err != nil || n >= len(result.Rows) || result.Rows[n].Report == nil {
		return nil, nil, 0, nil, notFound("this row is not laid")
	}
	return now, of, n, &result.Rows[n], nil
}

// takeRow takes a row over into the job.
func takeRow(o *opened, w http.ResponseWriter, r *http.Request) error {
	_, of, _, row, err := o.rowOf(r)
	if err != nil {
		return err
	}
	if err := o.take(of, row.Changes); err != nil {
		return err
	}
	return showRows(o, w, r)
}

// rowLooked is a row with its markers.
type rowLooked struct {
	Job, Name string
	Number    int
	Run       int
	Cloths    []clothLooked
	Remarks   []string
}

type clothLooked struct {
	ID, Title, Buy, Used, Because string
	Lines                         []string
}

// showRow shows what a row buys, with its markers.
func showRow(o *opened, w http.ResponseWriter, r *http.Request) error {
	now, _, n, row, err := o.rowOf(r)
	if err != nil {
		return err
	}
	shown := rowLooked{Job: o.Name(), Name: row.Title(), Number: n, Run: now.Number,
		Remarks: spokenAll(row.Report.Remarks)}
	for _, c := range row.Report.Cloths {
		shown.Cloths = append(shown.Cloths, clothLooked{ID: c.ID, Title: c.Title, Buy: c.ToBuy(), Because: c.Because,
			Lines: spokenAll(row.Report.Lines(c))})
	}
	o.server.render(w, http.StatusOK, "compare-row", shown)
	return nil
}

// drawRow draws the markers of a cloth of a row.
func drawRow(o *opened, w http.ResponseWriter, r *http.Request) error {
	_, _, _, row, err := o.rowOf(r)
	if err != nil {
		return err
	}
	for _, c := range row.Report.Cloths {
		if c.ID == r.PathValue("cloth") {
			svg, err := depict.Marker(row.Report, c).Drawing().SVG()
			return picture(w, svg, err)
		}
	}
	return notFound("there is no such cloth")
}

// compareFile sends the picture of the comparison, to be shown or kept, or its figures.
func compareFile(o *opened, w http.ResponseWriter, r *http.Request) error {
	_, _, found := o.runOf(compareRun)
	result, ok := found.(*compare.Result)
	if !ok || result.Best() == nil {
		return notFound("nothing is compared yet")
	}
	made, err := files.Compare(result)
	if err != nil {
		return err
	}
	if r.URL.Query().Has("keep") || r.PathValue("file") != made[0].Name {
		return sendOne(w, r, made)
	}
	return picture(w, made[0].Data, nil)
}
