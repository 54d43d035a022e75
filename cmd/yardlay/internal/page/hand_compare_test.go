package page

import (
	"net/url"
	"slices"
	"strings"
	"testing"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/live"
)

// The job as written is compared as a hand laid it, with that length and that cost; so is a row that lays the same.
// A row with another cloth, or other pieces, is laid without, and says so; so do the choices of the quote.
func TestRowsBesideWhatAHandLaid(t *testing.T) {
	quickly(t)
	s := newSite(t)
	if often.ByHand() { // without the lining, which nobody lays by hand
		before, rest, _ := strings.Cut(string(job.Starter()), "[[cloth]]\nid       = \"lining\"")
		_, parts, _ := strings.Cut(rest, "[[part]]")
		s.put("gown.toml", []byte(strings.Replace(before+"[[part]]"+parts, `["satin", "lining"]`, `"satin"`, 1)))
	}
	now := s.takes()
	p := now.Stretches[0][0].Now
	p.At[0] += 7000 // behind all others
	s.puts(now, 0, p)
	end := s.until("the longer marker", func(state live.Snapshot) bool {
		return state.Final && state.Cloths[0].Picture.Cloth().Used > 7000
	})
	o := s.server.open["gown.toml"]
	t.Cleanup(o.pages.listens())
	if _, page := s.get("/job/gown.toml/compare"); !strings.Contains(words(page), "where you laid them by hand") {
		t.Error("it is not said what the rows are set beside")
	}
	seen := end.Report.Cloths[0]
	form := url.Values{"key": {"satin.width", "satin.price"}, "values": {"60", "99/yd"}, "way": {"satin.price=99/yd"}}
	if status, text := s.post("/job/gown.toml/compare/rows", form); status != 200 {
		t.Fatalf("%d\n%s", status, text)
	}
	s.done(o, compareRun)
	_, _, found := o.runOf(compareRun)
	rows := found.(*compare.Result).Rows
	for i, anew := range []bool{false, false, true} {
		c := rows[i].Report.Cloths[0]
		if got := slices.Contains(rows[i].Anew, "satin"); got != anew || anew == (c.Used > 7000) {
			t.Errorf("%s: laid anew %v, %.0f mm long", rows[i].Name, got, c.Used)
		}
		if !anew && (c.Used != seen.Used || c.Bought != seen.Bought || c.Pinned != seen.Pinned) {
			t.Errorf("%s: %.1f mm with %d pinned, and one sees %.1f with %d", rows[i].Name, c.Used, c.Pinned, seen.Used,
				seen.Pinned)
		}
	}
	if rows[0].Cost != end.Report.Total {
		t.Errorf("as written it costs %s, and one sees %s", rows[0].Cost, end.Report.Total)
	}
	_, page := s.get("/job/gown.toml/compare/rows")
	if said := words(page); strings.Count(said, "satin laid anew, not by hand") != 1 {
		t.Errorf("it says %s", said)
	}

	s.post("/job/gown.toml/quote/what-if", nil)
	s.done(o, whatIfRun)
	_, _, found = o.runOf(whatIfRun)
	tried := found.(choicesFound)
	q, err := o.quote(t.Context(), &asLaid{File: end.File, Report: end.Report, Search: end.Search})
	if err != nil {
		t.Fatal(err)
	}
	if tried.quote.Total != q.Total {
		t.Errorf("choices are set beside a total of %s, and one sees %s", tried.quote.Total.Grouped(), q.Total.Grouped())
	}
	for _, c := range tried.Choices.Choices {
		if anew := !strings.HasPrefix(c.Name, "hem"); anew != strings.Contains(c.Note, "satin laid anew") {
			t.Errorf("%s: %q", c.Name, c.Note)
		}
	}
}
