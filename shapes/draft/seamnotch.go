package draft

// notchPair is the distance between two notches of a group, mm (common practice).
const notchPair = 10

// seamNotches sets notches at distances (mm) along the seam that is so many from the back,
// of seams that follow each other round the body; the first in front of the middle of the
// side is number front. Seams in front have single notches, those behind double ones, the
// side the single one (common practice). A panel whose two seams are both in front, or
// both behind, could be sewn in the wrong way round: so every second seam from the side
// has three notches at its first mark.
func seamNotches(seam, front int, distances ...float64) []float64 {
	each, second := 1, (seam-front)%2 == 1
	if seam < front {
		each, second = 2, (front-seam)%2 == 0
	}
	var out []float64
	for i, d := range distances {
		n := each
		if second && i == 0 {
			n = 3
		}
		for k := range n {
			out = append(out, d+notchPair*float64(k))
		}
	}
	return out
}
