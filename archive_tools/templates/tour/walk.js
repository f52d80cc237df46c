// A walk, stop by stop: by arrow keys, by a sweep of the finger, by its address; and kept for when there is no network.
// Without this script the page reads from top to bottom, and its links lead from stop to stop.
(() => {
  "use strict";
  const walk = document.querySelector("[data-walk]");
  if (!walk) return;
  const halts = [...walk.querySelectorAll(".halt")];
  const status = walk.querySelector("[role=status]");
  const still = matchMedia("(prefers-reduced-motion: reduce)");
  walk.querySelector(".by-key").hidden = false;
  let now = halts.findIndex((halt) => "#" + halt.id === location.hash);   // -1: at the head of the page

  const tell = (at) => {
    if (at === now) return;
    now = at;
    const name = halts[at].querySelector("h2").textContent.trim();
    status.textContent = walk.dataset.says.replace("{at}", at + 1).replace("{all}", halts.length).replace("{name}", name);
    history.replaceState(null, "", "#" + halts[at].id);
  };
  const go = (at) => {
    const to = Math.max(0, Math.min(halts.length - 1, at));
    halts[to].scrollIntoView({ behavior: still.matches ? "auto" : "smooth", block: "start" });
    halts[to].focus({ preventScroll: true });
    tell(to);
  };
  const nearest = () => {
    const line = Math.min(120, innerHeight * 0.25);
    let found = -1;
    halts.forEach((halt, at) => { if (halt.getBoundingClientRect().top <= line) found = at; });
    return found;
  };

  addEventListener("keydown", (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    if (event.target.closest("input, textarea, select, [contenteditable]")) return;
    if (event.key === "ArrowRight") go(now + 1);
    else if (event.key === "ArrowLeft") go(now - 1);
    else if (event.key === "Home" && now > 0) go(0);
    else if (event.key === "End") go(halts.length - 1);
    else return;
    event.preventDefault();
  });

  let from = null;
  walk.addEventListener("touchstart", (event) => {
    const touch = event.touches[0];
    from = event.touches.length === 1 ? [touch.clientX, touch.clientY] : null;
  }, { passive: true });
  walk.addEventListener("touchend", (event) => {
    if (!from || getSelection().toString()) return;
    const touch = event.changedTouches[0];
    const [across, down] = [touch.clientX - from[0], touch.clientY - from[1]];
    from = null;
    if (Math.abs(across) > 60 && Math.abs(across) > 2 * Math.abs(down)) go(now + (across < 0 ? 1 : -1));
  }, { passive: true });

  let waiting = 0;
  addEventListener("scroll", () => {
    clearTimeout(waiting);
    waiting = setTimeout(() => { const at = nearest(); if (at >= 0) tell(at); }, 200);
  }, { passive: true });

  // Where a page may keep things (https, or this machine): what it has loaded is kept beside it.
  if ("serviceWorker" in navigator) addEventListener("load", async () => {
    try {
      await navigator.serviceWorker.register(walk.dataset.offline);
      const ready = await navigator.serviceWorker.ready;
      const loaded = performance.getEntriesByType("resource").map((one) => one.name);
      const own = [location.href.split("#")[0], ...loaded].filter((url) => url.startsWith(location.origin + "/"));
      const channel = new MessageChannel();
      channel.port1.onmessage = () => { document.documentElement.dataset.kept = "yes"; };
      ready.active.postMessage([...new Set(own)], [channel.port2]);
    } catch { /* it is a convenience; the page reads as well without it */ }
  });
})();
