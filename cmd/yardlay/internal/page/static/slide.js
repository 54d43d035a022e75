// Where a piece may slide: rooms in which its origin keeps it on the cloth, and blocks that it may not
// be in, because of a neighbour each. Lengths are mm.

const clear = 0.02; // that a place is kept off the edge of a block: the program finds the place itself

// slideOf makes a slide of what the program sends; rings remembers those of pairs.
export function slideOf(answer, rings) {
  const blocks = [];
  for (const b of answer.blocks || []) {
    if (b.rings) rings.set(b.pair, b.rings);
    const moved = (rings.get(b.pair) || []).map((ring) => ring.map((v) => [v[0] + b.at[0], v[1] + b.at[1]]));
    blocks.push({ other: b.other, rings: moved, box: boxOf(moved) });
  }
  return new Slide(answer, blocks);
}

class Slide {
  constructor(answer, blocks) {
    this.rooms = (answer.rooms || []).map((r) => r.min ? [r.min, r.max] : [r.Min, r.Max]);
    this.first = answer.first;
    this.step = answer.step || [0, 0];
    this.blocks = blocks;
  }

  // place is where a piece comes to rest that is wished somewhere: out of the blocks, when that is no
  // farther than reach; in contact, when that is within snap. over are the others that it lies over.
  place(wish, reach, snap) {
    const q = this.onGrid(this.within(wish));
    const inside = this.blocks.filter((b) => holds(b, q));
    if (this.step[0] || this.step[1]) return { at: q, over: inside.map((b) => b.other) };
    const far = inside.length ? reach : snap;
    const best = this.nearest(q, far, inside.length > 0);
    if (best) return { at: best, over: [] };
    return { at: q, over: inside.map((b) => b.other) };
  }

  within(q) {
    let best = null, least = Infinity;
    for (const [min, max] of this.rooms) {
      const at = [Math.min(max[0], Math.max(min[0], q[0])), Math.min(max[1], Math.max(min[1], q[1]))];
      const off = Math.hypot(at[0] - q[0], at[1] - q[1]);
      if (off < least) [best, least] = [at, off];
    }
    return best || q;
  }

  // onGrid is the nearest place on a repeat.
  onGrid(q) {
    return q.map((v, axis) => this.step[axis] ?
      this.first[axis] + Math.round((v - this.first[axis]) / this.step[axis]) * this.step[axis] : v);
  }

  free(q) { return !this.blocks.some((b) => holds(b, q)) && this.inRoom(q); }

  inRoom(q) {
    return !this.rooms.length || this.rooms.some(([min, max]) =>
      q[0] >= min[0] - 1e-6 && q[0] <= max[0] + 1e-6 && q[1] >= min[1] - 1e-6 && q[1] <= max[1] + 1e-6);
  }

  // nearest is the free place nearest to q on the edges of blocks and rooms, or where two of them cross.
  nearest(q, far, inside) {
    const edges = [];
    const add = (p, r) => {
      const at = foot(q, p, r), off = Math.hypot(at[0] - q[0], at[1] - q[1]);
      if (off <= far) edges.push({ p, r, at, off });
    };
    for (const b of this.blocks) {
      if (q[0] < b.box[0] - far || q[0] > b.box[2] + far || q[1] < b.box[1] - far || q[1] > b.box[3] + far) continue;
      for (const ring of b.rings) for (let i = 0; i + 1 < ring.length; i++) add(ring[i], ring[i + 1]);
    }
    for (const [min, max] of this.rooms) {
      const c = [min, [max[0], min[1]], max, [min[0], max[1]]];
      for (let i = 0; i < 4; i++) add(c[i], c[(i + 1) % 4]);
    }
    edges.sort((a, b) => a.off - b.off);
    for (const e of edges) {
      const at = this.beside(q, e.at, inside);
      if (at) return this.corner(q, at, edges, far) || at;
    }
    return this.corner(q, null, edges, far);
  }

  // corner is the nearest free place where two edges cross, if it is hardly farther than at.
  corner(q, at, edges, far) {
    const most = at ? Math.min(far, Math.hypot(at[0] - q[0], at[1] - q[1]) * 1.3 + 1) : far;
    const near = edges.filter((e) => e.off <= most).slice(0, 50), list = [];
    for (let i = 0; i < near.length; i++) {
      for (let k = 0; k < i; k++) {
        const c = crossing(near[i], near[k]);
        if (c) list.push({ c, off: Math.hypot(c[0] - q[0], c[1] - q[1]) });
      }
    }
    list.sort((a, b) => a.off - b.off);
    for (const one of list) {
      if (one.off > most) break;
      for (const around of [[1, 0], [-1, 0], [0, 1], [0, -1], [1, 1], [1, -1], [-1, 1], [-1, -1], [0, 0]]) {
        const c = [one.c[0] + around[0] * clear, one.c[1] + around[1] * clear];
        if (this.free(c)) return c;
      }
    }
    return null;
  }

  // beside is a place by an edge, clear of the block.
  beside(q, at, inside) {
    const off = Math.hypot(at[0] - q[0], at[1] - q[1]);
    if (off < 1e-9) return this.free(at) ? at : null;
    const by = (inside ? clear : -clear) / off;
    const c = [at[0] + (at[0] - q[0]) * by, at[1] + (at[1] - q[1]) * by];
    if (this.free(c)) return c;
    return this.free(at) ? at : null;
  }
}

function boxOf(rings) {
  const box = [Infinity, Infinity, -Infinity, -Infinity];
  for (const ring of rings) {
    for (const [x, y] of ring) {
      box[0] = Math.min(box[0], x);
      box[1] = Math.min(box[1], y);
      box[2] = Math.max(box[2], x);
      box[3] = Math.max(box[3], y);
    }
  }
  return box;
}

// holds says whether the rings of a block wind round a point.
function holds(b, q) {
  if (q[0] <= b.box[0] || q[0] >= b.box[2] || q[1] <= b.box[1] || q[1] >= b.box[3]) return false;
  let turns = 0;
  for (const ring of b.rings) {
    for (let i = 0; i + 1 < ring.length; i++) {
      const p = ring[i], r = ring[i + 1];
      if ((p[1] <= q[1]) === (r[1] <= q[1])) continue;
      const side = (r[0] - p[0]) * (q[1] - p[1]) - (q[0] - p[0]) * (r[1] - p[1]);
      if (p[1] <= q[1] ? side > 0 : side < 0) turns += p[1] <= q[1] ? 1 : -1;
    }
  }
  return turns !== 0;
}

function foot(q, p, r) {
  const d = [r[0] - p[0], r[1] - p[1]], square = d[0] * d[0] + d[1] * d[1];
  const t = square ? Math.min(1, Math.max(0, ((q[0] - p[0]) * d[0] + (q[1] - p[1]) * d[1]) / square)) : 0;
  return [p[0] + t * d[0], p[1] + t * d[1]];
}

function crossing(a, b) {
  const d = [a.r[0] - a.p[0], a.r[1] - a.p[1]], e = [b.r[0] - b.p[0], b.r[1] - b.p[1]];
  const det = d[0] * e[1] - d[1] * e[0];
  if (Math.abs(det) < 1e-9) return null;
  const w = [b.p[0] - a.p[0], b.p[1] - a.p[1]];
  const s = (w[0] * e[1] - w[1] * e[0]) / det, t = (w[0] * d[1] - w[1] * d[0]) / det;
  return s < 0 || s > 1 || t < 0 || t > 1 ? null : [a.p[0] + s * d[0], a.p[1] + s * d[1]];
}
