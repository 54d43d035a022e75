package page

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"io/fs"
	"maps"
	"net/http"
	"path"
	"slices"
	"strings"
	"sync"
	"time"

	"yardlay/cmd/yardlay/internal/sheet"
)

// staticPath is where what never changes while the program runs is served.
const staticPath = "/static/"

//go:embed static
var staticFiles embed.FS

// staticMark changes with any of the files, so that browsers can keep them.
var staticMark = sync.OnceValue(func() string {
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
	for _, name := range slices.Sorted(maps.Keys(made)) {
		h.Write(made[name])
	}
	return hex.EncodeToString(h.Sum(nil)[:8])
})

// made are files that other rooms make.
var made = map[string][]byte{
	"drawing.css": sheet.PageStyle(sheet.ThemeTinted),
	"zoom.js":     []byte(sheet.Zoom + "\nexport { zoomable };\n"),
}

func staticURL(name string) string { return staticPath + staticMark() + "/" + name }

// static serves the files; a browser asks for each once.
func static() http.Handler {
	files, err := fs.Sub(staticFiles, "static")
	if err != nil {
		panic(err)
	}
	serve := http.StripPrefix(staticPath+staticMark()+"/", http.FileServerFS(files))
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasSuffix(r.URL.Path, "/") { // no list of them
			http.NotFound(w, r)
			return
		}
		w.Header().Set("Cache-Control", "private, max-age=31536000, immutable")
		if text, ok := made[strings.TrimPrefix(r.URL.Path, staticPath+staticMark()+"/")]; ok {
			http.ServeContent(w, r, path.Base(r.URL.Path), time.Time{}, bytes.NewReader(text))
			return
		}
		serve.ServeHTTP(w, r)
	})
}
