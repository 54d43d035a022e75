package document

import (
	"os"
	"path/filepath"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/testjobs"
)

var inRoom = testjobs.InRoom("waist_girth = 70")

const roomBook = "unit = \"cm\"\n[[cloth]]\nid = \"moon-satin\"\nwidth = "

// A job is read anew when the book of its workroom changes, though its text stays: what is typed meanwhile goes on.
func TestTheBookOfTheWorkroomChanges(t *testing.T) {
	d, file := opened(t, inRoom)
	defer d.Close()
	room := filepath.Join(filepath.Dir(file), job.WorkroomFile)
	before := d.State()
	if before.Holds {
		t.Fatal("it holds without its workroom")
	}
	width := func() float64 { return d.State().File.Job().Cloths[0].Width }
	write(t, room, roomBook+"150\n")
	d.Look()
	if now := d.State(); !now.Holds || width() != 1500 || now.CanUndo || now.Version == before.Version {
		t.Fatalf("%+v", now)
	}
	same := d.State().Version
	if d.Look(); d.State().Version != same {
		t.Error("nothing has changed, and it is told")
	}
	write(t, room, roomBook+"1234\n")
	d.Look()
	if !d.State().Holds || width() != 12340 {
		t.Errorf("%v", width())
	}
	if _, err := d.Apply(same, "", put(inRoom+"# more\n")); err != nil {
		t.Errorf("what is typed while the book changes is refused: %v", err)
	}
	if err := os.Remove(room); err != nil {
		t.Fatal(err)
	}
	if d.Look(); d.State().Holds {
		t.Error("it holds without its workroom")
	}
}
