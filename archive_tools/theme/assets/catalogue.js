// Everything works without this file. It adds the sliding comparison, the choice of paper and choosing on the wall.

// The comparison: two pictures that lie on each other, with a line drawn across.
for (const figure of document.querySelectorAll(".comparison")) {
  const range = figure.querySelector("input"), pair = figure.querySelector(".pair");
  if (!range) continue;
  const show = () => {
    pair.style.setProperty("--at", range.value + "%");
    range.setAttribute("aria-valuetext", range.dataset.says.replace("#", range.value));
  };
  figure.classList.add("moves");
  range.addEventListener("input", show);
  show();
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
