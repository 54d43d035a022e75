package job

import (
	"fmt"

	"yardlay/shapes/measure"
)

// standardKey is the key by which a body begins with the measures of a standard size.
const standardKey = "standard"

// standardTable are the sizes of a published table of bodies.
type standardTable struct {
	name     string
	measures []string // that it gives
	unit     float64  // mm
	sizes    []standardSize
}

// standardSize has a value for each measure of its table; 0 where the table has none.
type standardSize struct {
	name   string
	values []float64
}

// standardTables are where a maker begins who has no measures yet. Values from memory:
// neither text was at hand.
//
//   - EN 13402-3:2004, Size designation of clothes, women, by the bust girth in cm.
//   - The body measurements that the pattern makers of the United States agreed on in
//     1967 and print on their envelopes since: misses, girls, children.
var standardTables = []standardTable{
	{"EN women", []string{"bust_girth", "waist_girth", "hip_girth"}, 10, []standardSize{
		{"76", []float64{76, 60, 84}}, {"80", []float64{80, 64, 88}}, {"84", []float64{84, 68, 92}},
		{"88", []float64{88, 72, 96}}, {"92", []float64{92, 76, 100}}, {"96", []float64{96, 80, 104}},
		{"100", []float64{100, 84, 108}}, {"104", []float64{104, 88, 112}}, {"110", []float64{110, 94, 117}},
		{"116", []float64{116, 100, 122}}, {"122", []float64{122, 106, 127}}, {"128", []float64{128, 112, 132}},
		{"134", []float64{134, 118, 137}}, {"140", []float64{140, 124, 142}}, {"146", []float64{146, 130, 147}},
		{"152", []float64{152, 136, 152}},
	}},
	{"US misses", usMeasures, measure.Inches, []standardSize{
		{"6", []float64{30.5, 23, 32.5, 15.5}}, {"8", []float64{31.5, 24, 33.5, 15.75}},
		{"10", []float64{32.5, 25, 34.5, 16}}, {"12", []float64{34, 26.5, 36, 16.25}},
		{"14", []float64{36, 28, 38, 16.5}}, {"16", []float64{38, 30, 40, 16.75}},
		{"18", []float64{40, 32, 42, 17}}, {"20", []float64{42, 34, 44, 17.25}},
	}},
	{"US girls", usMeasures, measure.Inches, []standardSize{
		{"7", []float64{26, 23, 27, 11.5}}, {"8", []float64{27, 23.5, 28, 12}},
		{"10", []float64{28.5, 24.5, 30, 12.75}}, {"12", []float64{30, 25.5, 32, 13.5}},
		{"14", []float64{32, 26.5, 34, 14.25}},
	}},
	{"US children", usMeasures, measure.Inches, []standardSize{
		{"2", []float64{21, 20, 0, 8.5}}, {"3", []float64{22, 20.5, 0, 9}}, {"4", []float64{23, 21, 24, 9.5}},
		{"5", []float64{24, 21.5, 25, 10}}, {"6", []float64{25, 22, 26, 10.5}},
	}},
}

var usMeasures = []string{"bust_girth", "waist_girth", "hip_girth", "back_neck_point_to_waist"}

// standardSizes are the words for all sizes of all tables, "US misses 14".
func standardSizes() (words []string) {
	for _, t := range standardTables {
		for _, s := range t.sizes {
			words = append(words, t.name+" "+s.name)
		}
	}
	return words
}

// standardBody returns the measures of a size, mm.
func standardBody(word string) map[string]float64 {
	all := map[string]float64{}
	for _, t := range standardTables {
		for _, s := range t.sizes {
			if t.name+" "+s.name != word {
				continue
			}
			for i, m := range t.measures {
				if s.values[i] > 0 {
					all[m] = s.values[i] * t.unit
				}
			}
		}
	}
	return all
}

// standard begins a body with a standard size; what the body gives itself wins.
func (t *table) standard(b *Body) {
	if !t.Has(standardKey) {
		return
	}
	b.Standard = t.Choice(standardKey)
	for name, mm := range standardBody(b.Standard) {
		if !t.Has(name) {
			b.set(name, mm, fmt.Sprintf("of size %s", b.Standard))
		}
	}
}
