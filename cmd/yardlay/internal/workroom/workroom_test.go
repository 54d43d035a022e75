package workroom

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/job"
)

const book = `# what we have
unit = "in" # inches

[[cloth]]
id    = "net"   # by the bolt
width = "60"
`

// roomWith makes a folder with a book.
func roomWith(t *testing.T, src string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), job.WorkroomFile)
	if err := os.WriteFile(path, []byte(src), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// addGown notes a job in the book.
func addGown(ctx context.Context, path, name string) error {
	return Change(ctx, path, func(src []byte, _ *job.Workroom) ([]byte, error) {
		return edit.Append(src, edit.Of("gown"), edit.Item{Table: true,
			Fields: []edit.Field{{Key: "job", Value: edit.Text(name)}, {Key: "ordered", Value: edit.TOML("2026-11-29")}}})
	})
}

func read(t *testing.T, path string) (string, *job.Workroom) {
	t.Helper()
	src, w, err := Read(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(src), w
}

func TestFind(t *testing.T) {
	path := roomWith(t, book)
	if got, ok := Find(filepath.Join(filepath.Dir(path), "pier.toml")); got != path || !ok {
		t.Errorf("%s, %v", got, ok)
	}
	if _, ok := Find(filepath.Join(t.TempDir(), "pier.toml")); ok {
		t.Error("a folder without a book is a workroom")
	}
}

// A change leaves all else as it was written, and nothing in the folder but the book.
func TestAChangeKeepsWhatIsWritten(t *testing.T) {
	path := roomWith(t, book)
	if err := addGown(context.Background(), path, "pier.toml"); err != nil {
		t.Fatal(err)
	}
	src, w := read(t, path)
	if !strings.HasPrefix(src, strings.TrimRight(book, "\n")) || len(w.Gowns) != 1 {
		t.Errorf("%s", src)
	}
	only(t, path)
}

// only checks that a folder holds the book alone.
func only(t *testing.T, path string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(path))
	if err != nil || len(entries) != 1 || entries[0].Name() != job.WorkroomFile {
		t.Errorf("the folder holds %v, %v", entries, err)
	}
}

// What cannot be done leaves the book as it was: a change that fails, one that does not hold, a run that has ended, a
// folder that takes no files.
func TestWhatFailsChangesNothing(t *testing.T) {
	path := roomWith(t, book)
	ctx, cancel := context.WithCancel(context.Background())
	no := errors.New("no")
	for name, do := range map[string]func([]byte, *job.Workroom) ([]byte, error){
		"it fails": func([]byte, *job.Workroom) ([]byte, error) { return nil, no },
		"no key":   func(src []byte, _ *job.Workroom) ([]byte, error) { return append(src, "nothing = 3\n"...), nil },
		"no TOML":  func(src []byte, _ *job.Workroom) ([]byte, error) { return append(src, "nothing"...), nil },
		"the run ended": func(src []byte, _ *job.Workroom) ([]byte, error) {
			cancel()
			return append(src, "# end\n"...), nil
		},
	} {
		err := Change(ctx, path, do)
		if err == nil {
			t.Errorf("%s: it is done", name)
		}
		if ctx.Err() != nil {
			ctx, cancel = context.WithCancel(context.Background())
		}
		if src, _ := read(t, path); src != book {
			t.Errorf("%s: %s", name, src)
		}
		only(t, path)
	}
	cancel()
	if err := Create(context.Background(), path, []byte(book)); err == nil {
		t.Error("a book is written over")
	}
	gone := filepath.Join(t.TempDir(), "nowhere", job.WorkroomFile)
	if err := addGown(context.Background(), gone, "pier.toml"); err == nil {
		t.Error("a book is made where there is no folder")
	}
	if os.Geteuid() == 0 {
		return // writes anywhere
	}
	if err := os.Chmod(filepath.Dir(path), 0o555); err != nil {
		t.Fatal(err)
	}
	if err := addGown(context.Background(), path, "pier.toml"); err == nil {
		t.Error("a folder that takes no files takes one")
	}
}

// Who finds another writing waits for it, as long as the run lasts.
func TestOneWriterAtATime(t *testing.T) {
	path := roomWith(t, book)
	ctx, cancel := context.WithTimeout(context.Background(), 50*time.Millisecond)
	defer cancel()
	err := Change(context.Background(), path, func(src []byte, _ *job.Workroom) ([]byte, error) {
		if err := addGown(ctx, path, "pier.toml"); err == nil || !strings.Contains(err.Error(), "another run is writing") {
			t.Errorf("two at once: %v", err)
		}
		return src, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	only(t, path)
}

// writes names a book that a process of this test writes gowns into, and what they are called.
const writes, called = "WORKROOM_TEST_WRITES", "WORKROOM_TEST_CALLED"

func TestMain(m *testing.M) {
	if path := os.Getenv(writes); path != "" {
		for i := 0; ; i++ {
			name := fmt.Sprintf("%s-%d.toml", os.Getenv(called), i)
			if err := addGown(context.Background(), path, name); err != nil {
				fmt.Println(err)
				os.Exit(1)
			}
			fmt.Println(name)
		}
	}
	os.Exit(m.Run())
}

// writer starts a process that adds gowns until it is killed, so long after it has added its first one; what it prints
// was done.
func writer(t *testing.T, path, name string, after time.Duration) (done chan []string) {
	t.Helper()
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), writes+"="+path, called+"="+name)
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	done = make(chan []string, 1)
	go func() {
		var said []string
		for lines := bufio.NewScanner(out); lines.Scan(); {
			if said = append(said, lines.Text()); len(said) == 1 {
				time.AfterFunc(after, func() { c.Process.Kill() })
			}
		}
		c.Wait()
		done <- said
	}()
	return done
}

// Several runs that write at once lose nothing, though some are killed at any moment: the book always reads, and has
// all that any of them said was done.
func TestWritersAtOnceLoseNothing(t *testing.T) {
	for round := range often.Jobs(often.Full(2, 3), 12) {
		path := roomWith(t, book)
		var writers []chan []string
		for i := range 3 {
			after := time.Duration(30+70*i+17*round) * time.Millisecond
			writers = append(writers, writer(t, path, fmt.Sprintf("w%d", i), after))
		}
		said := make(chan [][]string)
		go func() {
			var all [][]string
			for _, w := range writers {
				all = append(all, <-w)
			}
			said <- all
		}()
		var all [][]string
		for all == nil {
			read(t, path) // it holds at every moment
			select {
			case all = <-said:
			default:
			}
		}
		_, w := read(t, path)
		count := 0
		for _, names := range all {
			for _, name := range names {
				if count++; !strings.HasSuffix(name, ".toml") {
					t.Fatal(name)
				}
				if _, ok := w.Gown(name); !ok {
					t.Errorf("%s is lost", name)
				}
			}
		}
		if count == 0 || len(w.Gowns) > count+len(writers) {
			t.Errorf("%d were done, the book has %d", count, len(w.Gowns))
		}
		if err := addGown(context.Background(), path, "last.toml"); err != nil {
			t.Error(err)
		}
		only(t, path)
	}
}
