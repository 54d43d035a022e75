package page

import (
	"fmt"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/live"
)

// A change that makes other pieces takes the cloth out of the hand: else what is drawn is one layout, and the
// figures beside it are of another. Undone, the cloth is in hand as before, steps and all; taken up anew, nothing
// is pinned that was laid elsewhere.
func TestAChangeWhileInHand(t *testing.T) {
	quickly(t)
	s := newSite(t)
	now := s.takes()
	p := now.Stretches[0][0].Now
	p.At[0] += 7000 // behind all others
	now = s.puts(now, 0, p)
	put := now.Stretches[0][0].Now
	longest := func(state live.Snapshot) float64 { return state.Cloths[0].Picture.Cloth().Used }
	s.until("the longer marker", func(state live.Snapshot) bool { return state.Final && longest(state) > 7000 })
	s.set(waist("31"))
	s.until("the new waist", func(state live.Snapshot) bool { return state.Final && longest(state) < 7000 })
	if other := s.asks("", nil); other.Held || !other.Other || len(other.Stretches) > 0 {
		t.Errorf("laid anew by the search it is told %+v", other)
	}
	if _, status, text := s.hand("put", url.Values{"version": {fmt.Sprint(now.Version)}}); status != http.StatusConflict {
		t.Errorf("a piece that is not cut any more is put: %d\n%s", status, text)
	}
	s.post("/job/gown.toml/undo", nil)
	s.until("the old waist", func(state live.Snapshot) bool { return state.Final && longest(state) > 7000 })
	again := s.asks("", nil)
	if !again.Held || again.Other || !again.Back || again.Stretches[0][0].Now != put {
		t.Errorf("undone, it is not in hand as before: %+v", again)
	}
	s.set(waist("31"))
	s.until("the new waist", func(state live.Snapshot) bool { return state.Final && longest(state) < 7000 })
	for _, one := range s.asks("take", nil).Stretches[0] {
		if one.Pinned {
			t.Errorf("%s is pinned where nobody laid it", one.Name)
		}
	}
}

// The words and figures of a cloth in hand are of the layout as it is; saved under another name, the job keeps it.
func TestWordsOfWhatAHandLaid(t *testing.T) {
	quickly(t)
	s := newSite(t)
	now := s.takes()
	p := now.Stretches[0][0].Now
	p.At[0] += 7000 // behind all others
	s.puts(now, 0, p)
	s.until("the longer marker", func(state live.Snapshot) bool {
		return state.Final && state.Cloths[0].Picture.Cloth().Used > 7000
	})
	_, text := s.get("/job/gown.toml/cloths")
	text, _, _ = strings.Cut(text, `id="cloth-1"`)
	for _, want := range []string{"All pieces stay where you have them.", "Laid in another way"} {
		if !strings.Contains(text, want) {
			t.Errorf("of a cloth in hand it does not say %q", want)
		}
	}
	for _, bad := range []string{"No marker is under", "nothing around the pins", "pinned pieces"} {
		if strings.Contains(text, bad) {
			t.Errorf("of a cloth in hand with one pin it says %q", bad)
		}
	}
	if _, text = s.get("/job/gown.toml/quote"); !strings.Contains(text, "where you laid them by hand: duchess satin.") {
		t.Error("the quote does not say that it counts what a hand laid")
	}
	form := url.Values{"way": {"roll"}, "roll": {"36 in"}, "markers": {"true"}, "cloth": {"satin"}}
	if status, text := s.post("/job/gown.toml/print/make", form); status != http.StatusOK {
		t.Fatalf("printed: %d\n%s", status, text)
	}
	run := s.done(s.server.open["gown.toml"], printRun)
	paper := 0.0 // pt, of two bands
	for _, f := range printedOf(s.server.open["gown.toml"]).Files {
		_, pdf := s.get(fmt.Sprintf("/job/gown.toml/print/made/%d/%s", run.Number, f.Name))
		for _, box := range regexp.MustCompile(`/MediaBox ?\[0 0 ([0-9.]+) ([0-9.]+)\]`).FindAllStringSubmatch(pdf, -1) {
			pt := 0.0
			for _, side := range box[1:] {
				one, _ := strconv.ParseFloat(side, 64)
				pt = max(pt, one)
			}
			paper += pt
		}
	}
	if mm := paper * 25.4 / 72; mm < 2*7000 {
		t.Errorf("the marker of one cloth alone takes %.0f mm of paper, and was laid by hand over 7000", mm)
	}
	s.post("/job/gown.toml/save-as", url.Values{"name": {"other"}})
	theirs, err := os.ReadFile(filepath.Join(s.dir, "other.layout.json"))
	if err != nil || string(theirs) != string(s.onDisk().Encode()) {
		t.Errorf("saved under another name it has the layout %q, %v", theirs, err)
	}
}

// On a fold a piece lies once and is cut twice: with all of them where a hand has them, none is left to be laid.
func TestAllPiecesOfAFoldInHand(t *testing.T) {
	quickly(t)
	s := newSite(t)
	s.get("/job/gown.toml/cloths")
	s.set(func(text string) string {
		text = strings.Replace(text, `width    = "58"`, `width    = "90"`, 1)
		return strings.Replace(text, `nap      = "one-way"`, `nap      = "two-way"`+"\n"+`lay      = "lengthwise-fold"`, 1)
	})
	s.takes()
	end := s.until("an end with all pinned", func(now live.Snapshot) bool {
		return now.Final && now.Cloths[0].Picture.Cloth().Pinned > 0
	})
	if c := end.Cloths[0].Picture.Cloth(); !c.AllPinned() || c.Pinned == c.Pieces {
		t.Errorf("of %d pieces %d lie pinned, and all are: %v", c.Pieces, c.Pinned, c.AllPinned())
	}
}
