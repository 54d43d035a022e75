// Pieces moved by hand: dragged or pushed by keys they slide along their neighbours, and the judge's
// word on each comes from the program. What the program answers is the state; nothing is kept here.

import { zoomOf } from "./cloths.js";
import { say } from "./page.js";
import { slideOf } from "./slide.js";

const hands = new Map(); // by the index of the cloth

class Hand {
  constructor(figure) {
    this.cloth = figure.dataset.cloth;
    this.address = figure.dataset.hand;
    this.state = { held: false, kept: false, stretches: [] };
    this.drawn = new Map(); // where the pieces are in a drawing, by its mark
    this.rings = new Map(); // of pairs, as the program has sent them
    this.slides = new Map(); // of the pieces as they lie
    this.carried = null; // the drawing of what follows the pointer
    this.waiting = Promise.resolve();
  }

  figures() { return document.querySelectorAll(`figure.marker[data-hand][data-cloth="${this.cloth}"]`); }

  // ask sends a request after those before it, and shows what is answered.
  ask(what, fields) {
    this.waiting = this.waiting.then(() => this.send(what, fields)).catch(() => say("The program does not answer. Is it still running?"));
    return this.waiting;
  }

  async send(what, fields) {
    const body = new URLSearchParams({ cloth: this.cloth, version: String(this.state.version), ...fields });
    const got = await fetch(what ? this.address + "/" + what : this.address + "?" + body,
      what ? { method: "POST", headers: { "HX-Request": "true" }, body } : { headers: { "HX-Request": "true" } });
    if (got.ok) {
      this.take(await got.json());
      return;
    }
    const words = new DOMParser().parseFromString(await got.text(), "text/html").body.textContent.trim();
    if (what) await this.send("", {});
    this.tell(words);
  }

  take(state) {
    this.carried = null;
    if (state.version !== this.state.version) this.slides.clear();
    this.state = state;
    this.drawn.set(state.mark, new Map(state.stretches.flat().map((p) => [p.of, p.drawn])));
    for (const figure of this.figures()) this.dress(figure);
    const pinned = state.stretches.flat().filter((p) => p.pinned).length;
    this.tell(state.other ? "Your change made other pieces of it, so it is laid anew. Undo brings back what you laid by hand." :
      !state.held ? "" : state.told ? state.told.join(". ") + "." :
      "All pieces lie as they may. " + (pinned === 1 ? "1 is pinned." : pinned ? pinned + " are pinned." : "None is pinned."));
    this.show();
    if (chosen && chosen.hand === this) choose(state.held ? chosen : null);
  }

  tell(words) {
    for (const figure of this.figures()) {
      const said = figure.querySelector(".hand-said");
      if (said.textContent !== words) said.textContent = words;
    }
  }

  // dress shows the buttons that do something now.
  dress(figure) {
    figure.classList.toggle("in-hand", this.state.held);
    figure.querySelector('[data-by="take"]').hidden = this.state.held;
    for (const part of figure.querySelectorAll(".while-held")) part.hidden = !this.state.held;
    figure.querySelector('[data-by="anew"]').hidden = !this.state.kept;
    for (const [name, can] of [["back", this.state.back], ["forth", this.state.forth]]) {
      figure.querySelector(`[data-by="${name}"]`).setAttribute("aria-disabled", String(!can));
    }
  }

  // show draws all pieces where they are.
  show() {
    const seen = document.querySelector(`#cloth-${this.cloth}-seen input`);
    const drawn = seen && this.drawn.get(seen.value);
    for (const figure of this.figures()) {
      const list = this.state.held && this.state.stretches[figure.dataset.stretch] || [];
      const svg = figure.querySelector(".view svg"), ground = svg.querySelector("[data-origin]");
      if (!ground) continue;
      const origin = ground.dataset.origin.split(",").map(Number);
      const groups = new Map([...svg.querySelectorAll("[data-of]")].map((g) => [g.dataset.of, g]));
      const under = list.flatMap((p) => p.under || []);
      for (const p of list) {
        const g = groups.get(p.of);
        if (!g) continue;
        groups.delete(p.of);
        const from = drawn && drawn.get(p.of);
        if (from) place(g, from, p.now, origin);
        g.classList.toggle("pinned", p.pinned);
        g.classList.toggle("wrong", Boolean(p.wrong));
        g.classList.toggle("under", under.includes(p.of));
        g.setAttribute("tabindex", "0");
        g.setAttribute("role", "button");
        const words = [...g.querySelectorAll("text")].map((one) => one.textContent).join(" ");
        g.setAttribute("aria-label", (words || p.name) + (p.pinned ? ", pinned" : "") + (p.wrong ? ", lies where it may not" : ""));
      }
      svg.setAttribute("role", list.length ? "group" : "img");
      for (const g of groups.values()) bare(g);
    }
  }

  // carry draws a piece alone where it is, and marks what it lies over: at each frame.
  carry(figure, p) {
    const svg = figure.querySelector(".view svg");
    if (this.carried?.svg !== svg || this.carried.of !== p.of) {
      const seen = document.querySelector(`#cloth-${this.cloth}-seen input`);
      const groups = new Map([...svg.querySelectorAll("[data-of]")].map((g) => [g.dataset.of, g]));
      this.carried = {
        svg, of: p.of, groups, under: [], from: this.drawn.get(seen && seen.value)?.get(p.of),
        origin: svg.querySelector("[data-origin]").dataset.origin.split(",").map(Number)
      };
    }
    const c = this.carried, g = c.groups.get(p.of);
    if (!g || !c.from) return;
    place(g, c.from, p.now, c.origin);
    const under = p.under || [];
    for (const of of c.under) if (!under.includes(of)) c.groups.get(of)?.classList.remove("under");
    for (const of of under) if (!c.under.includes(of)) c.groups.get(of)?.classList.add("under");
    const wrong = under.length > 0;
    if (wrong !== c.wrong) g.classList.toggle("wrong", wrong);
    [c.under, c.wrong] = [under, wrong];
  }

  // slide asks once how a piece may slide as it is turned.
  slide(stretch, piece) {
    const p = this.state.stretches[stretch][piece];
    const key = [stretch, piece, p.now.turn, p.now.mirrored].join(" ");
    if (this.slides.has(key)) return this.slides.get(key);
    const slide = { now: null };
    this.slides.set(key, slide);
    const ask = (near) => fetch(this.address + "/slide", {
      method: "POST", headers: { "HX-Request": "true" }, body: new URLSearchParams({
        cloth: this.cloth, version: String(this.state.version), stretch, piece, x: p.now.at[0], y: p.now.at[1],
        turn: p.now.turn, mirrored: p.now.mirrored, near, known: JSON.stringify([...this.rings.keys()])
      })
    }).then((got) => got.ok ? got.json() : null)
      .then((answer) => { if (answer) slide.now = slideOf(answer, this.rings); });
    ask("300").then(() => ask("")).catch(() => {});
    return slide;
  }

  // put lays a piece where it is shown.
  put(stretch, piece) {
    const now = this.state.stretches[stretch][piece].now;
    return this.ask("put", { stretch, piece, x: now.at[0], y: now.at[1], turn: now.turn, mirrored: now.mirrored });
  }

  // turn lays a piece in the next of the ways it may lie in: mirrored, in the next of those.
  turn(stretch, piece, mirror) {
    const p = this.state.stretches[stretch][piece];
    const ways = p.ways.filter((w) => (w.mirrored !== p.now.mirrored) === mirror);
    if (!ways.length) {
      this.tell(mirror ? "The nap and the pair of this piece do not let it be mirrored." : "The nap does not let this piece be turned.");
      return;
    }
    const k = ways.findIndex((w) => w.turn === p.now.turn);
    const way = ways[mirror ? Math.max(k, 0) : (k + 1) % ways.length];
    if (!mirror && ways.length < 2) {
      this.tell("The nap does not let this piece be turned.");
      return;
    }
    const middle = middleOf(this, stretch, p);
    const before = apply(p.now, middle.own);
    p.now = { at: [0, 0], turn: way.turn, mirrored: way.mirrored };
    const after = apply(p.now, middle.own);
    p.now.at = [before[0] - after[0], before[1] - after[1]];
    this.put(stretch, piece);
  }
}

function bare(g) {
  g.removeAttribute("transform");
  g.classList.remove("pinned", "wrong", "under", "carried");
  for (const name of ["tabindex", "role", "aria-label"]) g.removeAttribute(name);
}

// matrix is that of a pose, from the own coordinates of a piece to those of the cloth.
function matrix(p) {
  const turn = p.turn * Math.PI / 180, cos = Math.cos(turn), sin = Math.sin(turn), m = p.mirrored ? -1 : 1;
  return new DOMMatrix([cos, sin, -sin * m, cos * m, p.at[0], p.at[1]]);
}

function apply(p, at) {
  const q = matrix(p).transformPoint(new DOMPoint(at[0], at[1]));
  return [q.x, q.y];
}

// place moves the group of a piece from where it is drawn; y of the cloth goes up.
function place(g, drawn, now, origin) {
  if (drawn.turn === now.turn && drawn.mirrored === now.mirrored && drawn.at[0] === now.at[0] && drawn.at[1] === now.at[1]) {
    g.removeAttribute("transform");
    return;
  }
  const onto = new DOMMatrix([1, 0, 0, -1, origin[0], origin[1]]);
  const m = onto.multiply(matrix(now)).multiply(matrix(drawn).inverse()).multiply(onto.inverse());
  g.setAttribute("transform", `matrix(${[m.a, m.b, m.c, m.d, m.e, m.f].join(" ")})`);
}

// middleOf is the middle of a piece in its own coordinates.
function middleOf(hand, stretch, p) {
  const figure = [...hand.figures()].find((f) => f.dataset.stretch === String(stretch));
  const svg = figure.querySelector(".view svg");
  const origin = svg.querySelector("[data-origin]").dataset.origin.split(",").map(Number);
  const g = [...svg.querySelectorAll("[data-of]")].find((one) => one.dataset.of === p.of);
  const box = g.querySelector(".piece").getBBox();
  const at = new DOMPoint(box.x + box.width / 2 - origin[0], origin[1] - box.y - box.height / 2);
  const seen = document.querySelector(`#cloth-${hand.cloth}-seen input`);
  const drawn = hand.drawn.get(seen && seen.value)?.get(p.of) || p.drawn;
  const own = matrix(drawn).inverse().transformPoint(at);
  return { own: [own.x, own.y] };
}

// found is the hand, stretch and piece of something in a drawing; null where nothing is in hand.
function found(target) {
  const g = target.closest && target.closest(".in-hand [data-of]");
  if (!g) return null;
  const figure = g.closest("figure.marker"), hand = hands.get(figure.dataset.cloth);
  const stretch = Number(figure.dataset.stretch);
  const piece = (hand.state.stretches[stretch] || []).findIndex((p) => p.of === g.dataset.of);
  return piece < 0 ? null : { figure, hand, stretch, piece };
}

let chosen = null; // the piece that the buttons are about
function choose(what) {
  chosen = what;
  for (const figure of document.querySelectorAll("figure.in-hand")) {
    const p = what && figure === what.figure && what.hand.state.stretches[what.stretch][what.piece];
    for (const name of ["turn", "mirror", "pin"]) {
      figure.querySelector(`[data-by="${name}"]`).setAttribute("aria-disabled", String(!p));
    }
    figure.querySelector('[data-by="pin"]').textContent = p && p.pinned ? "Unpin" : "Pin";
  }
}

// cloth is the point of the cloth under one of the screen, and how many mm a point of the screen is.
function cloth(figure, x, y) {
  const zoom = zoomOf(figure), at = zoom.at(x, y), by = zoom.at(x + 1, y);
  const origin = figure.querySelector("[data-origin]").dataset.origin.split(",").map(Number);
  return { at: [at.x - origin[0], origin[1] - at.y], dot: Math.abs(by.x - at.x) };
}

let carried = null;
let frame = 0;

function carry(event) {
  const { hand, stretch, piece, figure, off } = carried;
  const p = hand.state.stretches[stretch][piece];
  const point = cloth(figure, event.clientX, event.clientY);
  const wish = [point.at[0] + off[0], point.at[1] + off[1]];
  const slide = hand.slide(stretch, piece).now;
  const rests = slide ? slide.place(wish, Math.max(30, 45 * point.dot), 8 * point.dot) : { at: wish, over: [] };
  p.now = { ...p.now, at: rests.at };
  p.under = rests.over.filter((k) => k >= 0).map((k) => hand.state.stretches[stretch][k].of);
  p.wrong = rests.over.length ? [] : undefined;
  if (!frame) {
    frame = requestAnimationFrame(() => {
      frame = 0;
      hand.carry(figure, p);
    });
  }
}

function pressed(event) {
  const what = event.button === 0 && event.isPrimary && found(event.target);
  if (!what) return;
  const { hand, stretch, piece, figure } = what;
  const at = cloth(figure, event.clientX, event.clientY).at, now = hand.state.stretches[stretch][piece].now.at;
  carried = { ...what, id: event.pointerId, off: [now[0] - at[0], now[1] - at[1]], was: now, from: [event.clientX, event.clientY], moves: false };
  hand.slide(stretch, piece);
  choose(what);
}

function moved(event) {
  if (!carried || event.pointerId !== carried.id) return;
  if (!carried.moves && Math.hypot(event.clientX - carried.from[0], event.clientY - carried.from[1]) < 4) return;
  if (!carried.moves) carried.figure.querySelector(".view").setPointerCapture(event.pointerId);
  carried.moves = true;
  carry(event);
}

function released(event) {
  if (!carried || event.pointerId !== carried.id) return;
  const { hand, stretch, piece, moves, was } = carried;
  carried = null;
  if (!moves) return;
  if (event.type === "pointercancel") {
    hand.state.stretches[stretch][piece].now = { ...hand.state.stretches[stretch][piece].now, at: was };
    hand.ask("", {});
    return;
  }
  hand.put(stretch, piece);
}

// Keys push the piece in focus: a little, with Shift further. It is laid when they rest.
let pushing = 0;
function pushed(event) {
  const what = !event.ctrlKey && !event.metaKey && !event.altKey && found(event.target);
  if (!what) return;
  const { hand, stretch, piece } = what, p = hand.state.stretches[stretch][piece];
  const by = Number(event.shiftKey ? what.figure.dataset.further : what.figure.dataset.little);
  const ways = { ArrowLeft: [-by, 0], ArrowRight: [by, 0], ArrowUp: [0, by], ArrowDown: [0, -by] };
  choose(what);
  if (ways[event.key]) {
    p.now = { ...p.now, at: [p.now.at[0] + ways[event.key][0], p.now.at[1] + ways[event.key][1]] };
    hand.show();
    clearTimeout(pushing);
    pushing = setTimeout(() => hand.put(stretch, piece), 350);
  } else if (event.key === "t") hand.turn(stretch, piece, false);
  else if (event.key === "m") hand.turn(stretch, piece, true);
  else if (event.key === "p") hand.ask("pin", { stretch, piece });
  else return;
  event.preventDefault();
}

function asked(event) {
  const button = event.target.closest && event.target.closest("[data-by]");
  if (!button || button.getAttribute("aria-disabled") === "true") return;
  const figure = button.closest("figure.marker"), hand = handOf(figure), what = button.dataset.by;
  const about = chosen && chosen.figure === figure ? chosen : null;
  switch (what) {
  case "turn": case "mirror":
    if (about) hand.turn(about.stretch, about.piece, what === "mirror");
    break;
  case "pin":
    if (about) hand.ask("pin", { stretch: about.stretch, piece: about.piece }).then(() => choose(about));
    break;
  default:
    hand.ask(what, {}).then(() => choose(null));
  }
}

function handOf(figure) {
  let hand = hands.get(figure.dataset.cloth);
  if (!hand) {
    hand = new Hand(figure);
    hands.set(figure.dataset.cloth, hand);
  }
  return hand;
}

// ready takes up markers that are new, and what the program has in hand.
const known = new WeakSet();
function ready() {
  for (const figure of document.querySelectorAll("figure.marker[data-hand]")) {
    const hand = handOf(figure), zoom = zoomOf(figure);
    if (known.has(figure) || !zoom) continue;
    known.add(figure);
    figure.querySelector(".by-hand").hidden = false;
    zoom.free = () => !carried;
    const view = figure.querySelector(".view");
    view.addEventListener("pointerdown", pressed, { capture: true });
    view.addEventListener("pointermove", moved);
    view.addEventListener("pointerup", released);
    view.addEventListener("pointercancel", released);
    new MutationObserver(() => hand.show()).observe(view, { childList: true });
    hand.ask("", {});
  }
}

let later = 0;
function again() {
  ready();
  clearTimeout(later);
  later = setTimeout(() => { for (const hand of hands.values()) if (hand.state.held || hand.state.other) hand.ask("", {}); }, 30);
}

document.addEventListener("keydown", pushed);
document.addEventListener("click", asked);
document.addEventListener("focusin", (event) => {
  const what = found(event.target);
  if (what) choose(what);
});
document.body.addEventListener("htmx:load", again);
document.body.addEventListener("htmx:oobAfterSwap", again);
ready();
