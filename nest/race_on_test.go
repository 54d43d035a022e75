//go:build race

package nest

// slowdown is how much longer the race detector makes things take, at the most that
// Go's documentation tells of it: 20 times.
const slowdown = 20
