package page

import (
	"compress/gzip"
	"io"
	"net/http"
	"strings"
	"testing"
)

// What is sent compressed is what is sent as it is, and a stream goes out as it comes.
func TestAnswersAreSentCompressed(t *testing.T) {
	s := newSite(t)
	for path, kind := range map[string]string{
		"/": "text/html", "/job/gown.toml/text": "text/html", "/job/gown.toml/text/now": "text/plain",
		"/nowhere":            "text/html",
		staticURL("page.css"): "text/css", staticURL("page.js"): "text/javascript", staticURL("icon.svg"): "image/svg+xml",
	} {
		bare, want := s.as(true, "GET", path, "", "Accept-Encoding", "identity")
		answer, sent := s.as(true, "GET", path, "", "Accept-Encoding", "gzip")
		if bare.StatusCode != answer.StatusCode || answer.Header.Get("Content-Encoding") != "gzip" ||
			!strings.HasPrefix(answer.Header.Get("Content-Type"), kind) {
			t.Errorf("%s: %d %v", path, answer.StatusCode, answer.Header)
			continue
		}
		z, err := gzip.NewReader(strings.NewReader(sent))
		if err != nil {
			t.Fatal(err)
		}
		if got, err := io.ReadAll(z); err != nil || string(got) != want {
			t.Errorf("%s: %d bytes, not %d: %v", path, len(got), len(want), err)
		}
	}
	r, err := http.NewRequest("GET", s.URL+"/job/gown.toml/events", nil)
	if err != nil {
		t.Fatal(err)
	}
	stream, err := s.browser.Do(r) // asks for gzip
	if err != nil {
		t.Fatal(err)
	}
	defer stream.Body.Close()
	first := make([]byte, len("retry:"))
	if _, err := io.ReadFull(stream.Body, first); err != nil || string(first) != "retry:" || stream.Uncompressed {
		t.Errorf("a stream begins with %q, compressed: %t, %v", first, stream.Uncompressed, err)
	}
}
