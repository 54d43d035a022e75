//go:build !race

package nest

const slowdown = 1
