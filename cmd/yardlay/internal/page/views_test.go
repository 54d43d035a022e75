package page

import (
	"archive/zip"
	"bytes"
	"context"
	"html"
	"io"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/spf13/pflag"

	"yardlay/benchmarks/often"
	"yardlay/benchmarks/processor"
	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/files"
	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/live"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/quote"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/cmd/yardlay/internal/ways"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// In a run by hand all tests lay with little work that do not say more.
func init() {
	if often.ByHand() {
		usual.Effort = nest.Trial
	}
}

// quickly lays with little work until the test ends.
func quickly(t *testing.T) { withEffort(t, nest.Trial) }

// withEffort lays with an effort until the test ends.
func withEffort(t *testing.T, effort nest.Effort) {
	was := usual
	usual = live.Search{Effort: effort, Seed: 1}
	t.Cleanup(func() { usual = was })
}

// put writes a job into the folder of a site, and opens it.
func (s *site) put(name string, src []byte) *opened {
	s.Helper()
	if err := os.WriteFile(filepath.Join(s.dir, name), src, 0o644); err != nil {
		s.Fatal(err)
	}
	if status, text := s.get("/job/" + name + "/text"); status != http.StatusOK {
		s.Fatalf("%s: %d\n%s", name, status, text)
	}
	s.server.mu.Lock()
	defer s.server.mu.Unlock()
	o := s.server.open[name]
	if now := o.State(); !now.Holds {
		s.Fatalf("%s: %v", name, now.Errors)
	}
	return o
}

// settled waits until the cloths of a job are laid.
func (s *site) settled(o *opened) *report.Report {
	s.Helper()
	ctx, done := context.WithTimeout(context.Background(), long)
	defer done()
	for on := o.desk.Snapshot(); ; {
		if on.Final && on.File == o.State().File {
			return on.Report
		}
		var err error
		if on, err = o.desk.Await(ctx, on.Version); err != nil {
			s.Fatal(err)
		}
	}
}

// done waits until a run is over.
func (s *site) done(o *opened, kind string) *running {
	s.Helper()
	ctx, done := context.WithTimeout(context.Background(), long)
	defer done()
	for version := 0; ; {
		if now, _, _ := o.runOf(kind); now != nil && now.Over {
			return now
		}
		var err error
		if version, err = o.bench.await(ctx, version); err != nil {
			s.Fatal(err)
		}
	}
}

var tags = regexp.MustCompile(`<[^>]*>`)

// words are what a page says, without its markup.
func words(page string) string {
	text := html.UnescapeString(tags.ReplaceAllString(page, " "))
	return strings.Join(strings.Fields(strings.ReplaceAll(text, "\u00a0", " ")), " ")
}

// says fails where a page does not say something, as pages say it.
func (s *site) says(what, page string, want ...string) {
	s.Helper()
	for _, w := range want {
		if w = strings.Join(strings.Fields(strings.ReplaceAll(spoken(w), "\u00a0", " ")), " "); !strings.Contains(page, w) {
			s.Errorf("%s does not say %q", what, w)
		}
	}
}

// Quote, Buy and Sew say of every job what the commands make of it: each line, each sum, each
// seam; their files are the commands' own, byte by byte. The commands price what the page has
// laid, and where YARDLAY_LONG is set they lay it themselves.
func TestViewsSayWhatCommandsSay(t *testing.T) {
	quickly(t)
	s := newSite(t)
	if err := os.CopyFS(filepath.Join(s.dir, "rates"), os.DirFS("../../../../testdata/rates")); err != nil {
		t.Fatal(err)
	}
	for path, src := range someOf(t, "plaid-cape.toml", "quoted-gown.toml") {
		name := filepath.Base(path)
		o := s.put(name, src)
		r := s.settled(o)
		f := o.State().File
		qo := quote.Options{Options: planned(f, usual), Today: time.Now()}
		q, err := quote.OfLaid(t.Context(), f.Job(), r.Laid(), qo)
		if os.Getenv("YARDLAY_LONG") != "" {
			q, err = quote.Make(t.Context(), f.Job(), qo)
		}
		if err != nil {
			t.Fatal(name, err)
		}
		list, err := q.Shopping()
		if err != nil {
			t.Fatal(err)
		}
		at := "/job/" + name
		_, page := s.get(at + "/quote")
		said := words(page)
		for _, e := range slices.Concat(q.Ledger().Lines) {
			s.says(name+" quote", said, e.Text, e.Detail, e.Amount)
		}
		_, page = s.get(at + "/quote?client")
		client := words(page)
		for _, e := range q.ForClient().Ledger(q.Unit).Lines {
			s.says(name+" client", client, e.Text, e.Amount)
		}
		if strings.Contains(client, "workroom alone") {
			t.Errorf("%s: the client reads of costs", name)
		}
		_, page = s.get(at + "/buy")
		for _, e := range list.Ledger().Lines {
			s.says(name+" buy", words(page), e.Text, e.Detail, e.Amount)
		}
		for _, set := range []struct {
			name string
			made func() ([]folder.File, error)
		}{{files.SetQuote, func() ([]folder.File, error) { return files.Pages(files.SetQuote, q.Ledger(), q) }},
			{files.SetShop, func() ([]folder.File, error) { return files.Pages(files.SetShop, list.Ledger(), list) }}} {
			made, err := set.made()
			if err != nil {
				t.Fatal(err)
			}
			for _, file := range made {
				if status, got := s.get(at + "/quote/file/" + file.Name); status != 200 || got != string(file.Data) {
					t.Errorf("%s: %s is not what the command writes (%d)", name, file.Name, status)
				}
			}
		}
		s.sews(name, r)
	}
}

// sews holds the view of the sewing order against the lists.
func (s *site) sews(name string, r *report.Report) {
	s.Helper()
	var spreads []plan.Spread
	for _, c := range r.Cloths {
		spreads = append(spreads, c.Spread)
	}
	f := s.server.open[name].State().File
	list, err := report.List(f.Job(), spreads, r.Unit)
	if err != nil {
		s.Fatal(err)
	}
	_, page := s.get("/job/" + name + "/sew")
	said, unit := words(page), measure.SizeUnit(r.Unit)
	for _, c := range list.Pieces {
		s.says(name+" cut list", said, strings.Join(c.Row(unit), " "))
	}
	for i, seam := range list.Seams {
		s.says(name+" sewing order", said, append([]string{seam.Row(unit)[0]}, seam.Details(unit)...)...)
		if i > 1 {
			continue // the drawings are held in their own room
		}
		at := "/job/" + name + "/sew/seam/" + strconv.Itoa(i)
		if status, text := s.get(at); status != 200 || !strings.Contains(text, "drawing.svg") {
			s.Errorf("%s, %s: %d\n%s", name, seam.Name, status, text)
		}
		if status, svg := s.get(at + "/drawing.svg"); status != 200 || !strings.Contains(svg, `class="sewn"`) {
			s.Errorf("%s, %s: %d, no edge is lit", name, seam.Name, status)
		}
	}
	s.says(name+" cautions", said, r.Cautions...)
}

// The rows of a comparison are those of the command, with its figures, its words and its
// picture; a row taken over is one step, and the job then buys what the row bought. Of the
// jobs of testdata one is compared, and all where YARDLAY_LONG is set: that takes a minute. By hand
// it is a job of two rectangles.
func TestRowsAreThoseOfTheCommand(t *testing.T) {
	quickly(t)
	s := newSite(t)
	if err := os.CopyFS(filepath.Join(s.dir, "rates"), os.DirFS("../../../../testdata/rates")); err != nil {
		t.Fatal(err)
	}
	all := map[string][]byte{"small.toml": []byte(testjobs.Small)}
	if !often.ByHand() {
		all = jobsOf(t)
	}
	for path, src := range all {
		name := filepath.Base(path)
		if len(all) > 1 && name != "quoted-gown.toml" && os.Getenv("YARDLAY_LONG") == "" {
			continue
		}
		o := s.put(name, src)
		t.Cleanup(o.pages.listens())
		f := o.State().File
		form := url.Values{"key": {"", ""}, "values": {"", ""}}
		for _, way := range compare.Defaults(f.Job()) {
			form.Add("way", compare.Text(way))
		}
		at := "/job/" + name + "/compare/rows"
		if status, text := s.post(at, form); status != 200 {
			t.Fatalf("%s: %d\n%s", name, status, text)
		}
		qo := quote.Options{Options: planned(f, usual)}
		co := compare.Options{Options: planned(f, usual), Price: quote.Weigh(qo), Asking: typing}
		co.Check = quote.Check(qo)
		want, err := compare.Run(t.Context(), f, nil, nil, co)
		if err != nil {
			t.Fatal(err)
		}
		now := s.done(o, compareRun)
		_, page := s.get(at)
		said := words(page)
		s.says(name, said, want.Said()...)
		for i, row := range want.Rows {
			if row.PassedOver {
				continue // another place of the same cut is shown
			}
			if row.Report == nil {
				s.says(name, said, row.Title(), row.WhyNot())
				continue
			}
			s.says(name, said, row.Title(), row.Cost, row.Dearer(), row.Price, row.DearerGown(), row.Loose())
			if i == len(want.Rows)-1 {
				_, looked := s.get(at + "/" + strconv.Itoa(i))
				s.says(name, words(looked), row.Title(), row.Report.Cloths[0].ToBuy())
				if !strings.Contains(looked, "/"+row.Report.Cloths[0].ID+"/svg") {
					t.Errorf("%s: a row shows no marker:\n%s", name, looked)
				}
			}
		}
		made, err := files.Compare(want)
		if err != nil {
			t.Fatal(err)
		}
		run := at + "/" + strconv.Itoa(now.Number) + "/file/"
		for _, file := range made {
			if status, got := s.get(run + file.Name + "?keep"); status != 200 || got != string(file.Data) {
				t.Errorf("%s: %s is not what the command writes (%d)", name, file.Name, status)
			}
		}
		s.takesOver(o, at, want)
	}
}

// takesOver takes the first row over that was laid beside the job, and one step back.
func (s *site) takesOver(o *opened, at string, r *compare.Result) {
	s.Helper()
	i := 1 + slices.IndexFunc(r.Rows[1:], func(w compare.Row) bool { return w.Report != nil && len(w.Notes) == 0 })
	if i == 0 {
		return
	}
	before := o.State().Text
	if status, text := s.post(at+"/take", url.Values{"row": {strconv.Itoa(i)}}); status != 200 ||
		!strings.Contains(text, "The job has been changed since") {
		s.Errorf("%s: %d\n%s", o.Name(), status, text)
	}
	if diff := r.Rows[i].Report.Bill.Total.Minor - s.settled(o).Bill.Total.Minor; diff < 0 {
		s.Errorf("%s: %s costs %d more once it is taken over", o.Name(), r.Rows[i].Name, -diff)
	}
	if status, _ := s.post(at+"/take", url.Values{"row": {strconv.Itoa(i)}}); status != http.StatusConflict {
		s.Errorf("%s: a row of another text is taken over: %d", o.Name(), status)
	}
	if s.post("/job/"+o.Name()+"/undo", nil); !bytes.Equal(o.State().Text, before) {
		s.Errorf("%s: one step back is not the job before", o.Name())
	}
}

// An edit ends what is being laid of the text before, which is told to be old; so does Cancel,
// and so it is where nobody looks.
func TestRunsEnd(t *testing.T) {
	text := testjobs.PiecedSkirt(60, "sold_by = \"1/8 in\"\n", 4, 26, 120, "") // nothing about it is soon proved
	src := []byte(strings.Replace(text, "pieced = {}\n", "", 1))
	for name, end := range map[string]func(s *site, o *opened){
		"edit": func(s *site, o *opened) {
			now := o.State()
			s.post("/job/long.toml/text/set", url.Values{"version": {strconv.Itoa(now.Version)},
				"text": {strings.Replace(string(now.Text), "length = 26", "length = 27", 1)}})
		},
		"cancel": func(s *site, _ *opened) { s.post("/job/long.toml/compare/rows/stop", nil) },
		"leave":  func(*site, *opened) {},
	} {
		s := newSite(t)
		s.server.options.Idle = 100 * time.Millisecond
		o := s.put("long.toml", src)
		leave := func() {}
		if name != "leave" {
			leave = o.pages.listens()
		}
		key := o.State().File.Variable()[0]
		id, _, _ := strings.Cut(key, ".")
		form := url.Values{"key": {"panels.width"}, "values": {"54, 55, 56, 57, 58, 59"}}
		form.Set("key", o.State().File.Job().Cloths[0].ID+".width")
		if status, text := s.post("/job/long.toml/compare/rows", form); status != 200 {
			t.Fatalf("%s %s: %d\n%s", name, id, status, text)
		}
		end(s, o)
		began := processor.Time()
		now := s.done(o, compareRun)
		took := processor.Time() - began
		if !now.Ended || now.Old != (name == "edit") || processor.Exceeds(took, 20*time.Second) {
			t.Errorf("%s: ended %v, old %v, after %v", name, now.Ended, now.Old, took)
		}
		leave()
	}
}

// Every way to print makes the files of the command; nothing is written into the folder, and
// what cannot be is said beside the choice.
func TestPrintsAreThoseOfTheCommand(t *testing.T) {
	quickly(t)
	s := newSite(t)
	o := s.put("small.toml", []byte(testjobs.Small))
	t.Cleanup(o.pages.listens())
	s.settled(o)
	before := s.listing()
	for _, way := range printWays(false) {
		form := url.Values{"way": {way.ID}, "date": {"2026-05-31"}}
		flags := pflag.NewFlagSet("print", pflag.ContinueOnError)
		var options ways.Options
		ways.Flags(flags, &options)
		set := func(option, value string) {
			if err := flags.Set(option, value); err != nil {
				t.Fatal(err)
			}
		}
		set("date", "2026-05-31")
		for _, option := range way.Sets {
			set(option, "true")
		}
		for _, c := range way.Choices {
			switch {
			case c.Tick && c.Option != "halves":
				form.Add(c.Option, "true")
				set(c.Option, "true")
			case !c.Tick && c.Usual != "":
				form.Set(c.Option, c.Usual)
				set(c.Option, c.Usual)
			}
		}
		if way.ID == "roll" { // a marker holds every copy
			form.Del("every-copy")
			set("every-copy", "false")
		}
		if status, text := s.post("/job/small.toml/print/make", form); status != 200 {
			t.Fatalf("%s: %d\n%s", way.ID, status, text)
		}
		if err := options.Ready(); err != nil {
			t.Fatal(err)
		}
		date, err := options.Day()
		if err != nil {
			t.Fatal(err)
		}
		p, err := ways.New(o.State().File, planned(o.State().File, usual), options, date, nil)
		if err != nil {
			t.Fatal(err)
		}
		want, err := p.Make(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		now := s.done(o, printRun)
		_, page := s.get("/job/small.toml/print/made")
		s.says(way.ID, words(page), append(want.Lines, want.Notes...)...)
		s.downloads(way.ID, now.Number, want)
	}
	if after := s.listing(); !slices.Equal(before, after) {
		t.Errorf("the folder had %v, and has %v", before, after)
	}
	for _, wrong := range []struct{ way, option, value, said string }{
		{"roll", "roll", "1 in", "wrong-roll-roll"}, {"sheets", "margin", "20 in", "wrong-sheets-margin"},
		{"projector", "projector", "48", "wrong-projector-projector"}, {"book", "date", "today", "wrong-date"},
		{"sheets", "cloth", "<b>velvet", "wrong-sheets"}, {"dxf", "halves", "perhaps", "wrong-dxf-halves"},
	} {
		form := url.Values{"way": {wrong.way}, wrong.option: {wrong.value}}
		if wrong.way == "sheets" {
			form.Set("sheets", "a4")
		}
		status, text := s.post("/job/small.toml/print/make", form)
		if status != http.StatusUnprocessableEntity || !strings.Contains(text, `id="`+wrong.said+`"`) ||
			strings.Contains(text, "<b>") {
			t.Errorf("%s %s: %d\n%s", wrong.option, wrong.value, status, text)
		}
	}
}

// downloads holds the files of a print against those of the command, and their zip.
func (s *site) downloads(way string, run int, want ways.Made) {
	s.Helper()
	at := "/job/small.toml/print/made/" + strconv.Itoa(run) + "/"
	of := map[string][]byte{}
	for _, set := range want.Files {
		for _, f := range set {
			of[f.Name] = f.Data
			answer, err := s.browser.Get(s.URL + at + f.Name)
			if err != nil {
				s.Fatal(err)
			}
			got, err := io.ReadAll(answer.Body)
			answer.Body.Close()
			if err != nil || answer.StatusCode != 200 || !bytes.Equal(got, f.Data) {
				s.Errorf("%s: %s differs (%d, %v)", way, f.Name, answer.StatusCode, err)
			}
			if h := answer.Header; h.Get("Content-Type") != kinds[filepath.Ext(f.Name)] ||
				h.Get("Content-Disposition") != "attachment; filename="+f.Name {
				s.Errorf("%s: %s comes as %v", way, f.Name, h)
			}
		}
	}
	status, text := s.get(at + "all/zip")
	z, err := zip.NewReader(strings.NewReader(text), int64(len(text)))
	if status != 200 || err != nil || len(z.File) != len(of) {
		s.Fatalf("%s: the zip: %d, %v", way, status, err)
	}
	for _, f := range z.File {
		in, err := f.Open()
		if err != nil {
			s.Fatal(err)
		}
		got, err := io.ReadAll(in)
		if err != nil || !bytes.Equal(got, of[f.Name]) {
			s.Errorf("%s: %s in the zip differs: %v", way, f.Name, err)
		}
	}
}

// listing lists the folder of the jobs, and what lies below it.
func (s *site) listing() (names []string) {
	err := filepath.WalkDir(s.dir, func(path string, _ os.DirEntry, err error) error {
		names = append(names, path)
		return err
	})
	if err != nil {
		s.Fatal(err)
	}
	return names
}
