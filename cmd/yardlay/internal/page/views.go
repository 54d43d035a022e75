package page

import (
	"net/http"
	"strings"
)

// view is one place of an open job on the page: a file view_NAME.go, and its template
// in templates/NAME.html.
type view struct {
	path, name string // in the address, and in words
	template   string

	// show makes what the template is filled in with.
	show func(o *opened, r *http.Request) (any, error)

	// answers are what else the view is asked, by method and path below its own:
	// "POST /set". What they fail with is shown on the page.
	answers map[string]answerOf
}

// answerOf answers a request about an open job.
type answerOf func(o *opened, w http.ResponseWriter, r *http.Request) error

// views lists the places of an open job in the order of the page, the first one shown
// first.
func views() []view {
	return []view{measuresView(), clothsView(), compareView(), quoteView(), buyView(), sewView(), printView(),
		textView()}
}

// tab is a view as the navigation shows it.
type tab struct {
	Path, Name string
	Here       bool
}

// tabs lists the views of a job; here is the path of the one that is shown.
func (s *Server) tabs(job, here string) []tab {
	var list []tab
	for _, v := range s.views {
		list = append(list, tab{Path: jobPath(job, v.path), Name: v.name, Here: v.path == here})
	}
	return list
}

// showing shows a view of the job that the address names: within the whole page, or
// alone where a script asks.
func (s *Server) showing(v view) answer {
	return func(w http.ResponseWriter, r *http.Request) error {
		o, err := s.opened(r)
		if err != nil {
			return err
		}
		data, err := v.show(o, r)
		if err != nil {
			return err
		}
		if asksForPart(r) {
			s.render(w, http.StatusOK, v.template, data)
			return nil
		}
		b := s.bar(o, v.path)
		s.page(w, http.StatusOK, shell{Title: v.name + ": " + b.Title, Job: b, Main: v.template, Data: data})
		return nil
	}
}

func (s *Server) answering(a answerOf) answer {
	return func(w http.ResponseWriter, r *http.Request) error {
		o, err := s.opened(r)
		if err != nil {
			return err
		}
		return a(o, w, r)
	}
}

// showFirst leads to the first view of a job.
func (s *Server) showFirst(w http.ResponseWriter, r *http.Request) error {
	o, err := s.opened(r)
	if err != nil {
		return err
	}
	http.Redirect(w, r, jobPath(o.Name(), s.views[0].path), http.StatusSeeOther)
	return nil
}

// cutMethod takes "POST /set" apart.
func cutMethod(pattern string) (method, path string, ok bool) { return strings.Cut(pattern, " ") }
