package page

import (
	"crypto/subtle"
	"net"
	"net/http"
	"net/url"
	"slices"
	"strings"
)

// enterPath is where the token is handed in, once for each browser: it then has the
// cookie, and no address has the token any more.
const enterPath = "/enter/"

// cookieName tells the servers on one machine apart: cookies do not mind ports.
func cookieName(host string) string {
	_, port, _ := net.SplitHostPort(host)
	return "yardlay-" + port
}

// mostBody is the most that is taken: a job file of the greatest length, as a form
// encodes it.
const mostBody = 4 << 20

// policy lets a page use what this server serves and nothing else; no script or style
// stands within a page.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; " +
	"form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// guarded lets only those through who came by the address that was printed: not the
// pages of others, by whatever name they call this machine.
func (s *Server) guarded(inner http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("X-Frame-Options", "DENY")
		h.Set("Referrer-Policy", "same-origin") // without any, what a form posts has no origin
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		switch {
		case !loopback(r):
			refuse(w, http.StatusMisdirectedRequest, "this page is served to this machine alone, at 127.0.0.1")
		case foreign(r):
			refuse(w, http.StatusForbidden, "another page may not ask for this one")
		case r.Method == http.MethodGet && strings.HasPrefix(r.URL.Path, enterPath):
			s.enter(w, r)
		case !s.known(r):
			refuse(w, http.StatusForbidden, "this page opens by the address that yardlay printed when it started")
		case r.ContentLength > mostBody:
			refuse(w, http.StatusRequestEntityTooLarge, "that is more than a job file takes")
		default:
			r.Body = http.MaxBytesReader(w, r.Body, mostBody)
			inner.ServeHTTP(w, r)
		}
	})
}

// refuse answers in plain text, and reads nothing more. A script of a page that an
// earlier run served shows it where trouble is told.
func refuse(w http.ResponseWriter, status int, why string) {
	w.Header().Set("HX-Retarget", "#trouble")
	w.Header().Set("HX-Reswap", "innerHTML")
	w.Header().Set("Connection", "close")
	http.Error(w, why, status)
}

// loopback says whether a request was sent to this machine by a name of the loopback
// interface, on the port that it came in by, and from there: another name that
// resolves to it is that of a page elsewhere.
func loopback(r *http.Request) bool {
	name, _, err := net.SplitHostPort(r.Host)
	if err != nil || !slices.Contains([]string{"127.0.0.1", "localhost", "::1"}, name) {
		return false
	}
	if at, ok := r.Context().Value(http.LocalAddrContextKey).(*net.TCPAddr); ok {
		_, port, _ := net.SplitHostPort(r.Host)
		_, mine, _ := net.SplitHostPort(at.String())
		if port != mine || !at.IP.IsLoopback() {
			return false
		}
	}
	from, _, err := net.SplitHostPort(r.RemoteAddr)
	return err == nil && net.ParseIP(from).IsLoopback()
}

// foreign says whether a page of another origin asks. What changes something has to
// say where it comes from, as all browsers do.
func foreign(r *http.Request) bool {
	switch r.Header.Get("Sec-Fetch-Site") {
	case "", "same-origin", "none":
	default:
		return true
	}
	origin := r.Header.Get("Origin")
	if origin == "" {
		return r.Method != http.MethodGet && r.Method != http.MethodHead
	}
	from, err := url.Parse(origin)
	return err != nil || from.Scheme != "http" || from.Host != r.Host
}

// known says whether the browser was let in.
func (s *Server) known(r *http.Request) bool {
	return slices.ContainsFunc(r.CookiesNamed(cookieName(r.Host)),
		func(c *http.Cookie) bool { return s.isToken(c.Value) })
}

func (s *Server) isToken(token string) bool {
	return subtle.ConstantTimeCompare([]byte(token), []byte(s.token)) == 1
}

// isTicket says whether a word is the one that lets one browser in, and then it does
// no more.
func (s *Server) isTicket(word string) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.ticket == "" || subtle.ConstantTimeCompare([]byte(word), []byte(s.ticket)) != 1 {
		return false
	}
	s.ticket = ""
	return true
}

// enter lets a browser in that has the token, and leads to the first page.
func (s *Server) enter(w http.ResponseWriter, r *http.Request) {
	if word := strings.TrimPrefix(r.URL.Path, enterPath); !s.isToken(word) && !s.isTicket(word) {
		refuse(w, http.StatusForbidden, "this page opens by the address that yardlay printed when it started")
		return
	}
	http.SetCookie(w, &http.Cookie{Name: cookieName(r.Host), Value: s.token, Path: "/", HttpOnly: true,
		SameSite: http.SameSiteStrictMode})
	first := "/"
	if s.options.Job != "" {
		first = jobPath(s.options.Job)
	}
	http.Redirect(w, r, first, http.StatusSeeOther)
}
