// Ties drawings, tables and panel together; sorts and filters tables. Everything it adds is an extra:
// without it the page is complete to read.
(function () {
  "use strict";
  const FEW_ROWS = 12;
  const FRAME_MM = 0.5;
  const about = JSON.parse(document.getElementById("job-data").textContent);
  const panel = document.getElementById("panel");
  const order = new Intl.Collator("en-GB", { numeric: true });
  const kind = (key) => key.slice(0, key.indexOf(" "));
  const make = (name, className, text) => {
    const element = document.createElement(name);
    if (className) element.className = className;
    if (text !== undefined) element.textContent = text;
    return element;
  };

  // Where each part is drawn or listed.
  const places = new Map();
  for (const element of document.querySelectorAll("[data-subject]")) {
    const key = element.dataset.subject;
    if (!about[key]) continue;
    if (!places.has(key)) places.set(key, []);
    places.get(key).push(element);
  }

  // What is shown together with a part: what it goes with, all of its circuits, and where their cables
  // enter. A cable brings no more than its own cores and its entry.
  function company(key) {
    const found = new Set(about[key].links);
    const widen = (wanted) => {
      for (const link of [...found]) {
        if (wanted(kind(link))) for (const next of about[link].links) found.add(next);
      }
    };
    if (kind(key) === "terminal" || kind(key) === "element") widen((k) => k === "circuit");
    if (kind(key) === "entry") widen((k) => k === "cable");
    for (const link of [...found]) {
      if (kind(link) !== "cable") continue;
      for (const next of about[link].links) if (kind(next) === "entry") found.add(next);
    }
    found.delete(key);
    return found;
  }

  // Draws what goes together once more on top of each drawing, each part in a frame around its outlines.
  function draw(key, others) {
    for (const old of document.querySelectorAll(".marks")) old.remove();
    if (key === null) return;
    for (const drawing of document.querySelectorAll("figure svg")) {
      const marks = document.createElementNS(drawing.namespaceURI, "g");
      marks.setAttribute("class", "marks");
      for (const part of [...others, key]) {
        const shapes = (places.get(part) || []).filter((shape) => drawing.contains(shape));
        let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
        for (const shape of shapes) {
          const copy = shape.cloneNode(true);
          for (const name of ["data-subject", "tabindex", "role", "aria-label", "class"]) {
            copy.removeAttribute(name);
          }
          // The pen is that of the group in which the shape stands.
          const group = shape.parentNode.cloneNode(false);
          group.append(copy);
          marks.append(group);
          if (shape.tagName === "text" || shape.tagName === "line") continue;
          const box = shape.getBBox();
          [left, top] = [Math.min(left, box.x), Math.min(top, box.y)];
          [right, bottom] = [Math.max(right, box.x + box.width), Math.max(bottom, box.y + box.height)];
        }
        if (left > right) continue;
        const frame = document.createElementNS(drawing.namespaceURI, "rect");
        frame.setAttribute("class", part === key ? "frame first" : "frame");
        frame.setAttribute("x", left - FRAME_MM);
        frame.setAttribute("y", top - FRAME_MM);
        frame.setAttribute("width", right - left + 2 * FRAME_MM);
        frame.setAttribute("height", bottom - top + 2 * FRAME_MM);
        marks.append(frame);
      }
      marks.setAttribute("aria-hidden", "true");
      drawing.append(marks);
    }
  }

  let chosen = null;
  let shown = null;

  function mark(key) {
    for (const element of document.querySelectorAll(".chosen, .lit")) {
      element.classList.remove("chosen", "lit");
      element.removeAttribute("aria-current");
    }
    document.body.classList.toggle("tracing", key !== null);
    const others = key === null ? [] : company(key);
    draw(key, others);
    if (key === null) return;
    for (const element of places.get(key) || []) {
      element.classList.add("chosen");
      element.setAttribute("aria-current", "true");
    }
    for (const link of others) {
      for (const element of places.get(link) || []) element.classList.add("lit");
    }
  }

  function tell(key) {
    panel.replaceChildren();
    panel.hidden = key === null;
    if (key === null) return;
    if (chosen === key) {
      const close = make("button", "close", "Let go");
      close.type = "button";
      close.addEventListener("click", () => choose(null));
      panel.append(close);
    }
    panel.append(make("h2", "", about[key].title));
    const list = make("dl");
    for (const [term, words] of about[key].data) {
      const pair = make("div");
      pair.append(make("dt", "", term), make("dd", "", words));
      list.append(pair);
    }
    panel.append(list);
    const links = [...about[key].links].sort(order.compare);
    if (links.length === 0) return;
    const isRule = kind(key) === "rule";
    const drawn = [...document.querySelectorAll("figure")].find((figure) =>
      links.some((link) => (places.get(link) || []).some((shape) => figure.contains(shape))));
    if (isRule && drawn) {
      const see = make("button", "see", "See in the drawings");
      see.type = "button";
      see.addEventListener("click", () => {
        drawn.scrollIntoView({ block: "start" });
        const stop = links
          .flatMap((link) => places.get(link) || [])
          .find((shape) => drawn.contains(shape) && shape.hasAttribute("tabindex"));
        if (stop) stop.focus({ preventScroll: true });
      });
      panel.append(see);
    }
    panel.append(make("h3", "", isRule ? "Measured on" : "Goes with"));
    const row = make("div", "links");
    for (const link of links) {
      const button = make("button", "", about[link].title);
      button.type = "button";
      button.addEventListener("click", () => choose(link));
      row.append(button);
    }
    panel.append(row);
  }

  // A part that is pointed at is shown for the while; a chosen one stays.
  function show(key) {
    if (key === shown) return;
    shown = key;
    mark(key);
    tell(key);
  }

  function choose(key) {
    chosen = key;
    shown = undefined;
    document.body.classList.toggle("holding", key !== null);
    show(key);
  }

  const keyOf = (target) => {
    const element = target instanceof Element ? target.closest("[data-subject]") : null;
    return element && about[element.dataset.subject] ? element.dataset.subject : null;
  };

  for (const drawing of document.querySelectorAll(".paper")) {
    drawing.addEventListener("pointerover", (event) => show(keyOf(event.target) || chosen));
    drawing.addEventListener("pointerleave", () => show(chosen));
  }
  // A row of the record lights up what its rule measured. The panel waits until the row is chosen: it
  // would lie over the row that is pointed at.
  function glance(key) {
    if (key === shown) return;
    shown = key;
    mark(key);
  }
  for (const body of document.querySelectorAll("#rules tbody, #margins tbody")) {
    body.addEventListener("pointerover", (event) => glance(keyOf(event.target) || chosen));
    body.addEventListener("pointerleave", () => glance(chosen));
    body.addEventListener("focusin", (event) => glance(keyOf(event.target) || chosen));
    body.addEventListener("focusout", () => glance(chosen));
  }
  document.addEventListener("click", (event) => {
    if (panel.contains(event.target)) return;
    const key = keyOf(event.target);
    if (key !== null) choose(key);
    else if (event.target instanceof Element && event.target.closest(".paper")) choose(null);
  });
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && chosen !== null) choose(null);
  });

  // Within a drawing one part takes part in the tab order; arrow keys move to the others.
  // Listeners sit on the paper: an `svg` that listens to the focus would become a stop itself.
  for (const drawing of document.querySelectorAll(".paper")) {
    const stops = new Map();
    for (const shape of drawing.querySelectorAll("[data-subject]")) {
      const key = shape.dataset.subject;
      if (!about[key]) continue;
      // The outline is the better mark of where the focus is than a line or a text.
      const held = stops.get(key);
      const isOutline = shape.tagName !== "text" && shape.tagName !== "line";
      if (!held || (isOutline && (held.tagName === "text" || held.tagName === "line"))) {
        stops.set(key, shape);
      }
    }
    const keys = [...stops.keys()].sort(order.compare);
    keys.forEach((key, index) => {
      const shape = stops.get(key);
      shape.setAttribute("tabindex", index === 0 ? "0" : "-1");
      shape.setAttribute("role", "button");
      shape.setAttribute("aria-label", about[key].title);
    });
    drawing.addEventListener("keydown", (event) => {
      const key = keyOf(event.target);
      if (key === null) return;
      const steps = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };
      if (event.key === "Enter" || event.key === " ") {
        event.preventDefault();
        choose(key);
      } else if (steps[event.key]) {
        event.preventDefault();
        const at = (keys.indexOf(key) + steps[event.key] + keys.length) % keys.length;
        event.target.setAttribute("tabindex", "-1");
        const next = stops.get(keys[at]);
        next.setAttribute("tabindex", "0");
        next.focus();
        show(keys[at]);
      }
    });
    drawing.addEventListener("focusout", () => show(chosen));
  }

  for (const figure of document.querySelectorAll("figure")) {
    const button = make("button", "", "Enlarge");
    button.type = "button";
    button.setAttribute("aria-pressed", "false");
    const paper = figure.querySelector(".paper");
    button.addEventListener("click", () => {
      const large = paper.classList.toggle("large");
      button.setAttribute("aria-pressed", String(large));
    });
    figure.querySelector("figcaption").append(button);
  }

  for (const table of document.querySelectorAll("main table")) {
    const body = table.tBodies[0];
    const heads = [...table.tHead.rows[0].cells];
    const caption = document.getElementById(table.id + "-head").textContent;
    heads.forEach((head, column) => {
      const button = make("button", "", head.textContent);
      button.type = "button";
      head.dataset.words = head.textContent;
      head.replaceChildren(button);
      head.setAttribute("aria-sort", "none");
      const isNumber = head.dataset.kind === "number";
      button.addEventListener("click", () => {
        const down = head.getAttribute("aria-sort") === "ascending";
        for (const other of heads) other.setAttribute("aria-sort", "none");
        head.setAttribute("aria-sort", down ? "descending" : "ascending");
        const value = (row) => row.cells[column].textContent.trim();
        const rows = [...body.rows].sort((a, b) => {
          const [x, y] = [value(a), value(b)];
          // What is not known stands last either way.
          if (x === "" || y === "") return (x === "") - (y === "");
          const rise = isNumber ? Number(x) - Number(y) : order.compare(x, y);
          return down ? -rise : rise;
        });
        body.append(...rows);
      });
    });
    for (const cell of body.querySelectorAll("td.name")) {
      if (!about[cell.parentElement.dataset.subject]) continue;
      const button = make("button", "", cell.textContent);
      button.type = "button";
      cell.replaceChildren(button);
    }
    // A table that is seen at a glance needs no filter.
    if (body.rows.length < FEW_ROWS) continue;
    const label = make("label", "", "Filter");
    const input = make("input");
    input.type = "search";
    input.id = table.id + "-filter";
    label.htmlFor = input.id;
    input.setAttribute("aria-label", "Filter: " + caption);
    const count = make("output");
    const say = (n) => { count.textContent = n + " of " + body.rows.length + " rows"; };
    input.addEventListener("input", () => {
      const words = input.value.toLowerCase().split(/\s+/).filter(Boolean);
      let left = 0;
      for (const row of body.rows) {
        const text = row.textContent.toLowerCase();
        row.hidden = !words.every((word) => text.includes(word));
        if (!row.hidden) left += 1;
      }
      say(left);
    });
    say(body.rows.length);
    const line = make("div", "filter");
    line.append(label, input, count);
    table.closest(".scroll").before(line);
  }

  const drawings = document.querySelector(".drawings");
  drawings.before(make("p", "hint",
    "Point at a terminal, an entry or an element to see what it is; click to keep it. Its cable, its " +
    "circuit and all that belongs to them stand out in every drawing and table; so do the parts that a rule " +
    "of the record measured. By keyboard: Tab to a " +
    "drawing, arrow keys from part to part, Enter to keep, Escape to let go."));
})();
