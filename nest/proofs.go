package nest

import (
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"sync"

	"yardlay/nest/bound"
)

// Proofs remembers bounds, for a caller that lays much that is alike: what is asked
// for again is not proved again. The zero value is ready, and may be shared by any
// number of goroutines; what is asked for meanwhile is waited for.
type Proofs struct {
	mu    sync.Mutex
	known map[[sha256.Size]byte]*proved
	found int // bounds that were looked for
}

// proved is a bound, once ready is closed.
type proved struct {
	ready chan struct{}
	bound bound.Bound
}

// LowerBound is the function of that name. Bounds whose search the context cut short
// are not kept. A nil Proofs remembers nothing.
func (m *Proofs) LowerBound(ctx context.Context, p Problem) bound.Bound {
	if m == nil {
		return LowerBound(ctx, p)
	}
	return p.pastPins(m.lower(ctx, p.toBound()))
}

// lower returns the longest bound found of a problem.
func (m *Proofs) lower(ctx context.Context, b bound.Problem) bound.Bound {
	text, err := json.Marshal(b)
	if err != nil {
		panic(fmt.Sprintf("a problem of finite numbers does not encode: %v", err)) // Problem.Check refuses others
	}
	key := sha256.Sum256(text)
	for ctx.Err() == nil {
		m.mu.Lock()
		one, ok := m.known[key]
		if !ok {
			one = &proved{ready: make(chan struct{})}
			if m.known == nil {
				m.known = map[[sha256.Size]byte]*proved{}
			}
			m.known[key] = one
			m.found++
		}
		m.mu.Unlock()
		if !ok {
			return m.prove(ctx, key, one, b)
		}
		select {
		case <-one.ready:
			if m.keeps(key, one) {
				return one.bound
			}
		case <-ctx.Done():
		}
	}
	return bound.Plain(b)
}

// prove looks for a bound, and forgets it again when that was cut short.
func (m *Proofs) prove(ctx context.Context, key [sha256.Size]byte, one *proved, b bound.Problem) bound.Bound {
	one.bound = bound.Lower(ctx, b)[0]
	if ctx.Err() != nil {
		m.mu.Lock()
		delete(m.known, key)
		m.mu.Unlock()
	}
	close(one.ready)
	return one.bound
}

// keeps says whether a bound is the one that is remembered.
func (m *Proofs) keeps(key [sha256.Size]byte, one *proved) bool {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.known[key] == one
}
