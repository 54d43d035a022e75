package page

import (
	"archive/zip"
	"bytes"
	"mime"
	"net/http"
	"path/filepath"
	"time"

	"yardlay/cmd/yardlay/internal/folder"
)

// kinds are what files are, by the ends of their names.
var kinds = map[string]string{
	".pdf": "application/pdf", ".svg": "image/svg+xml", ".dxf": "image/vnd.dxf", ".json": "application/json",
	".html": "text/html; charset=utf-8", ".txt": "text/plain; charset=utf-8", ".zip": "application/zip",
}

// drawingPolicy is that of a drawing in a document of its own, whose looks stand in it.
const drawingPolicy = "default-src 'none'; style-src 'unsafe-inline'"

// picture sends a drawing for the page to show.
func picture(w http.ResponseWriter, svg []byte, err error) error {
	if err != nil {
		return err
	}
	w.Header().Set("Content-Security-Policy", drawingPolicy)
	w.Header().Set("Content-Type", kinds[".svg"])
	_, err = w.Write(svg)
	return err
}

// download sends a file to be kept under its name. It is never shown as a page of ours.
func download(w http.ResponseWriter, f folder.File) error {
	kind := kinds[filepath.Ext(f.Name)]
	if kind == "" {
		kind = "application/octet-stream"
	}
	h := w.Header()
	h.Set("Content-Type", kind)
	h.Set("Content-Security-Policy", "sandbox; "+drawingPolicy)
	h.Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": f.Name}))
	_, err := w.Write(f.Data)
	return err
}

// zipped puts files into one, in their order, with the same bytes for the same files.
func zipped(name string, files []folder.File, date time.Time) (folder.File, error) {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, f := range files {
		head := &zip.FileHeader{Name: f.Name, Method: zip.Deflate, Modified: date}
		if filepath.Ext(f.Name) == ".pdf" {
			head.Method = zip.Store // packed already
		}
		w, err := z.CreateHeader(head)
		if err == nil {
			_, err = w.Write(f.Data)
		}
		if err != nil {
			return folder.File{}, err
		}
	}
	err := z.Close()
	return folder.File{Name: name, Data: out.Bytes()}, err
}
