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

  document.querySelectorAll("figure.marker").forEach(function (figure) { zoomable(figure, tap); });
})();
