package page

import (
	"bytes"
	"embed"
	"html/template"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"sync"
)

//go:embed templates/*.html
var templateFiles embed.FS

// templates are read when a page is first asked for: commands that show none start sooner.
var templates = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("").Funcs(formWords).Funcs(template.FuncMap{
		"static": staticURL, "jobPath": jobPath, "trouble": troubleOf,
		"text": strconv.Itoa, "stop": stopOf,
	}).ParseFS(templateFiles, "templates/*.html"))
})

// shell is what stands around what a page shows.
type shell struct {
	Title string
	Job   *bar   // of the open job; nil on pages without one
	Main  string // the template of what the page shows
	Data  any    // that it is filled in with
}

// Shown fills in the template of the page.
func (s shell) Shown() (template.HTML, error) {
	text, err := filled(s.Main, s.Data)
	return template.HTML(text), err
}

// filled fills in a template. Nothing is sent before all of it is there.
func filled(name string, data any) ([]byte, error) {
	var out bytes.Buffer
	err := templates().ExecuteTemplate(&out, name, data)
	return out.Bytes(), err
}

// page sends a whole page.
func (s *Server) page(w http.ResponseWriter, status int, sh shell) { s.render(w, status, "shell", sh) }

// render sends what a template makes.
func (s *Server) render(w http.ResponseWriter, status int, name string, data any) {
	text, err := filled(name, data)
	if err != nil {
		http.Error(w, "the page cannot be made: "+err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	w.Write(text)
}

// jobPath is the address of a job, or of what belongs to it.
func jobPath(name string, below ...string) string {
	return "/job/" + url.PathEscape(name) + strings.Join(append([]string{""}, below...), "/")
}
