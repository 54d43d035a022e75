package chalk

import (
	"fmt"
	"strings"
	"time"
)

// Document is all set-out tables of a cloth.
type Document struct {
	Tape     Tape
	Title    string // of the gown and its cloth
	Mark     string // of what is cut, to compare by eye
	Date     time.Time
	Cost     string   // what lying on steps takes in cloth
	Notes    []string // for spreading and cutting
	Cautions []string
	Markers  []Marker
}

// Text writes the document in lines.
func (d Document) Text() string {
	var b strings.Builder
	b.WriteString(wrapped(d.Title, "", ""))
	fmt.Fprintf(&b, "Set-out tables, %s, mark %s\n", d.Date.Format(time.DateOnly), d.Mark)
	b.WriteString(wrapped(strings.ToUpper(d.Cost[:1])+d.Cost[1:]+".", "", ""))
	for _, s := range d.Notes {
		b.WriteString(wrapped(s, "", ""))
	}
	b.WriteString("\n")
	for _, s := range HowTo(d.Tape) {
		b.WriteString(wrapped(s, "", "  "))
	}
	for _, l := range d.Markers {
		b.WriteString("\n" + l.Text(d.Tape))
	}
	b.WriteString("\n")
	for _, s := range d.Cautions {
		b.WriteString(wrapped(s, "", ""))
	}
	return b.String()
}
