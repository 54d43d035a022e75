"use strict";
(function () {
  var key = document.body.dataset.key;
  var said = document.getElementById("said");
  var clear = document.getElementById("clear");
  var boxes = Array.from(document.querySelectorAll("input[data-ticks]"));
  var pieces = Array.from(document.querySelectorAll("[data-of]"));

  // What is done, by id. Where the browser keeps nothing, it lasts as long as the page.
  var done = {};
  function load() {
    try {
      var kept = JSON.parse(localStorage.getItem(key));
      done = kept && typeof kept === "object" ? kept : {};
    } catch (e) { /* as it is */ }
  }
  function save() {
    try {
      localStorage.setItem(key, JSON.stringify(done));
    } catch (e) {
      said.textContent = "This browser does not keep ticks: they are lost when the page is closed.";
    }
  }

  function ids(list) { return list.split(" "); }
  function isDone(id) { return done[id] === true; }
  function show() {
    boxes.forEach(function (box) {
      var of = ids(box.dataset.ticks);
      box.checked = of.every(isDone);
      box.indeterminate = !box.checked && of.some(isDone);
    });
    pieces.forEach(function (piece) {
      piece.classList.toggle("ticked", ids(piece.dataset.of).every(isDone));
    });
    document.querySelectorAll("table").forEach(function (table) {
      var count = table.querySelector(".count");
      if (!count) { return; }
      var all = table.querySelectorAll("input[data-ticks]");
      var ticked = Array.from(all).filter(function (box) { return box.checked; }).length;
      count.textContent = "(" + ticked + " of " + all.length + " done)";
    });
    clear.hidden = Object.keys(done).length === 0;
  }
  function tick(list, is) {
    ids(list).forEach(function (id) {
      if (is) { done[id] = true; } else { delete done[id]; }
    });
    show();
    save();
  }

  boxes.forEach(function (box) {
    box.addEventListener("change", function () { tick(box.dataset.ticks, box.checked); });
  });
  clear.addEventListener("click", function () {
    if (confirm("Clear all ticks of this gown?")) {
      done = {};
      said.textContent = "";
      show();
      save();
    }
  });
  window.addEventListener("storage", function (e) {
    if (e.key === key) { load(); show(); }
  });
  load();
  show();

  // tap ticks off the piece of a marker under the finger.
  function tap(target) {
    var piece = target.closest ? target.closest("[data-of]") : null;
    if (!piece) { return; }
    var is = !piece.classList.contains("ticked");
    var title = piece.querySelector("title");
    said.textContent = (title ? title.textContent : "piece") + (is ? ": ticked off" : ": not cut");
    tick(piece.dataset.of, is);
  }

  // zoom lets a marker be moved and brought nearer: what is seen is its view box.
  function zoom(figure) {
    var most = 24, step = 1.5;
    var view = figure.querySelector(".view"), svg = view.querySelector("svg");
    var first = svg.viewBox.baseVal;
    var whole = { x: first.x, y: first.y, w: first.width, h: first.height };
    var seen = { x: whole.x, y: whole.y, w: whole.w, h: whole.h };
    var fingers = new Map(), moved = 0, pressed = null;

    function set(x, y, w) {
      w = Math.min(whole.w, Math.max(whole.w / most, w));
      var h = w * whole.h / whole.w;
      seen = {
        x: Math.min(whole.x + whole.w - w, Math.max(whole.x, x)),
        y: Math.min(whole.y + whole.h - h, Math.max(whole.y, y)), w: w, h: h
      };
      svg.setAttribute("viewBox", [seen.x, seen.y, seen.w, seen.h].join(" "));
      figure.classList.toggle("near", seen.w < whole.w);
    }
    function at(x, y) { // the point of the drawing under one of the screen
      return new DOMPoint(x, y).matrixTransform(svg.getScreenCTM().inverse());
    }
    function nearer(by, x, y) {
      var p = at(x, y), w = Math.min(whole.w, Math.max(whole.w / most, seen.w / by)), k = w / seen.w;
      set(p.x - (p.x - seen.x) * k, p.y - (p.y - seen.y) * k, w);
    }
    function nearerMiddle(by) {
      var box = svg.getBoundingClientRect();
      nearer(by, box.left + box.width / 2, box.top + box.height / 2);
    }
    function middle() {
      var x = 0, y = 0, n = fingers.size;
      fingers.forEach(function (f) { x += f.x / n; y += f.y / n; });
      var reach = 0;
      fingers.forEach(function (f) { reach += Math.hypot(f.x - x, f.y - y); });
      return { x: x, y: y, reach: reach };
    }

    view.addEventListener("pointerdown", function (e) {
      if (e.button !== 0) { return; }
      if (fingers.size === 0) { moved = 0; pressed = e.target; }
      fingers.set(e.pointerId, { x: e.clientX, y: e.clientY });
      if (fingers.size > 1) { moved = 100; }
    });
    view.addEventListener("pointermove", function (e) {
      var finger = fingers.get(e.pointerId);
      if (!finger) { return; }
      var before = middle();
      var from = at(before.x, before.y);
      moved += Math.hypot(e.clientX - finger.x, e.clientY - finger.y);
      finger.x = e.clientX;
      finger.y = e.clientY;
      if (moved > 6 && !view.hasPointerCapture(e.pointerId)) { view.setPointerCapture(e.pointerId); }
      var now = middle();
      if (fingers.size > 1 && before.reach > 0) { nearer(now.reach / before.reach, before.x, before.y); }
      var to = at(now.x, now.y);
      set(seen.x + from.x - to.x, seen.y + from.y - to.y, seen.w);
    });
    ["pointerup", "pointercancel"].forEach(function (name) {
      view.addEventListener(name, function (e) {
        if (!fingers.delete(e.pointerId)) { return; }
        if (name === "pointerup" && fingers.size === 0 && moved <= 6) { tap(pressed); }
      });
    });
    view.addEventListener("pointerleave", function (e) {
      if (!view.hasPointerCapture(e.pointerId)) { fingers.delete(e.pointerId); }
    });
    view.addEventListener("wheel", function (e) { // with Ctrl, as a pad tells a pinch: the page scrolls else
      if (!e.ctrlKey) { return; }
      e.preventDefault();
      nearer(Math.exp(-e.deltaY / 200), e.clientX, e.clientY);
    }, { passive: false });
    view.addEventListener("keydown", function (e) {
      if (e.ctrlKey || e.metaKey || e.altKey) { return; }
      var d = seen.w / 8;
      switch (e.key) {
      case "+": case "=": nearerMiddle(step); break;
      case "-": nearerMiddle(1 / step); break;
      case "0": set(whole.x, whole.y, whole.w); break;
      case "ArrowLeft": set(seen.x - d, seen.y, seen.w); break;
      case "ArrowRight": set(seen.x + d, seen.y, seen.w); break;
      case "ArrowUp": if (seen.w >= whole.w) { return; } set(seen.x, seen.y - d, seen.w); break;
      case "ArrowDown": if (seen.w >= whole.w) { return; } set(seen.x, seen.y + d, seen.w); break;
      default: return;
      }
      e.preventDefault();
    });
    figure.querySelectorAll("button").forEach(function (button) {
      button.addEventListener("click", function () {
        switch (button.dataset.do) {
        case "in": nearerMiddle(step); break;
        case "out": nearerMiddle(1 / step); break;
        default: set(whole.x, whole.y, whole.w);
        }
      });
    });
    window.addEventListener("beforeprint", function () { set(whole.x, whole.y, whole.w); });
    view.tabIndex = 0;
    figure.classList.add("ready");
    figure.querySelector(".tools").hidden = false;
  }
  document.querySelectorAll("figure.marker").forEach(zoom);
})();
