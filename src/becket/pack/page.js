// The page of one crane: shows what was worked out beforehand. It looks up; it works nothing out.
"use strict";
(function () {
  const data = JSON.parse(document.getElementById("data").textContent);
  const byId = function (id) { return document.getElementById(id); };

  function make(name, kind, text) {
    const made = document.createElement(name);
    if (kind) made.className = kind;
    if (text !== undefined) made.textContent = text;
    return made;
  }

  function row(href, parts) {
    const item = make("li");
    const link = make("a", "row");
    link.href = href;
    parts.forEach(function (part) { link.append(part); });
    item.append(link);
    return item;
  }

  // ---- which view is shown ----

  const titles = document.title;

  function address(kind, words) { return "#" + [kind].concat(words.map(encodeURIComponent)).join("/"); }

  function readAddress() {
    try { return location.hash.slice(1).split("/").map(decodeURIComponent); } catch (_) { return [""]; }
  }

  function show() {
    const words = readAddress();
    const kind = words[0];
    let view = null;
    if (kind === "pattern") view = byId("pattern-" + data.states.indexOf(words[1]));
    else if (kind === "from" && data.states.includes(words[1])) view = showFrom(words[1]);
    else if (kind === "change") view = showChange(words[1], words[2], words[3] || "0");
    else if (["falls", "patterns", "changes", "find"].includes(kind)) view = byId("view-" + kind);
    if (!view) view = byId("view-start");
    const before = document.querySelector("main > section.open");
    if (before) before.classList.remove("open");
    view.classList.add("open");
    const heading = view.querySelector("h1");
    document.title = heading.textContent + ", " + titles;
    const under = { pattern: "patterns", from: "changes", change: "changes" }[kind] || kind || "start";
    document.querySelectorAll(".foot a, .strap a").forEach(function (link) {
      if (link.getAttribute("href") === "#" + under) link.setAttribute("aria-current", "page");
      else link.removeAttribute("aria-current");
    });
    window.scrollTo(0, 0);
    if (show.again) heading.focus({ preventScroll: true });
    show.again = true;
  }

  // ---- changes ----

  const changes = data.change.changes;

  function verdict(word) { return make("span", "verdict " + word, word === "fail" ? "FAIL" : word); }

  function statesFrom(before) {
    return data.states.filter(function (after) {
      return changes.some(function (one) { return one[0] === before && one[1] === after; });
    });
  }

  function setUps(before, after) {
    return changes.filter(function (one) { return one[0] === before && one[1] === after; });
  }

  function showFrom(before) {
    byId("from-title").textContent = "Rigged now: " + before;
    const list = byId("from-list");
    list.replaceChildren();
    statesFrom(before).forEach(function (after) {
      setUps(before, after).forEach(function (one, number) {
        const set = make("span", "", data.change.strings[one[2]]);
        list.append(row(address("change", [before, after, String(number)]), [make("b", "", "to " + after), verdict(one[3]), set]));
      });
    });
    return byId("view-from");
  }

  function showChange(before, after, number) {
    const one = setUps(before, after)[Number(number)];
    if (!one) return null;
    byId("change-title").textContent = before + " to " + after;
    byId("change-set-up").textContent = "For " + data.change.strings[one[2]] + ".";
    const links = byId("change-links");
    links.replaceChildren();
    [before, after].forEach(function (state) {
      links.append(row(address("pattern", [state]), [document.createTextNode("Pattern " + state)]));
    });
    setUps(before, after).forEach(function (other, index) {
      if (other !== one) links.append(row(address("change", [before, after, String(index)]), [document.createTextNode("The same with " + data.change.strings[other[2]]), verdict(other[3])]));
    });
    const body = byId("change-body"), verdicts = byId("change-verdict");
    body.replaceChildren();
    verdicts.replaceChildren();
    data.change.pages[one[4]].forEach(function (index) {
      const line = data.change.lines[index].map(function (word) { return data.change.strings[word]; });
      addLine(line[0] === "stop" || line[0] === "hatch" ? verdicts : body, line);
    });
    return byId("view-change");
  }

  function listIn(body, name, kind) {
    const last = body.lastElementChild;
    if (last && last.className === kind) return last;
    const list = make(name, kind);
    body.append(list);
    return list;
  }

  function addLine(body, line) {
    const kind = line[0];
    if (kind === "head") body.append(make("h2", "", line[1]));
    else if (kind === "text") body.append(make("p", "", line[1]));
    else if (kind === "stop" || kind === "hatch") body.append(make("p", kind, line[1]));
    else if (kind === "pair") addPair(body, line);
    else if (kind === "step") addStep(body, line);
    else addCheck(body, line);
  }

  function addPair(body, line) {
    const pair = make("div", "pair");
    pair.append(make("dt", "", line[1]), make("dd", "", line[2]));
    listIn(body, "dl", "pairs").append(pair);
  }

  function addCheck(body, line) {
    const item = make("li");
    item.append(verdict(line[0]), make("b", "", line[1]));
    if (line[2]) item.append(make("p", "", line[2]));
    listIn(body, "ul", "checks").append(item);
  }

  function addStep(body, line) {
    const item = make("li", "step");
    item.append(make("span", "number", line[1]), make("span", "who", line[2]), make("p", "do", line[3]));
    if (line[4]) item.append(make("p", "", line[4]));
    if (line[5]) item.append(make("p", "enter", line[5]));
    listIn(body, "ol", "steps").append(item);
  }

  // ---- falls finder ----

  const finder = data.finder;
  const form = byId("finder");

  function options(select, words) {
    const kept = select.value;
    select.replaceChildren(select.options[0]);
    words.forEach(function (word) {
      const option = make("option", "", word);
      option.value = word;
      select.append(option);
    });
    select.value = words.includes(kept) ? kept : "";
  }

  function unlike(words) { return Array.from(new Set(words)); }

  function grids() {
    return finder.grids.filter(function (grid) {
      return grid.block === form.block.value && grid.chart === form.chart.value;
    });
  }

  function fillForm() {
    options(form.block, unlike(finder.grids.map(function (grid) { return grid.block; })));
    options(form.chart, unlike(finder.grids.map(function (grid) { return grid.chart; })));
    fillBooms();
  }

  function fillBooms() { options(form.boom, grids().map(function (grid) { return grid.boom; })); }

  // the first place whose figure is no less: -1 none
  function atLeast(list, figure) { return list.findIndex(function (one) { return one >= figure; }); }

  // the last place whose figure is no more: -1 none
  function atMost(list, figure) { return list.findLastIndex(function (one) { return one <= figure; }); }

  function run(list, place) {
    let at = 0;
    while (place >= list[at]) { place -= list[at]; at += 2; }
    return list[at + 1];
  }

  function lookUp(grid, at) {
    const map = finder.maps[grid.maps[at.greatest * (at.greatest + 1) / 2 + at.least]];
    return finder.answers[run(finder.columns[run(map, at.top * grid.bottoms.length + at.bottom)], at.load)];
  }

  function readFigures() {
    const figures = {};
    for (const name of ["load", "least", "greatest", "top", "bottom"]) {
      const text = form[name].value.trim().replace("\u2212", "-");
      if (!/^-?[0-9]{1,6}(\.[0-9]{1,3})?$/.test(text)) return { wrong: form[name] };
      figures[name] = Number(text);
      if (!(name === "top" || name === "bottom") && figures[name] < 0) return { wrong: form[name] };
    }
    return figures;
  }

  function place(grid, figures) {
    const at = {
      load: atLeast(grid.loads, figures.load),
      least: atMost(grid.radii, figures.least),
      greatest: atLeast(grid.radii, figures.greatest),
      top: atLeast(grid.tops, figures.top),
      bottom: grid.bottoms.findIndex(function (one) { return one <= figures.bottom; })
    };
    const out = [];
    const mass = " " + finder.units.mass, length = " " + finder.units.length;
    const last = function (list) { return list[list.length - 1]; };
    if (at.load < 0) out.push("load over " + last(grid.loads) + mass + ", the most that this block or this chart carries");
    if (at.least < 0) out.push("radius under " + figure(grid.radii[0]) + length);
    if (at.greatest < 0) out.push("radius over " + figure(last(grid.radii)) + length);
    if (at.top < 0) out.push("highest hook over " + last(grid.tops) + length);
    if (at.bottom < 0) out.push("lowest hook under " + last(grid.bottoms) + length);
    return { at: at, out: out };
  }

  function figure(value) { return String(Number(value.toFixed(3))).replace("-", "\u2212"); }

  function names(places) { return places.map(function (one) { return finder.limits[one]; }).join(", "); }

  function answerBox(kind) {
    const box = byId("answer");
    box.className = "answer " + kind;
    box.replaceChildren();
    box.hidden = false;
    return box;
  }

  function say(box, kind, text) { const line = make("p", kind, text); box.append(line); return line; }

  function falls(number) { return number === 1 ? "1 fall" : number + " falls"; }

  function ask(event) {
    event.preventDefault();
    for (const name of ["block", "chart", "boom"]) {
      if (!form[name].value) return complain(form[name], "Choose the " + form[name].dataset.noun + ".");
    }
    const figures = readFigures();
    if (figures.wrong) {
      const there = figures.wrong.value.trim();
      return complain(figures.wrong, (there ? "\u201c" + there + "\u201d cannot be read" : "Nothing stands there") + ". " + figures.wrong.dataset.noun + ": write a number, with a point and no unit.");
    }
    if (figures.least > figures.greatest) return complain(form.least, "The least radius is over the greatest.");
    if (figures.bottom > figures.top) return complain(form.bottom, "The lowest hook is over the highest.");
    const grid = grids().find(function (one) { return one.boom === form.boom.value; });
    const read = place(grid, figures);
    if (read.out.length) outside(read.out); else answer(grid, read.at);
    byId("answer").scrollIntoView();
  }

  function complain(field, text) {
    const box = answerBox("wrong");
    say(box, "big", text);
    field.focus();
  }

  function outside(out) {
    const box = answerBox("outside");
    say(box, "big", "Unknown: outside what this file holds.");
    out.forEach(function (text) { say(box, "", "This file has no answer for " + text + "."); });
    say(box, "", "Ask becket falls, or the manual.");
  }

  function answer(grid, at) {
    const found = lookUp(grid, at), kind = found[0], number = found[1], fails = found[2], unknown = found[3];
    const box = answerBox(kind);
    if (kind === "rig") {
      const line = say(box, "big", "rig ");
      line.append(make("b", "", String(number)), document.createTextNode(number === 1 ? " fall" : " falls"));
      if (number > 1) say(box, "", "Not fewer. With " + falls(number - 1) + ": " + [fails.length ? names(fails) + " fails" : "", unknown.length ? "unknown " + names(unknown) : ""].filter(Boolean).join("; ") + ".");
    } else if (kind === "unproven") {
      say(box, "big", "NOT PROVEN");
      say(box, "", "No number of falls passes every limit. Fewest that nothing fails: " + number + ". Unknown there: " + names(unknown) + ".");
    } else if (kind === "none") {
      say(box, "big", "No number of falls will do.");
      say(box, "", fails.length ? "Fails with every number of falls: " + names(fails) + "." : "Each number of falls fails for its own reason.");
      say(box, "", "This is the answer at the figures below; a lift just under them may do. Ask becket falls.");
    } else {
      say(box, "big", "Unknown: close to the limit of the " + names(fails) + ".");
      say(box, "", "A fall more or less changes what the chart counts here. Ask becket falls.");
    }
    readAt(box, grid, at);
    const state = grid.block + ":" + number;
    if (kind === "rig" && data.states.includes(state)) {
      const link = make("a", "link", "Pattern " + state);
      link.href = address("pattern", [state]);
      box.append(link);
    }
  }

  function readAt(box, grid, at) {
    const mass = " " + finder.units.mass, length = " " + finder.units.length;
    say(box, "read", "Read at: load on the hook " + figure(grid.loads[at.load]) + mass +
      ", radius " + figure(grid.radii[at.least]) + length + " to " + figure(grid.radii[at.greatest]) + length +
      ", hook " + figure(grid.bottoms[at.bottom]) + length + " to " + figure(grid.tops[at.top]) + length +
      ", boom " + grid.boom + ", block " + grid.block + ".");
    say(box, "", "Chart " + grid.fitted + ". Look whether that is what is fitted.");
    say(box, "", "Weighed or from the drawing only. An estimate is not answered here.");
  }

  // ---- search ----

  function spread(text) {
    let wanted = [text];
    data.words.forEach(function (word) {
      word.names.forEach(function (name) {
        if ((" " + text + " ").includes(" " + name + " ")) {
          wanted = wanted.concat(word.names.map(function (other) { return (" " + text + " ").replace(" " + name + " ", " " + other + " ").trim(); }));
        }
      });
    });
    return unlike(wanted);
  }

  function hits(wanted, text) {
    return wanted.some(function (query) {
      return query.split(" ").every(function (part) { return text.includes(part); });
    });
  }

  function search() {
    const text = form2.query.value.toLowerCase().split(/\s+/).filter(Boolean).join(" ");
    const list = byId("found");
    list.replaceChildren();
    if (!text) { byId("found-count").textContent = ""; return; }
    const wanted = spread(text);
    const words = data.words.filter(function (word) { return hits([text], word.names.join(" ") ); });
    words.forEach(function (word) {
      const item = make("li", "word");
      item.append(make("b", "", word.word), document.createTextNode(": " + word.means + "."));
      list.append(item);
    });
    const pages = data.pages.filter(function (page) { return hits(wanted, page[2]); });
    pages.slice(0, 60).forEach(function (page) {
      list.append(row(page[1], [document.createTextNode(page[0])]));
    });
    const more = pages.length > 60 ? " The first 60 are shown; add a word." : "";
    byId("found-count").textContent = words.length + pages.length ? (words.length === 1 ? "1 word, " : words.length + " words, ") + (pages.length === 1 ? "1 page." : pages.length + " pages.") + more : "Nothing found. Try another word of the trade.";
  }

  // ---- start ----

  const form2 = byId("search");
  document.querySelectorAll("a[data-state]").forEach(function (link) {
    link.href = address(link.dataset.kind, [link.dataset.state]);
  });
  fillForm();
  form.addEventListener("submit", ask);
  form.addEventListener("input", function (event) {
    byId("answer").hidden = true; // an answer never stands beside another question
    if (event.target === form.block || event.target === form.chart) fillBooms();
  });
  form2.addEventListener("submit", function (event) { event.preventDefault(); search(); });
  form2.query.addEventListener("input", search);
  window.addEventListener("hashchange", show);
  show();
}());
