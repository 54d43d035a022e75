package sheet

import (
	"math"
	"slices"
	"testing"
)

// linear is a colour in linear light, 0 to 1: sRGB as IEC 61966-2-1 and WCAG 2.2 read it.
func linear(colour string) [3]float64 {
	r, g, b := rgb(colour)
	var out [3]float64
	for i, c := range []int{r, g, b} {
		if v := float64(c) / 255; v <= 0.04045 {
			out[i] = v / 12.92
		} else {
			out[i] = math.Pow((v+0.055)/1.055, 2.4)
		}
	}
	return out
}

// luminance is the relative luminance of WCAG 2.2.
func luminance(colour string) float64 {
	c := linear(colour)
	return 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2]
}

// contrast is the contrast ratio of WCAG 2.2, 1 to 21.
func contrast(a, b string) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

// The examples of WCAG's own technique G18 and of its definition: black on white is 21,
// #767676 on white just passes 4.5.
func TestContrastAsDefined(t *testing.T) {
	if c := contrast("#000", white); math.Abs(c-21) > 1e-9 {
		t.Errorf("black on white: %.3f", c)
	}
	if c := contrast("#767676", white); c < 4.5 || c > 4.6 {
		t.Errorf("grey on white: %.3f", c)
	}
}

// Texts stand out 7 : 1 (WCAG 2.2, 1.4.6), lines that say what to cut 4.5 : 1, which is
// more than 1.4.11 asks of signs, against the ground of their theme.
func TestThemesStandOut(t *testing.T) {
	faint := []Role{RoleRepeat, RoleHatch, RoleFlaw} // help the eye and are said in words
	for _, theme := range []Theme{ThemeLines, ThemeLight} {
		p := theme.palette()
		for r, l := range p.looks {
			least := 4.5
			if slices.Contains(faint, Role(r)) {
				least = 3
			}
			if l.stroke != "" {
				if c := contrast(l.stroke, p.ground); c < least {
					t.Errorf("theme %d, %s: lines %.1f : 1", theme, l.class, c)
				}
			}
			if slices.Contains([]Role{RoleHeading, RoleNote, RoleCaution}, Role(r)) {
				if c := contrast(l.fill, p.ground); c < 7 {
					t.Errorf("theme %d, %s: text %.1f : 1", theme, l.class, c)
				}
			}
		}
		if c := contrast(p.looks[RoleNote].fill, p.tints[0]); c < 7 {
			t.Errorf("theme %d: text in a piece %.1f : 1", theme, c)
		}
	}
}

// seen is a colour as people without the long (protan) or the middle (deutan) cones see
// it, in linear light. Viénot, Brettel and Mollon, Color Research and Application 24
// (1999); the products of its matrices are from memory.
var seen = map[string][3][3]float64{
	"protan": {{0.11238, 0.88762, 0}, {0.11238, 0.88762, 0}, {0.00401, -0.00401, 1}},
	"deutan": {{0.29275, 0.70725, 0}, {0.29275, 0.70725, 0}, {-0.02234, 0.02234, 1}},
}

// lab is a colour of linear light in CIE L*a*b*, white D65 (ISO/CIE 11664-4).
func lab(c [3]float64) [3]float64 {
	x := 0.4124*c[0] + 0.3576*c[1] + 0.1805*c[2]
	y := 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2]
	z := 0.0193*c[0] + 0.1192*c[1] + 0.9505*c[2]
	f := func(v float64) float64 {
		if v > 216.0/24389 {
			return math.Cbrt(v)
		}
		return (24389.0/27*v + 16) / 116
	}
	fx, fy, fz := f(x/0.9505), f(y), f(z/1.089)
	return [3]float64{116*fy - 16, 500 * (fx - fy), 200 * (fy - fz)}
}

// Lines of light that differ in meaning differ for colour-blind people: clearly in
// colour, or in their dashes or width by half.
func TestLightIsToldApart(t *testing.T) {
	p := ThemeLight.palette()
	roles := []Role{RolePiece, RoleSeam, RoleInside, RoleGrain, RoleMark, RoleMatch}
	for kind, m := range seen {
		as := func(r Role) [3]float64 {
			c := linear(p.looks[r].stroke)
			var out [3]float64
			for i := range out {
				out[i] = min(1, max(0, m[i][0]*c[0]+m[i][1]*c[1]+m[i][2]*c[2]))
			}
			return lab(out)
		}
		for i, a := range roles {
			for _, b := range roles[i+1:] {
				ca, cb := as(a), as(b)
				apart := math.Hypot(math.Hypot(ca[0]-cb[0], ca[1]-cb[1]), ca[2]-cb[2])
				la, lb := p.looks[a], p.looks[b]
				t.Logf("%s: %s and %s %.0f apart", kind, la.class, lb.class, apart)
				if apart < 10 || apart < 20 && slices.Equal(la.dash, lb.dash) {
					t.Errorf("%s: %s and %s are only %.0f apart", kind, la.class, lb.class, apart)
				}
			}
		}
	}
}
