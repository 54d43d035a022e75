package sheet

import (
	"bytes"
	"compress/zlib"
	"io"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf16"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// painted is what a page of a PDF paints, mm from its top left corner.
type painted struct {
	how           string // S stroke, f fill, B both, T text
	points        []orb.Point
	closed        bool
	stroke, fill  string // as the file has them: "0.000 G"
	width         float64
	dash          []float64
	clip          orb.Bound
	text          string
	right, upward orb.Point // of a text: where an em goes along it, and up
	anchor        Anchor    // as wanted: what of it stands at its point
	font          string    // of a text
	join          float64
}

// graphics is the state of the page's pen (ISO 32000-1, 8.4).
type graphics struct {
	ctm          [6]float64
	stroke, fill string
	width        float64
	dash         []float64
	clip         orb.Bound
	join         float64
	font         string
}

// pdfReader reads the pages of a PDF by the operators that one of drawings has. It knows no more of how the file was
// written than the standard says.
type pdfReader struct {
	t       rapid.TB
	objects map[int][]byte
	named   map[string]int // objects by the names that content has for them
	state   graphics
	kept    []graphics
	high    float64
	all     []painted
}

var (
	pdfObject = regexp.MustCompile(`(?s)\n(\d+) 0 obj\n(.*?)\nendobj`)
	pdfNamed  = regexp.MustCompile(`/(TPL\w+|F[0-9a-f]+) (\d+) 0 R`)
	pdfFont   = regexp.MustCompile(`/BaseFont /(\w+)`)
	pdfBox    = regexp.MustCompile(`/BBox \[([-0-9.]+) ([-0-9.]+) ([-0-9.]+) ([-0-9.]+)\]`)
	pdfPage   = regexp.MustCompile(`(?s)/Type /Page\n.*?/MediaBox \[0 0 ([0-9.]+) ([0-9.]+)\].*?/Contents (\d+) 0 R`)
)

// pdfPages returns what each page of a file paints, and its size in mm.
func pdfPages(t rapid.TB, file []byte) (pages [][]painted, sizes []orb.Point) {
	r := &pdfReader{t: t, objects: map[int][]byte{}, named: map[string]int{}}
	for _, m := range pdfObject.FindAllSubmatch(file, -1) {
		n, _ := strconv.Atoi(string(m[1]))
		r.objects[n] = m[2]
		for _, f := range pdfNamed.FindAllSubmatch(m[2], -1) {
			r.named[string(f[1])], _ = strconv.Atoi(string(f[2]))
		}
	}
	for n := 1; n <= len(r.objects)+9; n++ {
		m := pdfPage.FindSubmatch(append(r.objects[n], '\n'))
		if m == nil {
			continue
		}
		w, _ := strconv.ParseFloat(string(m[1]), 64)
		r.high, _ = strconv.ParseFloat(string(m[2]), 64)
		content, _ := strconv.Atoi(string(m[3]))
		r.all, r.state = nil, graphics{ctm: [6]float64{1, 0, 0, 1, 0, 0}, clip: orb.Bound{Max: orb.Point{1e9, 1e9}}}
		r.run(r.stream(content))
		pages, sizes = append(pages, r.all), append(sizes, orb.Point{w * 25.4 / 72, r.high * 25.4 / 72})
	}
	return pages, sizes
}

// stream is the content of an object, unpacked.
func (r *pdfReader) stream(n int) []byte {
	head, body, ok := bytes.Cut(r.objects[n], []byte("stream\n"))
	if !ok || !bytes.Contains(head, []byte("/FlateDecode")) {
		r.t.Fatalf("object %d is no stream: %.200q", n, head)
	}
	z, err := zlib.NewReader(bytes.NewReader(body))
	if err != nil {
		r.t.Fatal(err)
	}
	text, err := io.ReadAll(z)
	if err != nil {
		r.t.Fatal(err)
	}
	return text
}

// onto is a point of the content on the page, mm from its top left corner.
func (r *pdfReader) onto(x, y float64) orb.Point {
	m := r.state.ctm
	return orb.Point{(m[0]*x + m[2]*y + m[4]) * 25.4 / 72, (r.high - m[1]*x - m[3]*y - m[5]) * 25.4 / 72}
}

// tokens cuts content into numbers, names, operators and strings, the last with a bracket before them.
func tokens(content []byte) (all []string) {
	for i := 0; i < len(content); {
		switch c := content[i]; {
		case strings.IndexByte(" \r\n\t", c) >= 0:
			i++
		case c == '(':
			var text []byte
			for i++; content[i] != ')'; i++ {
				if content[i] == '\\' {
					i++
					if content[i] == 'r' {
						content[i] = '\r'
					}
				}
				text = append(text, content[i])
			}
			all, i = append(all, "("+string(text)), i+1
		case c == '[' || c == ']':
			all, i = append(all, string(c)), i+1
		default:
			from := i
			for i < len(content) && strings.IndexByte(" \r\n\t()[]", content[i]) < 0 {
				i++
			}
			all = append(all, string(content[from:i]))
		}
	}
	return all
}

// run paints what content says.
func (r *pdfReader) run(content []byte) {
	var args []float64
	var words []string
	var path []orb.Point
	var at [2]float64
	size, closed := 0.0, false
	for _, token := range tokens(content) {
		if v, err := strconv.ParseFloat(token, 64); err == nil {
			args, words = append(args, v), append(words, token)
			continue
		}
		s := &r.state
		switch token {
		case "[", "]":
			continue
		case "q":
			r.kept = append(r.kept, *s)
		case "Q":
			*s, r.kept = r.kept[len(r.kept)-1], r.kept[:len(r.kept)-1]
		case "cm":
			a, b := args, s.ctm
			s.ctm = [6]float64{a[0]*b[0] + a[1]*b[2], a[0]*b[1] + a[1]*b[3], a[2]*b[0] + a[3]*b[2], a[2]*b[1] + a[3]*b[3],
				a[4]*b[0] + a[5]*b[2] + b[4], a[4]*b[1] + a[5]*b[3] + b[5]}
		case "w":
			s.width = args[0] * 25.4 / 72
		case "d":
			s.dash = nil
			for _, v := range args[:len(args)-1] {
				s.dash = append(s.dash, v*25.4/72)
			}
		case "G", "RG":
			s.stroke = strings.Join(words, " ")
		case "g", "rg":
			s.fill = strings.Join(words, " ")
		case "re":
			path = []orb.Point{r.onto(args[0], args[1]), r.onto(args[0]+args[2], args[1]),
				r.onto(args[0]+args[2], args[1]+args[3]), r.onto(args[0], args[1]+args[3])}
			closed = true
		case "W":
			s.clip = within(s.clip, orb.MultiPoint(path).Bound())
		case "n":
			path, closed = nil, false
		case "m", "l":
			if (token == "m") != (len(path) == 0) {
				r.t.Fatalf("%s behind %d points of a path", token, len(path))
			}
			path = append(path, r.onto(args[0], args[1]))
		case "h":
			closed = true
		case "S", "f", "B", "b", "s", "f*", "B*":
			p := painted{how: strings.TrimSuffix(token, "*"), points: path, closed: closed, stroke: s.stroke, fill: s.fill,
				width: s.width, dash: s.dash, clip: s.clip, join: s.join}
			if low := strings.ToUpper(p.how); low != p.how && p.how != "f" { // closes the path first
				p.how, p.closed = low, true
			}
			r.all, path, closed = append(r.all, p), nil, false
		case "Tf":
			size = args[0]
		case "j":
			s.join = args[0]
		case "Td":
			at = [2]float64{args[0], args[1]}
		case "Do", "BT", "ET", "J", "Tr", "Tj":
		default:
			switch {
			case strings.HasPrefix(token, "/TPL"):
				r.kept = append(r.kept, *s)
				r.form(r.named[token[1:]])
				r.state, r.kept = r.kept[len(r.kept)-1], r.kept[:len(r.kept)-1]
			case strings.HasPrefix(token, "/F"):
				s.font = string(pdfFont.FindSubmatch(r.objects[r.named[token[1:]]])[1])
			case token[0] == '(':
				zero, right, up := r.onto(at[0], at[1]), r.onto(at[0]+size, at[1]), r.onto(at[0], at[1]+size)
				r.all = append(r.all, painted{how: "T", points: []orb.Point{zero}, fill: s.fill, clip: s.clip, font: s.font,
					right:  orb.Point{right[0] - zero[0], right[1] - zero[1]},
					upward: orb.Point{up[0] - zero[0], up[1] - zero[1]}, text: fromUTF16(token[1:])})
			case token[0] != '/':
				r.t.Fatalf("what is %q?", token)
			}
		}
		args, words = nil, nil
	}
}

// form paints what is stored, within its box.
func (r *pdfReader) form(n int) {
	var box [4]float64
	for i, v := range pdfBox.FindSubmatch(r.objects[n])[1:] {
		box[i], _ = strconv.ParseFloat(string(v), 64)
	}
	r.state.clip = within(r.state.clip, orb.MultiPoint{r.onto(box[0], box[1]), r.onto(box[2], box[3])}.Bound())
	r.run(r.stream(n))
}

// within is what two boxes share.
func within(a, b orb.Bound) orb.Bound {
	return orb.Bound{Min: orb.Point{max(a.Min[0], b.Min[0]), max(a.Min[1], b.Min[1])},
		Max: orb.Point{min(a.Max[0], b.Max[0]), min(a.Max[1], b.Max[1])}}
}

// fromUTF16 reads the letters of a text, two bytes each.
func fromUTF16(s string) string {
	var units []uint16
	for i := 0; i+1 < len(s); i += 2 {
		units = append(units, uint16(s[i])<<8|uint16(s[i+1]))
	}
	return string(utf16.Decode(units))
}
