package page

import (
	"bytes"
	"context"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"html"
	"io"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"yardlay/benchmarks/often"
	"yardlay/benchmarks/processor"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/live"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
)

// desk is that of the open job of a site.
func (s *site) desk() *live.Desk {
	s.Helper()
	s.server.mu.Lock()
	defer s.server.mu.Unlock()
	o := s.server.open["gown.toml"]
	if o == nil {
		s.Fatal("gown.toml is not open")
	}
	return o.desk
}

// until waits until the cloths stand as asked for.
func (s *site) until(what string, ok func(live.Snapshot) bool) live.Snapshot {
	s.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), long)
	defer cancel()
	for now := s.desk().Snapshot(); ; {
		if ok(now) {
			return now
		}
		next, err := s.desk().Await(ctx, now.Version)
		if err != nil {
			s.Fatalf("waiting for %s: %v", what, err)
		}
		now = next
	}
}

// seen is the query by which a page says what it shows.
func seen(text string) string {
	var marks url.Values = map[string][]string{}
	for _, m := range regexp.MustCompile(`name="seen" value="([^"]*)"`).FindAllStringSubmatch(text, -1) {
		marks.Add("seen", html.UnescapeString(m[1]))
	}
	return marks.Encode()
}

// set sets the text of the job, as the view of the text does.
func (s *site) set(change func(text string) string) {
	s.Helper()
	s.server.mu.Lock()
	now := s.server.open["gown.toml"].State()
	s.server.mu.Unlock()
	status, text := s.post("/job/gown.toml/text/set", url.Values{"version": {fmt.Sprint(now.Version)},
		"text": {change(string(now.Text))}})
	if status != http.StatusOK {
		s.Fatalf("%d\n%s", status, text)
	}
}

func waist(inches string) func(string) string {
	return func(text string) string {
		return regexp.MustCompile(`waist_girth = "[^"]*"`).ReplaceAllString(text, `waist_girth = "`+inches+`"`)
	}
}

func laid(s live.Snapshot) bool { return s.Final }

// Each cloth is shown with what is to buy, its marker and the list of what is cut; every line of the list
// lights up pieces that are there.
func TestClothsAreShown(t *testing.T) {
	withEffort(t, nest.Normal)
	s := newSite(t)
	s.get("/job/gown.toml/cloths")
	end := s.until("an end", laid)
	_, text := s.get("/job/gown.toml/cloths")
	for _, c := range end.Report.Cloths {
		for _, want := range []string{c.Title, c.ToBuy(), c.Cost + " USD", "Proved minimal"} {
			if !strings.Contains(text, html.EscapeString(want)) {
				t.Errorf("%s: %q is not there", c.ID, want)
			}
		}
	}
	drawn := strings.Join(attributes(text, "data-of"), " ")
	lights := attributes(text, "data-lights")
	if len(lights) != 7 {
		t.Errorf("%d lines of the cut lists", len(lights))
	}
	for _, list := range lights {
		for _, id := range strings.Fields(list) {
			if !slices.Contains(strings.Fields(drawn), id) {
				t.Errorf("%s is in no marker", id)
			}
		}
	}
	if strings.Contains(text, "style=") || strings.Contains(text, "<style") {
		t.Error("there is style within the page, which its policy forbids")
	}
}

func attributes(text, name string) (values []string) {
	for _, m := range regexp.MustCompile(name+`="([^"]*)"`).FindAllStringSubmatch(text, -1) {
		values = append(values, m[1])
	}
	return values
}

// A page gets the markers that are new to it and no others; where the cloths are others, all.
func TestChangedClothsAreSent(t *testing.T) {
	quickly(t)
	s := newSite(t)
	s.get("/job/gown.toml/cloths")
	s.until("an end", laid)
	_, page := s.get("/job/gown.toml/cloths")
	_, same := s.get("/job/gown.toml/cloths/now?" + seen(page))
	if strings.Contains(same, "<svg") || !strings.Contains(same, "cloth-0-figures") {
		t.Errorf("nothing is new:\n%s", same)
	}
	s.set(func(text string) string { return strings.Replace(text, `width    = "45"`, `width    = "54"`, 1) })
	s.until("a broader lining", func(n live.Snapshot) bool {
		return n.Final && n.Cloths[1].Picture.Cloth().Width > 50*25.4
	})
	_, lining := s.get("/job/gown.toml/cloths/now?" + seen(page))
	if strings.Count(lining, "<svg") != 1 || !strings.Contains(lining, `id="cloth-1-view-0"`) {
		t.Errorf("one marker of two is new:\n%s", lining)
	}
	well(t, lining)
	s.set(func(text string) string {
		return strings.Replace(text, `cloth  = ["satin", "lining"]`, `cloth = "satin"`, 1)
	})
	s.until("the satin alone", func(n live.Snapshot) bool { return n.Final && len(n.Cloths) == 1 })
	_, fewer := s.get("/job/gown.toml/cloths/now?" + seen(page))
	if !strings.Contains(fewer, `id="cloths-list"`) || strings.Contains(fewer, "acetate") {
		t.Errorf("the lining is gone:\n%s", fewer)
	}
}

// well checks that what is swapped in is closed where it is opened.
func well(t *testing.T, part string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader("<all>" + strings.ReplaceAll(part, " hidden>", ">") + "</all>"))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	for {
		if _, err := d.Token(); err != nil {
			if err.Error() != "EOF" {
				t.Errorf("%v in\n%s", err, part)
			}
			return
		}
	}
}

// While the text does not hold, and where a cloth is refused, what is shown is called old; why
// stands with the cloth, as text.
func TestOldClothsSayso(t *testing.T) {
	quickly(t)
	s := newSite(t)
	s.get("/job/gown.toml/cloths")
	s.until("an end", laid)
	s.set(waist("27 1/"))
	if _, text := s.get("/job/gown.toml/cloths"); strings.Count(text, ">Old: this is how it lay") != 2 {
		t.Errorf("the text does not hold, and nothing is called old:\n%s", text)
	}
	s.set(waist("28"))
	s.set(func(text string) string {
		text = strings.Replace(text, `title    = "acetate lining"`, `title = "<b>lining</b>"`, 1)
		return strings.Replace(text, `width    = "45"`, `width = "9"`, 1)
	})
	s.until("a refusal", func(n live.Snapshot) bool { return len(n.Cloths) == 2 && n.Cloths[1].State == live.Refused })
	_, text := s.get("/job/gown.toml/cloths")
	for _, want := range []string{"It cannot be laid as you want it", "too wide for &#34;lining&#34;",
		"&lt;b&gt;lining&lt;/b&gt;",
		`<span class="place">Line `} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not there:\n%s", want, text)
		}
	}
	if strings.Contains(text, "<b>") {
		t.Error("a name is taken as markup")
	}
}

// What the page has in the end is, byte for byte, what the command finds with the flags that the page names.
func TestTheCommandFindsTheSame(t *testing.T) {
	quickly(t)
	s := newSite(t)
	if often.ByHand() { // a cloth on which seeds differ, of few pieces
		s.put("gown.toml", []byte(testjobs.Panelled("width = 100\nprice = \"9.00/m\"", [3]float64{60, 41, 3},
			[3]float64{35, 28, 4})))
	}
	s.get("/job/gown.toml/cloths")
	status, text := s.post("/job/gown.toml/cloths/search",
		url.Values{"effort": {"quick"}, "seed": {"7"}, "gowns": {"2"}})
	if want := "yardlay lay gown.toml --effort quick --seed 7 --gowns 2"; status != 200 ||
		!strings.Contains(text, want) {
		t.Errorf("%d, %q is not there:\n%s", status, want, text)
	}
	got := s.until("an end", func(n live.Snapshot) bool { return n.Final && n.Search.Seed == 7 })
	f := s.until("an end", laid).File
	if err := sameAsCommand(f, got, live.Search{Effort: nest.Quick, Seed: 7, Gowns: 2}); err != nil {
		t.Error(err)
	}
	for _, bad := range []url.Values{{"effort": {"soon"}, "seed": {"1"}, "gowns": {"1"}},
		{"effort": {"quick"}, "seed": {"-1"}, "gowns": {"1"}}, {"effort": {"quick"}, "seed": {"1"}, "gowns": {"0"}},
		{"effort": {"quick"}, "seed": {"1"}, "gowns": {"101"}}, {}} {
		if status, _ := s.post("/job/gown.toml/cloths/search", bad); status != http.StatusUnprocessableEntity {
			t.Errorf("%v: %d", bad, status)
		}
	}
}

// first changes the waist and waits for the new first marker as a page does, which hears of the change and asks for
// what is new.
func (s *site) first(inches string) {
	s.Helper()
	_, page := s.get("/job/gown.toml/cloths")
	now := s.desk().Snapshot()
	s.set(waist(inches))
	for was := seen(page); ; {
		_, text := s.get("/job/gown.toml/cloths/now?" + was)
		if strings.Contains(text, "<svg") && !strings.Contains(text, "Old: ") {
			return
		}
		var err error
		if now, err = s.desk().Await(s.Context(), now.Version); err != nil {
			s.Fatal(err)
		}
	}
}

// The first marker after a change of the waist: within half a second for the job to start from, 1.5 s for a
// large one, on a machine with two processors and nothing else to do. What is held is what they can work in that time,
// which takes longer where others work too.
func TestFirstMarkerComesAtOnce(t *testing.T) {
	chorus, err := os.ReadFile("../../../../testdata/chorus-gown.toml")
	if err != nil {
		t.Fatal(err)
	}
	type firstOf struct {
		name string
		src  []byte
		most time.Duration
	}
	all := []firstOf{{"starter", job.Starter(), 500 * time.Millisecond}, {"chorus", chorus, 1500 * time.Millisecond}}
	for _, c := range often.Full(all[:1], all) {
		s := newSite(t)
		if err := os.WriteFile(filepath.Join(s.dir, "gown.toml"), c.src, 0o644); err != nil {
			t.Fatal(err)
		}
		s.get("/job/gown.toml/cloths")
		s.until("a first marker", func(n live.Snapshot) bool { return n.Report != nil })
		waists := []string{"27", "28", "29"} // a search goes on where what shows it has to wait for others
		if worked := processor.Least(2*c.most, func() { s.first(waists[0]); waists = waists[1:] }); processor.Exceeds(
			worked, 2*c.most) {
			t.Errorf("%s: the first marker takes %v of processor time, two processors have %v", c.name, worked, 2*c.most)
		}
		s.desk().Close()
	}
}

// listens opens a stream of the job as a page does, and waits for the first word of it; it lasts until it is left.
func (s *site) listens() (leave func()) {
	s.Helper()
	ctx, shut := context.WithCancel(context.Background())
	s.Cleanup(shut)
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, s.URL+"/job/gown.toml/events", nil)
	if err != nil {
		s.Fatal(err)
	}
	stream, err := s.browser.Do(r)
	if err != nil {
		s.Fatal(err)
	}
	s.Cleanup(func() { stream.Body.Close() })
	if _, err := stream.Body.Read(make([]byte, 64)); err != nil {
		s.Fatal(err)
	}
	go io.Copy(io.Discard, stream.Body)
	return shut
}

// A browser that is closed mid-search stops the search after a while; one that comes back has it go on. As long as one
// is there, the search does not rest, however seldom it comes to ask.
func TestAClosedBrowserStopsTheSearch(t *testing.T) {
	const idle = 50 * time.Millisecond
	s := siteOf(t, Options{Idle: idle})
	s.get("/job/gown.toml/cloths")
	s.set(func(text string) string { return strings.Replace(text, `"one-way"`, `"all-way"`, 1) })
	s.post("/job/gown.toml/cloths/search", url.Values{"effort": {"thorough"}, "seed": {"1"}, "gowns": {"3"}})
	leave := s.listens()
	for range 10 {
		time.Sleep(idle)
		if s.desk().Rests() {
			t.Fatal("the search rests while a browser listens")
		}
	}
	leave()
	for began := time.Now(); !s.desk().Rests(); time.Sleep(5 * time.Millisecond) {
		if time.Since(began) > long {
			t.Fatal("the search goes on for nobody")
		}
	}
	defer s.listens()()
	if s.desk().Rests() {
		t.Error("the search rests though somebody is back")
	}
}

// sameAsCommand compares the report of a snapshot with that of the command.
func sameAsCommand(f *job.File, got live.Snapshot, s live.Search) error {
	o := plan.Options{Effort: s.Effort, Seed: s.Seed, Gowns: s.Gowns, Unit: f.Job().Unit}
	want, err := report.Run(context.Background(), f.Job(), o)
	if err != nil {
		return err
	}
	a, _ := json.Marshal(want)
	b, _ := json.Marshal(got.Report)
	if !bytes.Equal(a, b) {
		return fmt.Errorf("the command finds\n%s\nthe page\n%s", a, b)
	}
	return nil
}

// What a cloth refuses stands in the form at what it is about, as soon as the text is set.
func TestTheFormShowsWhatClothsRefuse(t *testing.T) {
	quickly(t)
	s := newSite(t)
	s.get("/job/gown.toml/measures")
	s.until("an end", laid)
	s.set(func(text string) string { return strings.Replace(text, `width    = "45"`, `width = "9"`, 1) })
	for range 20 { // a machine that does much else drafts later than the form waits
		if _, text := s.get("/job/gown.toml/measures"); strings.Contains(text, "too wide for <code>lining</code>") {
			return
		}
	}
	t.Error("the form does not say that a piece is too wide for the lining")
}
