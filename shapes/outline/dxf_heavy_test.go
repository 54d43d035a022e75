package outline

import (
	"fmt"
	"strings"
)

// heavyDXF is a file that costs the most of its kind: at a limit, beyond one, or a bomb.
type heavyDXF struct {
	name, want string // want: of the error; "": it is read
	text       func() string
}

// pairs repeats lines, written as short as can be.
func pairs(times int, lines ...string) string {
	return strings.Repeat(strings.Join(lines, "\n")+"\n", times)
}

// full repeats lines until a file is as large as it may be.
func full(lines ...string) string {
	return pairs((MaxDrawingBytes-2000)/len(pairs(1, lines...)), lines...)
}

// counted repeats lines with a number in them until a file is full.
func counted(format string) string {
	var b strings.Builder
	for i := 0; b.Len() < MaxDrawingBytes-2000; i++ {
		fmt.Fprintf(&b, format, i)
	}
	return b.String()
}

// entitiesOf is a drawing of entities that are written already.
func entitiesOf(text string) string {
	return inMM + groups("0 SECTION | 2 ENTITIES") + text + groups("0 ENDSEC | 0 EOF")
}

// blocksOf is a drawing of such blocks, and what is drawn of them.
func blocksOf(blocks, drawn string) string {
	return inMM + groups("0 SECTION | 2 BLOCKS") + blocks + groups("0 ENDSEC | 0 SECTION | 2 ENTITIES") + drawn +
		groups("0 ENDSEC | 0 EOF")
}

const shortLine = "0\nLINE\n10\n0\n20\n0\n11\n1\n21\n1\n"

// nestedBlocks is a drawing of blocks that insert the next ten times, each so; the last one holds what
// is given.
func nestedBlocks(blocks int, each string, last string) string {
	var b strings.Builder
	for i := range blocks {
		inner := fmt.Sprintf("0\nINSERT\n2\n%d\n10\n0\n20\n0\n%s", i+1, each)
		if i == blocks-1 {
			inner = last
		}
		fmt.Fprintf(&b, "0\nBLOCK\n2\n%d\n10\n0\n20\n0\n%s0\nENDBLK\n", i, strings.Repeat(inner, 10))
	}
	return blocksOf(b.String(), "0\nINSERT\n2\n0\n10\n0\n20\n0\n")
}

var heaviestDXF = []heavyDXF{
	{"vertices at the limit", "", func() string {
		return entitiesOf("0\nLWPOLYLINE\n" + pairs(MaxDrawingVertices/2, "10", "0.125", "20", "5.25", "10", "8", "20", "0"))
	}},
	{"nothing, ten times in ten", "over 100000 blocks", func() string { return nestedBlocks(30, "", "") }},
	{"vertices beyond", "over 1000000 vertices", func() string {
		return entitiesOf("0\nLWPOLYLINE\n" + full("10", "0", "20", "0"))
	}},
	{"vertices of R12", "over 1000000 vertices", func() string {
		return entitiesOf("0\nPOLYLINE\n" + full("0", "VERTEX", "10", "0", "20", "0") + "0\nSEQEND\n")
	}},
	{"lines at the limit", "", func() string {
		return entitiesOf(pairs(maxDXFEntities, "0", "LINE", "5", "ABCDEF01", "8", "front", "10", "0.125", "20", "1.5", "11",
			"100.25", "21", "3000"))
	}},
	{"lines without a unit", "", func() string {
		return strings.Replace(entitiesOf(pairs(maxDXFEntities, "0", "LINE", "5", "ABCDEF01", "8", "front", "10", "0.125",
			"20",
			"1.5", "11", "10.25", "21", "300")), inMM, "", 1)
	}},
	{"lines beyond", "over 250000 things", func() string { return entitiesOf(full(strings.TrimSpace(shortLine))) }},
	{"texts at the limit", "", func() string {
		return entitiesOf(shortLine + pairs(maxDXFEntities-1, "0", "TEXT", "10", "1", "20", "1", "1",
			"%%d"+strings.Repeat("x", 50)))
	}},
	{"a long text", "", func() string {
		return entitiesOf(shortLine + "0\nMTEXT\n10\n0\n20\n0\n" + full("3", strings.Repeat(`\P`, 125)) + "1\nend\n")
	}},
	{"layers", "over 10000 layers", func() string {
		return entitiesOf(counted("0\nLINE\n8\n%d\n10\n0\n20\n0\n11\n1\n21\n1\n"))
	}},
	{"blocks", "over 20000 blocks", func() string { return blocksOf(counted("0\nBLOCK\n2\n%d\n0\nENDBLK\n"), "") }},
	{"unknown", "over 250000 things", func() string { return entitiesOf(full("0", "X")) }},
	{"comments", "", func() string { return full("999", "UNITS: x") + entitiesOf(shortLine) }},
	{"large circles", "over 1000000 vertices as", func() string {
		return entitiesOf(pairs(maxDXFEntities, "0", "CIRCLE", "10", "0", "20", "0", "40", "29000"))
	}},
	{"bulges of no length", "", func() string {
		return entitiesOf(shortLine + "0\nLWPOLYLINE\n" + pairs(MaxDrawingVertices-10, "10", "0", "20", "0", "42", "1"))
	}},
	{"no unit", "over 1000000 vertices as", func() string {
		return strings.Replace(entitiesOf("0\nLWPOLYLINE\n"+pairs(MaxDrawingVertices/4, "10", "0", "20", "0", "42", ".1",
			"10", "30", "20", "0")), inMM, "", 1)
	}},
	{"splines of degree 11", "over 1000000 vertices as", func() string {
		return entitiesOf(pairs(80_000, strings.TrimSpace("0\nSPLINE\n71\n11\n"+pairs(12, "40", "0")+
			pairs(12, "40", "1")+pairs(6, "10", "0", "20", "0", "10", "9", "20", "999"))))
	}},
	{"wild weights", "over 1000000 vertices as", func() string {
		return entitiesOf(full(strings.TrimSpace("0\nSPLINE\n71\n3\n" + pairs(4, "40", "0") + pairs(4, "40", "1") +
			pairs(2, "10", "0", "20", "0", "41", "1e-300", "10", "9", "20", "29999", "41", "1e300"))))
	}},
	{"one spline of degree 11", "over 1000000 vertices", func() string {
		const n = MaxDrawingVertices - 10
		return entitiesOf("0\nSPLINE\n71\n11\n" + pairs(12, "40", "0") + pairs(n-12, "40", "5") + pairs(12, "40", "9") +
			pairs(n, "10", "0", "20", "0"))
	}},
	{"a cubic spline", "", func() string {
		const n = 250_000
		var b strings.Builder
		for i := range n + 4 {
			fmt.Fprintf(&b, "40\n%d\n", i)
		}
		return entitiesOf("0\nSPLINE\n71\n3\n" + b.String() + pairs(n/2, "10", "0", "20", "0", "10", ".3", "20", "0.1"))
	}},
	{"points to go through", "", func() string {
		return entitiesOf("0\nSPLINE\n71\n3\n" + pairs(MaxDrawingVertices/10, "11", "0", "21", "0", "11", ".1", "21", ".1"))
	}},
	{"in rows and columns", "over 250000 things are drawn with all insertions", func() string {
		return nestedBlocks(9, "70\n100\n71\n100\n44\n1\n45\n1\n", shortLine)
	}},
	{"lines, ten times in ten", "things are drawn with all insertions", func() string {
		return nestedBlocks(9, "", shortLine)
	}},
	{"a spline many times", "over 1000000 vertices as", func() string {
		const n = 90_000
		spline := "0\nSPLINE\n71\n3\n" + pairs(n, "40", "0") + pairs(4, "40", "9") + pairs(n, "10", "0", "20", "5")
		return blocksOf("0\nBLOCK\n2\na\n"+spline+"0\nENDBLK\n",
			"0\nINSERT\n2\na\n10\n0\n20\n0\n70\n300\n71\n300\n44\n1\n45\n1\n")
	}},
	{"long names in each other", "", func() string {
		var b strings.Builder
		name := func(i int) string { return strings.Repeat("n", 250) + fmt.Sprint(i) }
		for i := range 31 {
			fmt.Fprintf(&b, "0\nBLOCK\n2\n%s\n0\nINSERT\n2\n%s\n10\n0\n20\n0\n%s0\nENDBLK\n", name(i), name(i+1),
				map[bool]string{true: "70\n300\n71\n330\n44\n.1\n45\n.1\n"}[i == 30])
		}
		fmt.Fprintf(&b, "0\nBLOCK\n2\n%s\n%s0\nENDBLK\n", name(31), shortLine)
		return blocksOf(b.String(), "0\nINSERT\n2\n"+name(0)+"\n10\n0\n20\n0\n")
	}},
}
