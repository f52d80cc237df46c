// Everything works without this file. It adds the sliding comparison, the film of the years, the choice of paper and
// choosing on the wall.

// The comparison: two pictures that lie on each other, with a line drawn across.
for (const figure of document.querySelectorAll(".comparison")) {
  const range = figure.querySelector("input"), pair = figure.querySelector(".pair");
  if (!range) continue;
  const show = () => {
    pair.style.setProperty("--at", range.value + "%");
    range.setAttribute("aria-valuetext", range.dataset.says.replace("#", Math.round(range.value)));
  };
  figure.classList.add("moves");
  range.addEventListener("input", show);
  // Drawn by hand the line goes where the hand is; by key it crosses in twenty steps, with Shift in a hundred.
  range.addEventListener("keydown", (event) => {
    const to = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key];
    if (!to || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    range.value = Math.round(Number(range.value)) + to * (event.shiftKey ? 1 : 5);
    show();
  });
  show();
}

// The film: photographs of one side in one place, on a line of years. Only those looked at are loaded.
for (const film of document.querySelectorAll(".film")) {
  const frames = [...film.querySelectorAll(".frames li")], reel = film.querySelector(".reel");
  const range = reel.querySelector("input"), button = reel.querySelector("button");
  const places = frames.map((frame) => Number(frame.dataset.at)), ticks = [...reel.querySelectorAll(".ticks i")];
  const last = frames.length - 1;
  let current = -1, timer = 0;
  const show = (index, move = true) => {
    if (move) range.value = places[index];
    if (index === current) return;
    frames.forEach((frame, i) => { frame.className = frame.className.replace(/ ?(now|was)$/, "") + (i === index ? " now" : i === current ? " was" : ""); });
    ticks.forEach((tick, i) => tick.classList.toggle("now", i === index));
    current = index;
    range.setAttribute("aria-valuetext", ["year", "what"].map((part) => frames[index].querySelector("." + part).textContent).join(" ").trim());
  };
  const nearest = (place) => places.reduce((best, at, i) => (Math.abs(at - place) < Math.abs(places[best] - place) ? i : best), 0);
  const say = (playing) => { button.textContent = playing ? button.dataset.pause : button.dataset.play; };
  const stop = () => { clearTimeout(timer); timer = 0; say(false); };
  const step = async () => {
    const next = frames[current + 1].querySelector("img");
    next.loading = "eager";
    await next.decode().catch(() => 0);
    if (!timer) return;
    show(current + 1);
    if (current < last) timer = setTimeout(step, 1400);
    else stop();
  };
  button.addEventListener("click", () => {
    if (timer) { stop(); return; }
    if (current === last) show(0);
    say(true);
    timer = setTimeout(step, 900);
  });
  range.addEventListener("input", () => { stop(); show(nearest(Number(range.value)), false); });
  range.addEventListener("change", () => show(nearest(Number(range.value))));
  range.addEventListener("keydown", (event) => {
    const to = { ArrowRight: current + 1, ArrowUp: current + 1, PageUp: current + 1, ArrowLeft: current - 1, ArrowDown: current - 1, PageDown: current - 1, Home: 0, End: last }[event.key];
    if (to === undefined || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    stop();
    show(Math.min(Math.max(to, 0), last));
  });
  film.classList.add("runs");
  reel.hidden = false;
  show(0);
}

// Paper: remembered where the browser allows it, else for this page only.
const papers = [...document.querySelectorAll("[data-paper]")];
const press = (paper) => papers.forEach((b) => b.setAttribute("aria-pressed", String(b.dataset.paper === paper)));
for (const button of papers) {
  button.addEventListener("click", () => {
    const paper = button.dataset.paper;
    if (paper) document.documentElement.dataset.theme = paper;
    else delete document.documentElement.dataset.theme;
    try {
      if (paper) localStorage.setItem("paper", paper);
      else localStorage.removeItem("paper");
    } catch { /* private windows may refuse: the choice holds for this page */ }
    press(paper);
  });
}
document.querySelectorAll(".controls").forEach((line) => { line.hidden = false; });
press(document.documentElement.dataset.theme || "");

// The proof is opened for printing, and closed again if it was closed.
let opened = [];
addEventListener("beforeprint", () => {
  opened = [...document.querySelectorAll("details.since:not([open])")];
  opened.forEach((d) => { d.open = true; });
});
addEventListener("afterprint", () => opened.forEach((d) => { d.open = false; }));

// Long lists of names: what does not hold the words that are typed is put away.
for (const line of document.querySelectorAll(".seek")) {
  const input = line.querySelector("input"), status = line.querySelector("[role=status]");
  const plain = (text) => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
  const names = [...document.querySelectorAll("#" + input.dataset.list + " li")].map((li) => [li, plain(li.textContent)]);
  const lists = [...document.querySelectorAll("#" + input.dataset.list + " ul")];
  input.addEventListener("input", () => {
    const words = plain(input.value).split(/\s+/).filter(Boolean);
    let shown = 0;
    for (const [li, text] of names) {
      li.hidden = !words.every((word) => text.includes(word));
      if (!li.hidden) shown += 1;
    }
    for (const list of lists) list.hidden = !list.querySelector("li:not([hidden])");
    status.textContent = words.length ? (shown ? input.dataset.some.replace("#", shown) : input.dataset.none) : "";
  });
  line.hidden = false;
}

// The wall: each index term filters in place; the choice stands in the address, so that it can be kept and sent.
const wall = document.getElementById("wall"), index = document.querySelector(".index"), found = document.querySelector(".found");
if (wall && index && found) {
  const trees = [...wall.querySelectorAll("li:not(.rest)")];
  const terms = [...index.querySelectorAll("a[data-index]")];
  const status = found.querySelector("[role=status]"), all = found.querySelector("a");
  const keys = [...new Set(terms.map((a) => a.dataset.index))];
  const chosen = new Map();
  const filed = (tree, key) => (tree.getAttribute("data-" + key) || "").split(" ");
  const fits = (tree, without) => [...chosen].every(([k, v]) => k === without || filed(tree, k).includes(v));

  const read = () => {
    const query = new URLSearchParams(location.search);
    chosen.clear();
    for (const key of keys) {
      const value = query.get(key);
      if (terms.some((a) => a.dataset.index === key && a.dataset.value === value)) chosen.set(key, value);
    }
  };
  const draw = () => {
    let shown = 0;
    for (const tree of trees) {
      tree.hidden = !fits(tree);
      if (!tree.hidden) shown += 1;
    }
    const words = [];
    for (const a of terms) {
      const { index: key, value } = a.dataset;
      const is = chosen.get(key) === value;
      const count = trees.filter((t) => fits(t, key) && filed(t, key).includes(value)).length;
      if (is) { a.setAttribute("aria-current", "true"); words.push(a.dataset.words); } else a.removeAttribute("aria-current");
      a.parentElement.classList.toggle("none", count === 0 && !is);
      a.nextElementSibling.textContent = count;
    }
    found.hidden = chosen.size === 0;
    status.textContent = chosen.size
      ? found.dataset.some.replace("##", trees.length).replace("#", shown) + ": " + words.join(", ") + "."
      : found.dataset.all.replace("#", trees.length);
  };
  const keep = () => {
    const query = new URLSearchParams([...chosen]).toString();
    history.pushState(null, "", query ? "?" + query : location.pathname);
    draw();
  };
  index.addEventListener("click", (event) => {
    const a = event.target.closest("a[data-index]");
    if (!a || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
    event.preventDefault();
    const { index: key, value } = a.dataset;
    if (chosen.get(key) === value) chosen.delete(key);
    else chosen.set(key, value);
    keep();
  });
  all.addEventListener("click", (event) => { event.preventDefault(); chosen.clear(); keep(); });
  addEventListener("popstate", () => { read(); draw(); });
  read();
  draw();
}
