package page

import (
	"compress/gzip"
	"net/http"
	"slices"
	"strings"
	"sync"
)

// packed are the kinds of answers that are sent compressed; streams are not, each of
// their events goes out at once.
var packed = []string{"text/html", "text/css", "text/plain", "text/javascript", "image/svg+xml", "application/json"}

var zips = sync.Pool{New: func() any {
	z, err := gzip.NewWriterLevel(nil, gzip.BestSpeed)
	if err != nil {
		panic(err) // the level is one
	}
	return z
}}

// compressed sends answers compressed to browsers that take them so.
func compressed(inner http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") || r.Method == http.MethodHead {
			inner.ServeHTTP(w, r)
			return
		}
		z := &zipWriter{ResponseWriter: w}
		defer z.close()
		inner.ServeHTTP(z, r)
	})
}

// zipWriter compresses what is written, once its kind is known to be worth it.
type zipWriter struct {
	http.ResponseWriter
	begun bool
	zip   *gzip.Writer // nil: written as it is
}

// Unwrap lets a ResponseController reach the connection.
func (z *zipWriter) Unwrap() http.ResponseWriter { return z.ResponseWriter }

func (z *zipWriter) WriteHeader(status int) {
	z.begin(status)
	z.ResponseWriter.WriteHeader(status)
}

func (z *zipWriter) begin(status int) {
	if z.begun || status < http.StatusOK {
		return
	}
	z.begun = true
	h := z.Header()
	kind, _, _ := strings.Cut(h.Get("Content-Type"), ";")
	if status == http.StatusNoContent || status == http.StatusNotModified || status == http.StatusPartialContent ||
		h.Get("Content-Encoding") != "" || !slices.Contains(packed, kind) {
		return
	}
	h.Set("Content-Encoding", "gzip")
	h.Add("Vary", "Accept-Encoding")
	h.Del("Content-Length")
	z.zip = zips.Get().(*gzip.Writer)
	z.zip.Reset(z.ResponseWriter)
}

func (z *zipWriter) Write(p []byte) (int, error) {
	if !z.begun {
		if z.Header().Get("Content-Type") == "" {
			z.Header().Set("Content-Type", http.DetectContentType(p))
		}
		z.begin(http.StatusOK)
	}
	if z.zip == nil {
		return z.ResponseWriter.Write(p)
	}
	return z.zip.Write(p)
}

func (z *zipWriter) close() {
	if z.zip == nil {
		return
	}
	z.zip.Close()
	zips.Put(z.zip)
	z.zip = nil
}
