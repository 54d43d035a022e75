// The cloths as they are laid: markers that zoom, pieces lit up with their lines of the cut list.

import { zoomable } from "./zoom.js";

const zooms = new WeakMap(); // by figure
let pinned = ""; // ids of the copies that stay lit

// zoomOf is what zoomable returned for a marker.
export function zoomOf(figure) { return zooms.get(figure); }

function shares(list, ids) { return list.split(" ").some((id) => ids.includes(id)); }

// light lights up the pieces that are copies of ids, and their lines.
function light(list) {
  const ids = list ? list.split(" ") : [];
  for (const g of document.querySelectorAll(".cloths [data-of]")) g.classList.toggle("lit", shares(g.dataset.of, ids));
  for (const row of document.querySelectorAll(".cloths [data-lights]")) {
    row.classList.toggle("lit", shares(row.dataset.lights, ids));
    const button = row.querySelector("button");
    if (button) button.setAttribute("aria-pressed", String(pinned !== "" && row.dataset.lights === pinned));
  }
  for (const figure of document.querySelectorAll(".cloths figure.marker")) {
    const lit = figure.querySelectorAll(".lit");
    figure.querySelector(".lit-said").textContent = lit.length ? told(lit) : "";
  }
}

// told says of the pieces that are lit what they are called and where their notches are.
function told(lit) {
  const row = document.querySelector(".cloths tr.lit");
  const cells = row ? [...row.cells].map((cell) => cell.textContent) : [];
  const what = lit.length > 1 && row ? cells.slice(0, 3).join(", ") : lit[0].querySelector("title").textContent;
  return what + (cells[3] ? "; notches: " + cells[3] : "");
}

function pin(list) {
  pinned = pinned === list ? "" : list;
  light(pinned);
}

function tapped(target) {
  const piece = target.closest && target.closest("[data-of]");
  if (piece) pin(piece.dataset.of);
  else if (pinned) pin(pinned);
}

// ready makes markers zoom that do not yet.
function ready() {
  for (const figure of document.querySelectorAll(".cloths figure.marker")) {
    if (zooms.has(figure)) continue;
    const zoom = zoomable(figure, tapped);
    zoom.wheel = true;
    zooms.set(figure, zoom);
    new MutationObserver(() => {
      zoom.renew();
      light(pinned);
    }).observe(figure.querySelector(".view"), { childList: true });
  }
  tell();
}

// tell says aloud how cloths stand, when that is new.
const said = new Map();
function tell() {
  const news = [];
  for (const how of document.querySelectorAll(".cloths [data-state]")) {
    const state = how.dataset.state, of = how.parentElement.id;
    if (said.has(of) && said.get(of) !== state) news.push(state);
    said.set(of, state);
  }
  const place = document.getElementById("cloths-said");
  if (place && news.length) place.textContent = news.join(" ");
}

const over = (selector, of) => (event) => {
  const at = event.target.closest && event.target.closest(selector);
  if (at && at.closest(".cloths")) light(of(at));
};
const leave = (event) => {
  if (event.target.closest && event.target.closest(".cloths [data-of], .cloths [data-lights]")) light(pinned);
};
document.addEventListener("pointerover", over("[data-of]", (g) => g.dataset.of));
document.addEventListener("pointerover", over("[data-lights]", (row) => row.dataset.lights));
document.addEventListener("focusin", (event) => {
  over("[data-lights]", (row) => row.dataset.lights)(event);
  const row = event.target.closest && event.target.closest(".cloths [data-lights]");
  if (row) event.target.scrollIntoView({ block: "nearest" }); // what is said of it may have pushed it down
});
document.addEventListener("pointerout", leave);
document.addEventListener("focusout", leave);
document.addEventListener("click", (event) => {
  const button = event.target.closest && event.target.closest(".cloths [data-lights] button");
  if (button) pin(button.closest("[data-lights]").dataset.lights);
});
document.body.addEventListener("htmx:load", ready);
document.body.addEventListener("htmx:oobAfterSwap", ready);
ready();
