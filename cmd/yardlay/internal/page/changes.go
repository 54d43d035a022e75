package page

import (
	"errors"
	"net/http"
	"path/filepath"
	"strings"

	"yardlay/cmd/yardlay/internal/document"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/say"
)

// bar is what stands above every view of a job: where one is, and the text and its
// file.
type bar struct {
	Name, Title string
	Version     int
	Tabs        []tab
	State       document.State
	Wrong       int // errors of the text
}

// bar makes the bar of a job on one of its views.
func (s *Server) bar(o *opened, here string) *bar {
	now := o.State()
	b := &bar{Name: o.Name(), Title: o.Name(), Version: now.Version, Tabs: s.tabs(o.Name(), here), State: now,
		Wrong: len(now.Errors)}
	if title := job.TitleOf(now.Text); title != "" {
		b.Title = title
	}
	return b
}

// Changed and Gone say what became of the file.
func (b *bar) Changed() bool { return b.State.Disk == document.Changed }

// Gone says that the file was removed.
func (b *bar) Gone() bool { return b.State.Disk == document.Gone }

// Found is when edits were kept that were never saved; "" for none.
func (b *bar) Found() string {
	if b.State.Found.IsZero() {
		return ""
	}
	return b.State.Found.Format("2 January, 15:04")
}

// changes are what the bar does to a job, by their paths.
func changes() map[string]func(o *opened, r *http.Request) error {
	return map[string]func(o *opened, r *http.Request) error{
		"undo": func(o *opened, _ *http.Request) error { o.Undo(); return nil },
		"redo": func(o *opened, _ *http.Request) error { o.Redo(); return nil },
		"save": func(o *opened, _ *http.Request) error {
			_, err := o.Save()
			if errors.Is(err, document.ErrChangedOnDisk) {
				return nil // the bar asks what to do
			}
			return err
		},
		"mine":   func(o *opened, _ *http.Request) error { _, err := o.KeepMine(); return err },
		"theirs": func(o *opened, _ *http.Request) error { _, err := o.TakeTheirs(); return err },
		"bar":    func(*opened, *http.Request) error { return nil },
	}
}

// saveAs saves a job under another name, and leads there.
func (s *Server) saveAs(w http.ResponseWriter, r *http.Request) error {
	o, err := s.opened(r)
	if err != nil {
		return err
	}
	if err := r.ParseForm(); err != nil {
		return err
	}
	name, err := jobNamed(r.PostForm.Get("name"))
	if err != nil {
		return err
	}
	if err := o.SaveAs(name); err != nil {
		return invalid(err)
	}
	if err := o.hand.copyTo(name); err != nil {
		return err
	}
	goTo(w, r, jobPath(name))
	return nil
}

// goTo leads to another page.
func goTo(w http.ResponseWriter, r *http.Request, path string) {
	if asksForPart(r) {
		w.Header().Set("HX-Redirect", path)
		return
	}
	http.Redirect(w, r, path, http.StatusSeeOther)
}

// changing makes a change and shows the bar as it is then.
func (s *Server) changing(change func(o *opened, r *http.Request) error) answer {
	return func(w http.ResponseWriter, r *http.Request) error {
		o, err := s.opened(r)
		if err != nil {
			return err
		}
		if err := change(o, r); err != nil {
			return err
		}
		if !asksForPart(r) { // without script
			http.Redirect(w, r, jobPath(o.Name()), http.StatusSeeOther)
			return nil
		}
		s.render(w, http.StatusOK, "bar", s.bar(o, ""))
		return nil
	}
}

// jobNamed makes the name of a file of what somebody calls a job.
func jobNamed(called string) (string, error) {
	name := strings.TrimSpace(called)
	if name != "" && !strings.EqualFold(filepath.Ext(name), suffix) {
		name += suffix
	}
	const longest = 100
	if !IsJobName(name) || len(name) > longest || strings.ContainsAny(name, "<>:\"|?*\x00\n\r\t") {
		return "", invalid(say.Errorf("a job cannot be called %q", called).
			Hint("letters, digits and - will do, as in moth-lane-gown"))
	}
	return name, nil
}
