// The form of a job: what is typed goes to the program as it is typed, and what comes
// back is the whole form, of which only what differs is put into the page.

import { say } from "./page.js";

const pause = 100; // ms without typing
const base = () => document.getElementById("form").dataset.base;
const typing = new Map(); // timers, by the ids of fields
let queue = Promise.resolve();

// told tries an answer of the program: the form as it is now, or why not.
async function told(answer) {
  const text = await answer.text();
  if (answer.ok) {
    show(text);
    return true;
  }
  document.getElementById("trouble").replaceChildren(...new DOMParser().parseFromString(text, "text/html").body.childNodes);
  return false;
}

// shown lists the tables that show all their fields.
const shown = () => [...document.querySelectorAll("#form details[data-more][open]")].map((d) => ["open", d.dataset.more]);

// post asks for a change after those that were asked for before, and returns the status
// of the answer.
function post(what, values) {
  queue = queue.then(async () => {
    const form = document.getElementById("form");
    const body = new URLSearchParams([...Object.entries(values()), ["version", form.dataset.version], ...shown()]);
    const answer = await fetch(`${base()}/${what}`, { method: "POST", headers: { "HX-Request": "true" }, body, keepalive: true });
    if (await told(answer)) document.getElementById("trouble").replaceChildren();
    else await look();
    return answer.status;
  }).catch(() => say("The program does not answer. Is it still running? What you have typed since is not kept."));
  return queue;
}

async function look() {
  await told(await fetch(`${base()}?${new URLSearchParams(shown())}`, { headers: { "HX-Request": "true" } }));
}

// show puts a form into the page in place of the one that is there.
function show(text) {
  const now = new DOMParser().parseFromString(text, "text/html").getElementById("form");
  if (!now) return;
  merge(document.getElementById("form"), now);
  const field = document.activeElement;
  light(field);
  const errors = field && field.dataset.path && document.getElementById(`e-${field.dataset.path}`);
  const said = document.getElementById("form-said");
  const words = errors ? errors.textContent.trim() : "";
  if (said.textContent !== words) said.textContent = words;
}

const same = (a, b) => a.nodeType === b.nodeType && a.nodeName === b.nodeName && (a.id || "") === (b.id || "");

// merge makes an element like another one and keeps what is alike, so that nobody who
// types is disturbed.
function merge(here, now) {
  if (here.isEqualNode(now) && here.nodeName !== "INPUT" && !here.querySelector("input, select")) return;
  for (const name of here.getAttributeNames()) {
    if (!now.hasAttribute(name) && name !== "open") here.removeAttribute(name);
  }
  for (const { name, value } of now.attributes) {
    if (here.getAttribute(name) !== value && !(name === "open" && here.nodeName === "DETAILS")) here.setAttribute(name, value);
  }
  if (here.nodeName === "INPUT") {
    const value = now.getAttribute("value") || "";
    if (!typing.has(here.id) && here.value.trim() !== value) here.value = value;
    return;
  }
  if (here.id === "form-said") return;
  const byId = new Map();
  for (const child of here.children) if (child.id) byId.set(child.id, child);
  let at = here.firstChild;
  for (const child of [...now.childNodes]) {
    const known = child.id ? byId.get(child.id) : at && !at.id && same(at, child) ? at : null;
    if (known && same(known, child)) {
      if (known === at) at = at.nextSibling;
      else here.insertBefore(known, at);
      if (child.nodeType === Node.ELEMENT_NODE) merge(known, child);
      else if (known.nodeValue !== child.nodeValue) known.nodeValue = child.nodeValue;
    } else here.insertBefore(document.importNode(child, true), at);
  }
  while (at) {
    const gone = at;
    at = at.nextSibling;
    gone.remove();
  }
  if (here.nodeName === "SELECT" && !typing.has(here.id)) {
    const chosen = [...now.options].find((o) => o.hasAttribute("selected"));
    here.value = chosen ? chosen.value : "";
  }
}

// place is the field of a path and what its table is called, to know it again after
// somebody else has changed the job.
const place = (path) => [document.getElementById(`f-${path}`), document.getElementById(`th-${path.replace(/\].*$/, "]")}`)]
  .map((e) => e && (e.id + (e.matches("h3") ? e.textContent : ""))).join(" ");

// set sends what stands in a field, once more where another page was faster.
async function set(field) {
  clearTimeout(typing.get(field.id));
  typing.set(field.id, 0);
  const { path } = field.dataset;
  const where = place(path);
  let sent = field.value;
  const send = () => post("set", () => ({ path, value: (sent = field.value) }));
  if (await send() === 409 && place(path) === where) await send();
  if (field.value === sent) typing.delete(field.id);
}

// settle sends all that was typed, and returns when it is there.
function settle() {
  for (const id of typing.keys()) {
    const field = document.getElementById(id);
    if (field) set(field);
    else typing.delete(id);
  }
  return queue;
}
addEventListener("pagehide", settle);

// The keys that save, pressed before the bar knows of anything to save.
document.addEventListener("keydown", (event) => {
  if (!typing.size || !(event.ctrlKey || event.metaKey) || event.altKey || event.key.toLowerCase() !== "s") return;
  event.preventDefault();
  event.stopImmediatePropagation();
  settle().then(() => htmx.ajax("POST", base().replace(/measures$/, "save"), { target: "#bar", swap: "outerHTML" }));
}, true);

// What the bar does, saving and steps back, comes after what was typed.
document.body.addEventListener("htmx:confirm", (event) => {
  if (!typing.size || !event.target.closest("#bar")) return;
  event.preventDefault();
  settle().then(() => event.detail.issueRequest(true));
});

document.addEventListener("input", (event) => {
  const field = event.target;
  if (!field.dataset.path) return;
  clearTimeout(typing.get(field.id));
  const wait = field.dataset.whole !== undefined ? 0 : setTimeout(() => set(field), field.nodeName === "SELECT" ? 0 : pause);
  typing.set(field.id, wait);
});
document.addEventListener("change", (event) => {
  if (event.target.dataset.path && event.target.nodeName === "INPUT" && typing.has(event.target.id)) set(event.target);
});
document.addEventListener("keydown", (event) => {
  if (event.key === "Enter" && event.target.dataset.path && typing.has(event.target.id)) set(event.target);
});

document.addEventListener("click", async (event) => {
  const button = event.target.closest("#form button[data-do]");
  if (!button) return;
  const { do: what, path, to = "" } = button.dataset;
  const before = new Set([...document.querySelectorAll("[id^='t-']")].map((t) => t.id));
  await settle();
  await post(what, () => ({ path, to }));
  if (what === "add") {
    const added = [...document.querySelectorAll("[id^='t-']")].find((t) => !before.has(t.id));
    const first = added && added.querySelector("input, select");
    if (first) first.focus();
  } else if (what === "remove") {
    const near = document.getElementById(`cut-${path}`) || document.getElementById(`f-${path}`) ||
      document.getElementById(`add-${path.replace(/\[\d+\]$/, "")}`) || document.getElementById("main");
    (near.matches("a, button, input, select, main") ? near : near.querySelector("a, button")).focus();
  } else if (what === "move") {
    const moved = path.replace(/\[\d+\]$/, `[${to}]`);
    const ways = [`up-${moved}`, `down-${moved}`, `f-${moved}`].map((id) => document.getElementById(id));
    const way = ways.find((b) => b && !b.disabled);
    if (way) way.focus();
  }
});

// More fields of a table come when they are asked for.
document.addEventListener("toggle", (event) => {
  if (event.target.open && event.target.dataset.more !== undefined && event.target.children.length < 2) {
    queue = queue.then(look).catch(() => {});
  }
}, true);

// light lights up the line of the measure that a field is.
function light(field) {
  const name = field && field.dataset && field.dataset.measure;
  const line = name && document.getElementById(`taken-${name}`);
  for (const lit of document.querySelectorAll(".taken.lit")) if (lit !== line) lit.classList.remove("lit");
  if (line) line.classList.add("lit");
}
document.addEventListener("focusin", (event) => light(event.target));

// Back from the cloths to the field that was left for them, where a page has them below the form.
let left = "";
document.addEventListener("focusin", (event) => {
  if (event.target.id && event.target.closest("#form .fields")) left = event.target.id;
});
document.addEventListener("click", (event) => {
  const field = event.target.closest("#to-form") && document.getElementById(left);
  if (!field) return;
  event.preventDefault();
  field.focus({ preventScroll: true });
  field.scrollIntoView({ block: "center" });
});

// What another page, the text or a step back has changed is shown here too.
document.body.addEventListener("document", (event) => {
  queue = queue.then(async () => {
    const form = document.getElementById("form");
    if (form && Number(form.dataset.version) < event.detail.version) await look();
  }).catch(() => {});
});
