package folder

import (
	"context"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"yardlay/benchmarks/often"
)

// killedWriter is the folder that a process of this test writes into until it is
// killed.
const killedWriter = "FOLDER_TEST_WRITES_INTO"

func TestMain(m *testing.M) {
	if dir := os.Getenv(killedWriter); dir != "" {
		for round := 0; ; round++ {
			f, err := Open(context.Background(), dir, anySet("lay"))
			if err != nil {
				fmt.Println(err)
				os.Exit(1)
			}
			f.rename = func(from, to string) error { // so that a kill often falls between two
				time.Sleep(3 * time.Millisecond)
				return os.Rename(from, to)
			}
			if _, err := f.Write(map[string][]File{"lay": roundOf(round % 2)}); err != nil {
				fmt.Println(err)
				os.Exit(1)
			}
			f.Close()
		}
	}
	os.Exit(m.Run())
}

// roundOf is one of two sets that share half of their names.
func roundOf(odd int) []File {
	var all []File
	for i := range 6 {
		all = append(all, File{fmt.Sprintf("%d.svg", i+3*odd),
			fmt.Append(nil, "round ", odd, strings.Repeat(".", 1000*i))})
	}
	return all
}

// Killed at any moment, a run leaves a folder that the next one finds as it was
// before or as it was to be, and the lock ends with it. How many are killed while files
// change places depends on what else the machine does: it goes on until those are enough.
func TestKilledAtRandomMoments(t *testing.T) {
	dir := t.TempDir()
	midway, killed := 0, 0
	for ; killed < often.Jobs(12, 30) || midway < 5 && killed < 300; killed++ {
		c := exec.Command(os.Args[0])
		c.Env = append(os.Environ(), killedWriter+"="+dir)
		var said strings.Builder
		c.Stdout = &said
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		moves := filepath.Join(dir, own, journalName) // there while files change places
		for end := time.Now().Add(time.Minute); time.Now().Before(end); time.Sleep(time.Millisecond) {
			if _, err := os.Lstat(moves); err == nil {
				break
			}
		}
		time.Sleep(rand.N(30 * time.Millisecond))
		c.Process.Kill()
		c.Wait()
		if said.Len() > 0 {
			t.Fatal(&said)
		}
		if now := shown(t, dir); len(now) > 0 && !whole(now) {
			midway++
		}
		f := open(t, dir, anySet("lay"))
		if now := shown(t, dir); len(now) > 0 && !whole(now) {
			t.Fatalf("the folder holds %q", now)
		}
		f.Close()
	}
	if midway < 5 {
		t.Errorf("%d of %d were killed while files changed places, too few to tell", midway, killed)
	}
}

func whole(now map[string]string) bool {
	for odd := range 2 {
		want := map[string]string{}
		for _, f := range roundOf(odd) {
			want[f.Name] = string(f.Data)
		}
		if maps.Equal(now, want) {
			return true
		}
	}
	return false
}
