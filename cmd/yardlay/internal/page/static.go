package page

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"io/fs"
	"net/http"
	"strings"
)

// staticPath is where what never changes while the program runs is served.
const staticPath = "/static/"

//go:embed static
var staticFiles embed.FS

// staticMark changes with any of the files, so that browsers can keep them.
var staticMark = func() string {
	h := sha256.New()
	err := fs.WalkDir(staticFiles, "static", func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		text, err := staticFiles.ReadFile(path)
		h.Write(text)
		return err
	})
	if err != nil {
		panic(err) // they are part of the program
	}
	return hex.EncodeToString(h.Sum(nil)[:8])
}()

func staticURL(name string) string { return staticPath + staticMark + "/" + name }

// static serves the files; a browser asks for each once.
func static() http.Handler {
	files, err := fs.Sub(staticFiles, "static")
	if err != nil {
		panic(err)
	}
	serve := http.StripPrefix(staticPath+staticMark+"/", http.FileServerFS(files))
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasSuffix(r.URL.Path, "/") { // no list of them
			http.NotFound(w, r)
			return
		}
		w.Header().Set("Cache-Control", "private, max-age=31536000, immutable")
		serve.ServeHTTP(w, r)
	})
}
