package folder

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// model is what a folder should hold: every file, and which of them a set was told to have
// written, with what.
type model struct {
	disk  map[string]string
	known map[string]map[string]string // by set
}

// refuses says that a file of a set's names is there which the set did not leave so.
func (m model) refuses(set string) bool {
	for name, text := range m.disk {
		if strings.HasPrefix(name, set) && m.known[set][name] != text {
			return true
		}
	}
	return false
}

// after is the model once a set has been written.
func (m model) after(set string, now []File) model {
	next := model{maps.Clone(m.disk), maps.Clone(m.known)}
	for name := range m.known[set] {
		delete(next.disk, name)
	}
	next.known[set] = map[string]string{}
	for _, f := range now {
		next.disk[f.Name], next.known[set][f.Name] = string(f.Data), string(f.Data)
	}
	return next
}

// died is what a run ends with that a test kills.
type died struct{}

// killedAt opens a folder and writes a set; the process dies before or behind the given
// step, of moving files or of taking a write back that an earlier one died in, and its
// locks with it.
func killedAt(t *testing.T, dir, set string, now []File, step int, behind bool) (dead bool, err error) {
	f := &Folder{dir: dir, sets: []Set{only(set, set)}, made: firstMissing(dir)}
	f.write = func(name string, data []byte) error { return os.WriteFile(name, data, 0o644) }
	f.rename = func(from, to string) error {
		if step--; step < 0 {
			if behind {
				os.Rename(from, to)
			}
			panic(died{})
		}
		return os.Rename(from, to)
	}
	defer func() {
		if r := recover(); r != nil {
			if _, ok := r.(died); !ok {
				panic(r)
			}
			dead = true
			for _, l := range f.locks {
				l.release()
			}
		}
	}()
	if err := f.open(t.Context()); err != nil {
		f.Close()
		return false, err
	}
	defer func() {
		if !dead && step >= 0 {
			f.Close()
		}
	}()
	_, err = f.Write(map[string][]File{set: now})
	return false, err
}

// Two sets written over and over, into a folder in which somebody edits, removes and adds
// files, by runs of which many die half way: the folder always holds what the model says,
// or, of a write that died, what was there before, once the next run has been.
func TestFolderAgainstModel(t *testing.T) {
	told := map[string]int{}
	for seed := range uint64(30) {
		r := rand.New(rand.NewPCG(seed, 2))
		dir, m := t.TempDir(), model{map[string]string{}, map[string]map[string]string{}}
		for op := range 10 {
			set := string("ab"[r.IntN(2)])
			name := fmt.Sprint(set, r.IntN(3))
			switch r.IntN(6) {
			case 0: // somebody edits or adds a file
				m.disk[name] = fmt.Sprint("mine ", op)
				os.WriteFile(filepath.Join(dir, name), []byte(m.disk[name]), 0o644)
				continue
			case 1:
				delete(m.disk, name)
				os.Remove(filepath.Join(dir, name))
				continue
			case 2: // and clears a folder up for the next run
				for name, text := range m.disk {
					if m.known[name[:1]][name] != text {
						delete(m.disk, name)
						os.Remove(filepath.Join(dir, name))
					}
				}
				continue
			}
			var now []File
			for i := range 3 {
				if r.IntN(3) > 0 {
					now = append(now, File{fmt.Sprint(set, i), fmt.Append(nil, "run ", op, i)})
				}
			}
			deaths := 0
			for step := r.IntN(14); ; step = r.IntN(14 + 10*deaths) {
				dead, err := killedAt(t, dir, set, now, step, r.IntN(2) == 0)
				if !dead {
					if want := m.refuses(set); (err != nil) != want {
						t.Fatalf("seed %d, op %d: error is %v, want one: %v; the model has %q", seed, op, err, want, m)
					} else if !want {
						m = m.after(set, now)
						told["written"]++
					} else {
						told["refused"]++
					}
					break
				}
				if deaths++; r.IntN(2) == 0 { // a run of others comes by
					open(t, dir, only("c", "c")).Close()
					if got := shown(t, dir); !maps.Equal(got, m.disk) {
						t.Fatalf("seed %d, op %d: after a death the folder holds %q, want %q", seed, op, got, m.disk)
					}
				}
				told[fmt.Sprint("died ", min(deaths, 2))]++
			}
			if got := shown(t, dir); !maps.Equal(got, m.disk) {
				t.Fatalf("seed %d, op %d: the folder holds %q, want %q", seed, op, got, m.disk)
			}
		}
	}
	if told["written"] < 60 || told["refused"] < 20 || told["died 1"] < 40 || told["died 2"] < 10 {
		t.Errorf("too few of some: %v", told)
	}
}

// Two sets of one run cannot make the same file.
func TestSetsDoNotShareAFile(t *testing.T) {
	dir := t.TempDir()
	f := open(t, dir, anySet("lay"), anySet("compare"))
	_, err := f.Write(map[string][]File{"lay": files("1", "a.svg"), "compare": files("2", "a.svg")})
	if err == nil || !strings.Contains(err.Error(), "two files of one run are called a.svg") {
		t.Errorf("error is %v", err)
	}
	f.Close()
	same(t, dir)
}
