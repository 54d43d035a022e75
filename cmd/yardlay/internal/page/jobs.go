package page

import (
	"io"
	"io/fs"
	"net/http"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"yardlay/cmd/yardlay/internal/document"
	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/say"
)

// mostListed is how many jobs of a folder are listed, the newest first.
const mostListed = 500

// mostTitled is how many bytes of each are read to find its title, which stands at the
// beginning.
const mostTitled = 4 << 10

// listed is a job in the list.
type listed struct {
	Name, Title string
	At          time.Time
}

// When is when it was changed last.
func (l listed) When() string { return l.At.Format("2 January 2006, 15:04") }

// jobList is what the page of jobs shows.
type jobList struct {
	Folder string
	Jobs   []listed
	More   int
}

// showJobs lists the jobs of the folder.
func (s *Server) showJobs(w http.ResponseWriter, _ *http.Request) error {
	list, err := s.jobs()
	if err != nil {
		return err
	}
	s.page(w, http.StatusOK, shell{Title: "Jobs", Main: "jobs", Data: list})
	return nil
}

func (s *Server) jobs() (jobList, error) {
	entries, err := fs.ReadDir(s.folder.FS(), ".")
	if err != nil {
		return jobList{}, say.Errorf("cannot list the jobs: %w", err)
	}
	list := jobList{Folder: s.folder.Name()}
	if full, err := filepath.Abs(list.Folder); err == nil {
		list.Folder = full
	}
	for _, e := range entries {
		if !IsJobName(e.Name()) {
			continue
		}
		info, err := s.folder.Stat(e.Name()) // of the file that a link stands for, within the folder
		if err == nil && info.Mode().IsRegular() {
			list.Jobs = append(list.Jobs, listed{Name: e.Name(), At: info.ModTime()})
		}
	}
	slices.SortStableFunc(list.Jobs, func(a, b listed) int { return b.At.Compare(a.At) })
	if n := len(list.Jobs); n > mostListed {
		list.Jobs, list.More = list.Jobs[:mostListed], n-mostListed
	}
	for i := range list.Jobs {
		list.Jobs[i].Title = s.title(list.Jobs[i].Name)
	}
	return list, nil
}

// title reads the title of a job; its name where it has none.
func (s *Server) title(name string) string {
	file, err := s.folder.Open(name)
	if err != nil {
		return name
	}
	defer file.Close()
	text, err := io.ReadAll(io.LimitReader(file, mostTitled))
	if title := job.TitleOf(text); err == nil && title != "" {
		return title
	}
	return name
}

// newJob writes a job to start from, and shows it.
func (s *Server) newJob(w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	name, err := jobNamed(r.PostForm.Get("name"))
	if err != nil {
		return err
	}
	called := strings.TrimSuffix(strings.TrimSpace(r.PostForm.Get("name")), suffix)
	text, err := edit.Set(job.Starter(), edit.Of("title"), edit.Text(called))
	if err == nil {
		err = document.Create(s.folder, name, text)
	}
	if err != nil {
		return invalid(err)
	}
	http.Redirect(w, r, jobPath(name), http.StatusSeeOther)
	return nil
}
