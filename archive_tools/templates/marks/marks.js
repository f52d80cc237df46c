// Placing marks. Everything stays in this page: nothing is sent, and nothing is kept but what is copied or downloaded.
// Positions are pixels of the upright original, from its top left corner, whatever size the picture is shown in.
{
  const table = document.getElementById("light-table");
  const sheet = JSON.parse(document.getElementById("marks-sheet").textContent);
  const at = (id) => document.getElementById(id);
  const say = (key, values = {}) => sheet.words[key].replace(/%\((\w+)\)s/g, (_, name) => values[name]);
  const photos = new Map(sheet.photos.map((photo) => [photo.file, photo]));

  // What is known: marks as [name, [x, y]] in order (an object would put the names 1 and 2 first), scales as written.
  let now = { marks: {}, scales: {}, added: [], chosen: "" };
  for (const photo of sheet.photos) {
    now.marks[photo.file] = photo.marks.map(([name, [x, y]]) => [name, [x, y]]);
    now.scales[photo.file] = photo.scale ? [...photo.scale] : ["", "", "", ""];
  }
  const begun = Object.fromEntries(sheet.photos.map((photo) => [photo.file, lines(photo.file)]));
  const kept = { ...begun };
  let sides = ["", ""];   // the files shown
  let past = [], lastMove = { key: "", when: 0 };

  // Reckoning --------------------------------------------------------------
  function tenth(number) { return Math.round(number * 10) / 10; }
  function within(number, most) { return Math.min(Math.max(tenth(number), 0), most); }
  function spot(file, name) { return (now.marks[file].find(([other]) => other === name) || [])[1]; }
  function shared() { return sides[1] ? now.marks[sides[0]].map(([name]) => name).filter((name) => spot(sides[1], name)) : []; }
  function asking() { return sheet.pairs.filter((pair) => [pair.before, pair.after].every((file) => sides.includes(file))); }
  function names() {
    const found = sides.filter(Boolean).flatMap((file) => now.marks[file].map(([name]) => name));
    return [...new Set([...found, ...asking().flatMap((pair) => pair.names), ...now.added])];
  }
  // The spread of points across the line that fits them best, as a share of the spread along it.
  function flatness(points) {
    const mean = [0, 1].map((i) => points.reduce((sum, p) => sum + p[i], 0) / points.length);
    let a = 0, b = 0, c = 0;
    for (const [x, y] of points) { a += (x - mean[0]) ** 2; b += (x - mean[0]) * (y - mean[1]); c += (y - mean[1]) ** 2; }
    const half = (a + c) / 2, root = Math.hypot((a - c) / 2, b);
    return half + root > 0 ? Math.sqrt(Math.max(half - root, 0) / (half + root)) : 0;
  }

  // Lines for photos.yml ---------------------------------------------------
  function asYaml(text) {
    return /^\p{L}[\p{L}\p{N}_ .()/×'’-]*[\p{L}\p{N}_.)’]$|^[\p{L}\p{N}_.-]*[\p{L}\p{N}_]$/u.test(text)
      ? text : '"' + text.replace(/\\/g, "\\\\").replace(/"/g, '\\"') + '"';
  }
  function number(written) {
    const text = written.trim().replace(",", ".");
    return /^[0-9]{1,9}(\.[0-9]{1,9})?$/.test(text) ? text : null;
  }
  function scaleOf(file) {
    const [from, to, cm, plusMinus] = now.scales[file];
    const length = number(cm), known = plusMinus.trim() ? number(plusMinus) : "";
    const whole = from && to && from !== to && spot(file, from) && spot(file, to) && length && Number(length) > 0;
    return whole && known !== null ? { from, to, cm: length, plusMinus: known } : null;
  }
  function lines(file) {
    const photo = photos.get(file), marks = now.marks[file], scale = scaleOf(file), pad = " ".repeat(photo.indent);
    if (!marks.length) return "# " + say("noMarks", { file }) + "\n";
    const out = [`# ${say(photo.listed ? "inEntry" : "newEntry", { file })}`, `# ${photo.where}`];
    if (!photo.listed) out.push(`- file: ${asYaml(file)}`);
    out.push(`${pad}marks:`, ...marks.map(([name, [x, y]]) => `${pad}  ${asYaml(name)}: [${x}, ${y}]`));
    if (scale) {
      const known = scale.plusMinus ? `, plus_minus: ${scale.plusMinus}` : "";
      out.push(`${pad}scale: {from: ${asYaml(scale.from)}, to: ${asYaml(scale.to)}, cm: ${scale.cm}${known}}`);
    }
    return out.join("\n") + "\n";
  }

  // What to mind -----------------------------------------------------------
  function warnings() {
    const found = [], both = shared(), [one, other] = sides;
    if (other && both.length < 2) found.push(say(both.length ? "shareOne" : "shareNone", { one, other, name: both[0] }));
    if (other && both.length === 2) found.push(say("shareTwo"));
    const flat = (file) => flatness(both.map((name) => spot(file, name))) < sheet.onOneLine;
    if (other && both.length > 2 && (flat(one) || flat(other))) found.push(say("oneLine"));
    for (const pair of asking()) {
      for (const name of pair.names) {
        for (const picture of sides) {
          if (!spot(picture, name)) found.push(say("asked", { comparison: pair.id, name, picture }));
        }
      }
    }
    for (const picture of sides.filter(Boolean)) {
      const [from, to, cm, plusMinus] = now.scales[picture];
      const ends = [from, to].map((name) => name && spot(picture, name));
      for (const written of [cm, plusMinus]) {
        if (written.trim() && number(written) === null) found.push(say("scaleNumber", { picture, written }));
      }
      if (cm.trim() && Number(number(cm)) === 0) found.push(say("scaleNumber", { picture, written: cm }));
      if ([from, to, cm].some(Boolean) && ![...ends, cm.trim()].every(Boolean)) found.push(say("scaleHalf", { picture }));
      else if (from && from === to) found.push(say("scaleSame", { picture }));
      else if (ends[0] && ends[1]) {
        const long = Math.hypot(ends[0][0] - ends[1][0], ends[0][1] - ends[1][1]);
        const unsure = Math.SQRT2 * sheet.placing / long;
        if (long <= 4 * sheet.placing) found.push(say("scaleNothing", { picture }));
        else if (unsure > sheet.unsureScale) {
          found.push(say("scaleShort", { picture, pixels: Math.round(long), percent: Math.round(unsure * 100) }));
        }
      }
    }
    return found;
  }

  // Changing, and taking it back ------------------------------------------
  function change(make, key = "") {
    const sameMove = key && key === lastMove.key && Date.now() - lastMove.when < 1000;
    if (!sameMove) past.push(JSON.stringify(now));
    lastMove = { key, when: Date.now() };
    make();
    draw();
  }
  function tell(...sentences) { table.querySelector(".said").textContent = sentences.filter(Boolean).join(" "); }
  function undo() {
    if (!past.length) { tell(say("nothingToUndo")); return; }
    now = JSON.parse(past.pop());
    lastMove = { key: "", when: 0 };
    draw();
    tell(say("undone"));
  }
  function put(file, name, x, y) {
    const photo = photos.get(file), where = [within(x, photo.width), within(y, photo.height)], old = spot(file, name);
    if (old) [old[0], old[1]] = where;
    else now.marks[file].push([name, where]);
    return where;
  }
  function place(file, name, x, y) {
    if (!name) { tell(say("noName")); at("new-name").focus(); return; }
    const old = spot(file, name);
    let where;
    change(() => { where = put(file, name, x, y); });
    const lacking = (other) => sides.filter(Boolean).some((side) => !spot(side, other));
    const next = old || lacking(name) ? "" : names().find(lacking);
    tell(say("placed", { name, picture: file, x: where[0], y: where[1] }), next && say("next", { name: next }));
    if (next) choose(next);
  }
  function takeAway(file, name) {
    change(() => {
      now.marks[file] = now.marks[file].filter(([other]) => other !== name);
      if (!now.added.includes(name)) now.added.push(name);
    });
    tell(say("removed", { name, picture: file }));
  }
  function rename(old, name) {
    const wanted = name.trim().replace(/\s+/g, " ");
    if (!wanted || wanted === old) { draw(); return; }
    if (names().includes(wanted)) { draw(); tell(say("sameName", { name: wanted })); return; }
    change(() => {
      for (const file of sides.filter(Boolean)) {
        for (const mark of now.marks[file]) if (mark[0] === old) mark[0] = wanted;
        now.scales[file] = now.scales[file].map((value, i) => (i < 2 && value === old ? wanted : value));
      }
      now.added = now.added.map((other) => (other === old ? wanted : other));
      if (now.chosen === old) now.chosen = wanted;
    });
  }
  function choose(name) { now.chosen = name; draw(); }

  // Drawing ----------------------------------------------------------------
  const boards = [...table.querySelectorAll(".board")];
  for (const board of boards) board.querySelector(".plane").append(Object.assign(new Image(), { alt: "" }));
  function make(tag, className, text = "") {
    const made = document.createElement(tag);
    made.className = className;
    made.textContent = text;
    return made;
  }
  function options(select, list, chosen) {
    select.replaceChildren(...list.map(([value, text]) => new Option(text, value, false, value === chosen)));
    select.value = chosen;
  }
  function draw() {
    const all = names();
    if (!all.includes(now.chosen)) now.chosen = all.find((name) => sides.some((file) => file && !spot(file, name))) || all[0] || "";
    options(at("mark-name"), all.map((name, i) => [name, `${i + 1} ${name}`]), now.chosen);
    boards.forEach((board, side) => drawBoard(board, sides[side], all));
    drawTable(all);
    const told = warnings(), list = table.querySelector(".warnings");
    const texts = told.length ? told : [say("allWell")];
    if (texts.join("\n") !== [...list.children].map((item) => item.textContent).join("\n")) {
      list.replaceChildren(...texts.map((text) => make("li", "", text)));
    }
  }
  function drawBoard(board, file, all) {
    board.hidden = !file;
    if (!file) return;
    const photo = photos.get(file), plane = board.querySelector(".plane"), image = plane.querySelector("img");
    if (image.getAttribute("src") !== photo.url) image.src = photo.url;
    image.width = photo.width;
    image.height = photo.height;
    plane.setAttribute("aria-label", say("board", { picture: photo.named }));
    board.querySelector(".board-name").textContent = `${photo.named}, ${say("size", photo)}`;
    const old = new Map([...plane.querySelectorAll(".cross")].map((cross) => [cross.dataset.name, cross]));
    for (const name of all) {
      const where = spot(file, name);
      if (!where) continue;
      const cross = old.get(name) || make("button", "cross");
      old.delete(name);
      cross.type = "button";
      cross.dataset.name = name;
      cross.dataset.number = all.indexOf(name) + 1;
      cross.style.left = `${(100 * where[0]) / photo.width}%`;
      cross.style.top = `${(100 * where[1]) / photo.height}%`;
      cross.classList.toggle("chosen", name === now.chosen);
      cross.classList.toggle("leftward", where[0] > photo.width * 0.92);
      cross.setAttribute("aria-label", say("cross", { name, x: where[0], y: where[1] }));
      if (!cross.isConnected) plane.append(cross);
    }
    old.forEach((cross) => cross.remove());
    const placed = now.marks[file].map(([name]) => [name, name]);
    board.querySelectorAll("[data-scale]").forEach((field, i) => {
      if (i < 2) options(field, [["", "–"], ...placed], spot(file, now.scales[file][i]) ? now.scales[file][i] : "");
      else if (field !== document.activeElement) field.value = now.scales[file][i];
    });
    board.querySelector("pre").textContent = lines(file);
    board.querySelectorAll("[data-do]").forEach((button) => { button.disabled = !now.marks[file].length; });
  }
  function drawTable(all) {
    table.querySelectorAll("th[data-side]").forEach((head, side) => {
      head.hidden = !sides[side];
      head.textContent = sides[side];
    });
    const body = table.querySelector("tbody"), active = document.activeElement;
    const back = body.contains(active) && [active.dataset.name, active.dataset.side];
    body.replaceChildren(...all.map((name, i) => {
      const row = make("tr", name === now.chosen ? "chosen" : ""), number = make("td", "", i + 1), head = make("th", "");
      const field = make("input", "");
      head.scope = "row";
      field.value = name;
      field.size = 16;
      field.dataset.name = name;
      field.setAttribute("aria-label", say("nameLabel", { number: i + 1 }));
      field.addEventListener("change", () => rename(name, field.value));
      head.append(field);
      row.append(number, head, ...sides.map((file, side) => cell(file, side, name)).filter(Boolean));
      return row;
    }));
    if (back) [...body.querySelectorAll("[data-name]")].find((e) => e.dataset.name === back[0] && e.dataset.side === back[1])?.focus();
  }
  function cell(file, side, name) {
    if (!file) return null;
    const made = make("td", ""), where = spot(file, name), photo = photos.get(file), button = make("button", "", say(where ? "takeAway" : "placeHere"));
    button.type = "button";
    button.dataset.name = name;
    button.dataset.side = side;
    button.setAttribute("aria-label", say(where ? "takeAwayLabel" : "placeLabel", { name, picture: file }));
    button.addEventListener("click", () => {
      if (where) { takeAway(file, name); return; }
      now.chosen = name;
      place(file, name, photo.width / 2, photo.height / 2);
      crossOf(side, name)?.focus();
    });
    if (where) made.append(make("span", "spot", `${where[0]}, ${where[1]}`), " ");
    made.append(button);
    return made;
  }
  function crossOf(side, name) {
    return [...boards[side].querySelectorAll(".cross")].find((cross) => cross.dataset.name === name);
  }

  // The loupe: two pixels of the screen for one of the original, as long as that is three to twelve times as large.
  function look(side, x, y) {
    const photo = photos.get(sides[side]), glass = table.querySelector(".loupe");
    const shownWide = boards[side].querySelector("img").clientWidth;
    const wide = Math.min(Math.max(photo.width * 2, shownWide * 3), shownWide * 12), high = (wide * photo.height) / photo.width;
    const half = [glass.clientWidth / 2, glass.clientHeight / 2];
    glass.style.backgroundImage = `url("${photo.url}")`;
    glass.style.backgroundSize = `${wide}px ${high}px`;
    glass.style.backgroundPosition = `${half[0] - (x / photo.width) * wide}px ${half[1] - (y / photo.height) * high}px`;
  }
  function lookAt(side, name) { const where = spot(sides[side], name); if (where) look(side, ...where); }
  function pointed(side, event) {
    const photo = photos.get(sides[side]), box = boards[side].querySelector("img").getBoundingClientRect();
    return [((event.clientX - box.left) / box.width) * photo.width, ((event.clientY - box.top) / box.height) * photo.height];
  }

  // The mark that is being worked on: the one chosen, in the picture last touched that has it.
  let hand = 0;
  function inHand() { return [hand, 1 - hand].find((side) => sides[side] && now.chosen && spot(sides[side], now.chosen)); }
  function nudge(side, name, step, far) {
    const file = sides[side], [x, y] = spot(file, name);
    hand = side;
    change(() => put(file, name, x + step[0] * far, y + step[1] * far), `keys ${file} ${name}`);
    const [nx, ny] = spot(file, name);
    tell(say("moved", { name, x: nx, y: ny }));
    lookAt(side, name);
  }

  // Mouse, finger, keys ------------------------------------------------------
  const STEPS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
  boards.forEach((board, side) => {
    const plane = board.querySelector(".plane");
    let drag = null;
    plane.addEventListener("pointermove", (event) => {
      if (drag) {
        const [x, y] = pointed(side, event);
        const file = sides[side], [x0, y0] = drag.offset;
        if (!drag.moved && Math.hypot(event.clientX - drag.from[0], event.clientY - drag.from[1]) < 3) return;
        change(() => put(file, drag.name, x - x0, y - y0), drag.moved ? lastMove.key : `drag ${Date.now()}`);
        drag.moved = true;
        lastMove.when = Date.now() + 1e6;   // one drag is one step back, however long it takes
        lookAt(side, drag.name);
      } else if (event.pointerType === "mouse") look(side, ...pointed(side, event));
    });
    plane.addEventListener("pointerdown", (event) => {
      const cross = event.target.closest(".cross");
      if (!cross || event.button) return;
      const name = cross.dataset.name, [x, y] = pointed(side, event), [mx, my] = spot(sides[side], name);
      hand = side;
      drag = { name, offset: [x - mx, y - my], from: [event.clientX, event.clientY], moved: false };
      plane.setPointerCapture(event.pointerId);
      choose(name);
      cross.focus({ preventScroll: true });
      lookAt(side, name);
    });
    const end = () => {
      if (drag?.moved) {
        const [x, y] = spot(sides[side], drag.name);
        tell(say("moved", { name: drag.name, x, y }));
      }
      lastMove = { key: "", when: 0 };
      setTimeout(() => { drag = null; });   // after the click that follows
    };
    plane.addEventListener("pointerup", end);
    plane.addEventListener("pointercancel", end);
    plane.addEventListener("click", (event) => {
      if (drag || event.target.closest(".cross")) return;
      const [x, y] = pointed(side, event), name = now.chosen;
      hand = side;
      place(sides[side], name, x, y);
      lookAt(side, name);
    });
    plane.addEventListener("focusin", (event) => {
      const cross = event.target.closest(".cross");
      if (!cross) return;
      hand = side;
      choose(cross.dataset.name);
      lookAt(side, cross.dataset.name);
    });
    plane.addEventListener("keydown", (event) => {
      const cross = event.target.closest(".cross");
      if (!cross || event.altKey || event.ctrlKey || event.metaKey) return;
      const file = sides[side], name = cross.dataset.name, step = STEPS[event.key];
      if (step) {
        event.preventDefault();
        nudge(side, name, step, event.shiftKey ? 10 : 1);
      } else if (event.key === "Delete" || event.key === "Backspace") {
        event.preventDefault();
        takeAway(file, name);
        (plane.querySelector(".cross") || at("mark-name")).focus();
      }
    });
    board.addEventListener("input", (event) => {
      if (event.target.dataset.scale === undefined) return;
      const place = Number(event.target.dataset.scale), file = sides[side];
      change(() => { now.scales[file][place] = event.target.value; }, `scale ${file} ${place}`);
    });
    board.addEventListener("click", (event) => {
      const wanted = event.target.dataset.do, file = sides[side];
      if (wanted === "copy") copy(file, board.querySelector("pre"));
      if (wanted === "download") download(file);
    });
  });
  function copied(file) { kept[file] = lines(file); tell(say("copied")); }
  function copy(file, shown) {
    const text = lines(file);
    const byHand = () => {
      getSelection().selectAllChildren(shown);
      if (document.execCommand("copy")) copied(file);
      else tell(say("copyYourself"));
    };
    if (navigator.clipboard) navigator.clipboard.writeText(text).then(() => copied(file), byHand);
    else byHand();
  }
  function download(file) {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([lines(file)], { type: "application/yaml" }));
    link.download = file.replace(/\.[^.]*$/, "") + ".marks.yml";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
    kept[file] = lines(file);
  }

  document.addEventListener("keydown", (event) => {
    const typing = event.target.matches?.("input, textarea");
    if ((event.ctrlKey || event.metaKey) && !event.shiftKey && event.key.toLowerCase() === "z" && !typing) {
      event.preventDefault();
      undo();
    }
  });
  at("undo").addEventListener("click", undo);
  for (const button of table.querySelectorAll("[data-step]")) {
    button.addEventListener("click", () => {
      const side = inHand();
      if (side === undefined) tell(say("noneToMove"));
      else nudge(side, now.chosen, STEPS[button.dataset.step], 1);
    });
  }
  at("mark-name").addEventListener("change", (event) => choose(event.target.value));
  at("new-mark").addEventListener("submit", (event) => {
    event.preventDefault();
    const field = at("new-name"), name = field.value.trim().replace(/\s+/g, " ");
    if (!name) { tell(say("noName")); return; }
    if (names().includes(name)) { tell(say("sameName", { name })); choose(name); return; }
    change(() => { now.added.push(name); now.chosen = name; });
    field.value = "";
    tell(say("next", { name }));
  });
  addEventListener("beforeunload", (event) => {
    if (sheet.photos.some(({ file }) => ![begun[file], kept[file]].includes(lines(file)))) event.preventDefault();
  });

  // Which photographs ----------------------------------------------------------
  const list = sheet.photos.map((photo) => [photo.file, photo.named]);
  function show(one, other) {
    sides = [one, other === one ? "" : other];
    options(at("photo-a"), list, sides[0]);
    options(at("photo-b"), [["", say("alone")], ...list.filter(([file]) => file !== sides[0])], sides[1]);
    table.classList.toggle("two", Boolean(sides[1]));
    now.chosen = "";
    hand = 0;
    draw();
    const first = now.marks[sides[0]][0];
    if (first) lookAt(0, first[0]);
    try { history.replaceState(null, "", "?" + new URLSearchParams({ photo: sides[0], ...(sides[1] && { beside: sides[1] }) })); } catch { /* a page opened from a disk keeps its address */ }
  }
  const partner = (file) => {
    const pair = sheet.pairs.find((pair) => [pair.before, pair.after].includes(file));
    const other = pair && (pair.before === file ? pair.after : pair.before);
    return photos.has(other) ? other : "";
  };
  at("photo-a").addEventListener("change", (event) => show(event.target.value, partner(event.target.value) || sides[1]));
  at("photo-b").addEventListener("change", (event) => show(sides[0], event.target.value));
  const asked = new URLSearchParams(location.search);
  const pair = sheet.pairs.find(({ before, after }) => photos.has(before) && photos.has(after));
  const one = photos.has(asked.get("photo")) ? asked.get("photo") : pair ? pair.before : sheet.photos[0].file;
  table.hidden = false;
  at("no-script").hidden = true;
  show(one, photos.has(asked.get("beside")) ? asked.get("beside") : partner(one));
  addEventListener("resize", () => { if (now.chosen) sides.some((file, side) => file && spot(file, now.chosen) && (lookAt(side, now.chosen), true)); });
}
