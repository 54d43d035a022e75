package page

import (
	"errors"
	"net/http"
	"strings"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/say"
)

// answer answers a request, or says why it can't.
type answer func(w http.ResponseWriter, r *http.Request) error

// refusal is an error that is not the program's: its status says whose.
type refusal struct {
	status int
	error
}

func (e *refusal) Unwrap() error { return e.error }

func notFound(what string) error {
	return &refusal{http.StatusNotFound, say.Errorf("%s", what).Hint("the list of jobs leads on")}
}

// invalid is the refusal of what somebody entered.
func invalid(err error) error { return &refusal{http.StatusUnprocessableEntity, err} }

// statusOf is what an error is answered with.
func statusOf(err error) int {
	var refused *refusal
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &refused):
		return refused.status
	case errors.As(err, &large):
		return http.StatusRequestEntityTooLarge
	}
	return http.StatusInternalServerError
}

// trouble is an error as the page shows it: text, never markup.
type trouble struct{ What, Hint string }

func troubleOf(err error) trouble {
	var all strict.Errors
	var placed *strict.Error
	switch {
	case errors.As(err, &all) && len(all) > 0:
		placed = all[0]
		fallthrough
	case errors.As(err, &placed): // whoever reads it has the one file before them
		return trouble{placed.Where() + ": " + spoken(placed.What), spoken(placed.Hint)}
	}
	what, hint := say.Parts(err, nil)
	return trouble{spoken(what), spoken(hint)}
}

// Word says whether it begins with a word, and not with a name that is written as it is.
func (t trouble) Word() bool {
	first, _, _ := strings.Cut(t.What, " ")
	return !strings.ContainsFunc(first, func(r rune) bool { return r < 'a' || r > 'z' })
}

// handle shows what an answer fails with: within the page where a part of it was asked
// for, else on a page of its own.
func (s *Server) handle(a answer) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		err := a(w, r)
		if err == nil {
			return
		}
		told := troubleOf(err)
		if asksForPart(r) {
			w.Header().Set("HX-Retarget", "#trouble")
			w.Header().Set("HX-Reswap", "innerHTML")
			s.render(w, statusOf(err), "trouble", told)
			return
		}
		title := "That cannot be done"
		if statusOf(err) == http.StatusNotFound {
			title = "Not here"
		}
		s.page(w, statusOf(err), shell{Title: title, Main: "lost", Data: told})
	})
}

// asksForPart says whether a script asks for a part of a page.
func asksForPart(r *http.Request) bool { return r.Header.Get("HX-Request") == "true" }
