package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"

	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/testjobs"
)

// full is an output that fails once it has taken so many bytes.
type full struct {
	room   int
	why    error
	wrote  bytes.Buffer
	denied int // writes after the first that failed
}

func (f *full) Write(p []byte) (int, error) {
	if f.room < len(p) {
		n := f.room
		f.wrote.Write(p[:n])
		f.room = 0
		f.denied++
		return n, f.why
	}
	f.room -= len(p)
	f.wrote.Write(p)
	return len(p), nil
}

// trying runs a command line on a job that comes through the standard input.
func trying(t *testing.T, job string, out io.Writer, args ...string) (code int, said string) {
	t.Helper()
	var problems bytes.Buffer
	code = run(args, strings.NewReader(job), out, &problems)
	return code, problems.String()
}

// printing are command lines that print what they find of a job, quickly.
func printing() [][]string {
	return [][]string{{"draft", "-"}, {"draft", "-", "--json"}, {"lay", "-", "--effort", "quick", "-q"},
		{"lay", "-", "--effort", "quick", "--json"}, {"quote", "-", "--effort", "quick"},
		{"quote", "-", "--effort", "quick", "--client"}, {"shop", "-", "--effort", "quick", "--json"},
		{"compare", "-", "--effort", "quick", "--vary", "satin.width=36,40"}, {"help"}, {"help", "job"}, {"help", "lay"}}
}

// small is a job that is laid at once, with a price.
var small = testjobs.Panels(2, "16", "20", "gap = 0\nprice = \"10.00/yd\"")

// Whatever prints, an output that is full is told and fails the run; one that nobody reads any more is no failure.
// What could be printed before is a part of what would have been, and nothing is tried after.
func TestFullOutputsAreTold(t *testing.T) {
	for _, args := range printing() {
		var whole bytes.Buffer
		if code, said := trying(t, small, &whole, args...); code != exitDone || said != "" || whole.Len() < 100 {
			t.Errorf("%q ends with %d after %d bytes: %s", args, code, whole.Len(), said)
			continue
		}
		for _, room := range []int{0, whole.Len() / 2} {
			for why, want := range map[error]int{syscall.ENOSPC: exitFailed, io.ErrClosedPipe: exitFailed,
				syscall.EPIPE: exitDone, &os.PathError{Op: "write", Path: "|1", Err: syscall.EPIPE}: exitDone} {
				out := &full{room: room, why: why}
				code, said := trying(t, small, out, args...)
				told := said == fmt.Sprintf("yardlay: cannot print the result: %v\n", why)
				if code != want || told != (want == exitFailed) || want == exitDone && said != "" || out.denied != 1 {
					t.Errorf("%q into %d bytes, %v: ends with %d, tried %d times: %s", args, room, why, code, out.denied, said)
				}
				if args[0] != "lay" && args[0] != "quote" && args[0] != "shop" && args[0] != "compare" &&
					!bytes.HasPrefix(whole.Bytes(), out.wrote.Bytes()) {
					t.Errorf("%q prints something else into %d bytes", args, room)
				}
			}
		}
	}
}

// A job from the standard input is the job of a file: the same is printed, and what is wrong is told of `stdin` as it
// would be of the file.
func TestTheStandardInputIsAFile(t *testing.T) {
	t.Chdir(t.TempDir())
	bad := strings.Replace(small, "width = \"16\"", "width = \"16\"\nwdith = 3", 1)
	for name, src := range map[string]string{"job.toml": small, "bad.toml": bad} {
		if err := os.WriteFile(name, []byte(src), 0o666); err != nil {
			t.Fatal(err)
		}
		for _, args := range printing() {
			if !slices.Contains(args, "-") || args[0] == "lay" && !slices.Contains(args, "--json") {
				continue // no job, or the seconds it took are printed
			}
			of := slices.Clone(args)
			of[slices.Index(of, "-")] = name
			var a, b bytes.Buffer
			code, said := trying(t, src, &a, args...)
			other, told := trying(t, "", &b, of...)
			if code != other || said != strings.ReplaceAll(told, name+":", "stdin:") || a.String() != b.String() ||
				(code == exitDone) != (name == "job.toml") {
				t.Errorf("%q ends with %d and %d:\n%s\n%s", args, code, other, said, told)
			}
		}
	}
}

// waiting is an input that breaks off behind some text.
type waiting struct{ io.Reader }

func (w waiting) Read(p []byte) (int, error) {
	n, err := w.Reader.Read(p)
	if err == io.EOF {
		err = errors.New("the line is cut")
	}
	return n, err
}

// An input that breaks off, is a folder or not there is told with what it is called, and fails the run.
func TestInputsThatCannotBeRead(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.Mkdir("gowns", 0o777); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, src, says string
	}{
		{"-", small, "yardlay: cannot read the job from stdin: the line is cut\n"},
		{"gowns", "", "yardlay: gowns is a folder, not a job\n  hint: name the file in it: " +
			filepath.Join("gowns", "gown.toml") + "\n"},
		{"none.toml", "", "yardlay: cannot read the job: open none.toml: "},
	} {
		for _, command := range []string{"lay", "draft", "quote", "shop", "compare"} {
			var out, said bytes.Buffer
			code := run([]string{command, c.name}, waiting{strings.NewReader(c.src)}, &out, &said)
			if code != exitFailed || out.Len() > 0 || !strings.HasPrefix(said.String(), c.says) {
				t.Errorf("%s %s ends with %d: %s", command, c.name, code, &said)
			}
		}
	}
}

// What became of the files of a folder is told where the result goes, beside JSON and quietly where errors go; quiet
// runs leave out what they wrote.
func TestWhatBecameOfTheFiles(t *testing.T) {
	done := folder.Outcome{Wrote: []string{"a.svg", "b.svg"}, Replaced: []string{"a.svg"}, Removed: []string{"c.svg"},
		Kept: []string{"d.svg"}}
	const wrote = "\nWrote into made: a.svg, b.svg\n"
	const replaced = "Replaced from an earlier run: a.svg\n"
	const left = "Removed, as this run does not make it: c.svg\nLeft, as changed since an earlier run: d.svg\n"
	for _, c := range []struct {
		json, quiet bool
		done        folder.Outcome
		out, err    string
	}{
		{false, false, done, wrote + replaced + left, ""}, {true, false, done, "", replaced + left},
		{false, true, done, "", left}, {true, true, done, "", left}, {false, false, folder.Outcome{}, "", ""},
		{false, false, folder.Outcome{Wrote: []string{"a.svg"}}, "\nWrote into made: a.svg\n", ""},
	} {
		var out, err strings.Builder
		o := &output{options: &options{dir: "made", json: c.json, quiet: c.quiet}}
		o.tell(streams{out: &out, err: &err}, c.done)
		if out.String() != c.out || err.String() != c.err {
			t.Errorf("JSON %v, quiet %v: %q and %q, want %q and %q", c.json, c.quiet, &out, &err, c.out, c.err)
		}
	}
}
