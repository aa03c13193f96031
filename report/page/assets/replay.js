// Plays a replication: reads its tracks, moves through its frames, and says in words what linePicture draws.
(function () {
  const mostRows = 16; // of the time line
  const box = document.querySelector(".replay");
  if (!box) return;
  const data = JSON.parse(document.getElementById("replay-data").textContent), films = [];
  const calm = window.matchMedia("(prefers-reduced-motion: reduce)");
  const el = {};
  ["which", "play", "back", "on", "speed", "span", "at", "told", "clock", "counts", "line", "gantt", "standing"].forEach(function (name) { el[name] = box.querySelector("." + name); });
  let film, pos = 0, playing = false, before = 0, paper = false, beat = 0;

  function values(t, frames) {
    const out = new Int32Array(frames);
    let at = 0, total = 0;
    t.runs.split(" ").forEach(function (word) {
      const star = word.indexOf("*"), v = Number(star < 0 ? word : word.slice(0, star)), n = star < 0 ? 1 : Number(word.slice(star + 1));
      for (let i = 0; i < n && at < frames; i++) {
        total = t.sum ? total + v : v;
        out[at++] = total;
      }
    });
    return out;
  }

  // The tracks of one replay as stations with what waits before them, people, stops and counts.
  function open(r) {
    const f = {step: r.step_s, frames: r.frames, length: r.length_s, states: r.states, nodes: [], pools: [], stops: [], ends: [], rows: [], used: []};
    const phases = new Set(r.states.slice(9));
    f.phase = function phase(s) { return phases.has(s); };
    const node = function (name) {
      let n = f.nodes.find(function (n) { return n.name === name; });
      if (!n) { n = {name: name, servers: [], before: []}; f.nodes.push(n); }
      return n;
    };
    r.tracks.forEach(function (t) { if (t.kind === "state") node(t.station).servers.push({name: t.name, short: t.name.replace(t.station + ", ", ""), piece: t.piece, state: values(t, r.frames), inside: null, places: 0}); });
    r.tracks.forEach(function (t) {
      const v = t.kind === "state" ? null : values(t, r.frames);
      const server = function (n) { return n.servers.find(function (s) { return s.name === t.name; }); };
      if (t.kind === "inside") Object.assign(server(node(t.station)), {inside: v, places: t.places || 0});
      else if (t.kind === "buffer") (f.nodes.find(function (n) { return n.name === t.station; }) || f.nodes[0] || node("line")).before.push({name: t.name, piece: t.piece, places: t.places || 0, values: v, most: most(v)});
      else if (t.kind === "busy" || t.kind === "kept" || t.kind === "free" || t.kind === "away") {
        let p = f.pools.find(function (p) { return p.name === t.name; });
        if (!p) { p = {name: t.name, places: t.places || 0}; f.pools.push(p); }
        p[t.kind] = v;
      } else if (t.kind === "stop") f.stops.push({name: t.name, station: t.station, on: v});
      else if (t.kind !== "state") f.ends.push({kind: t.kind, piece: t.piece, values: v});
    });
    f.nodes.forEach(function (n) { n.servers.forEach(function (s) { s.alone = n.servers.length === 1; }); });
    rowsOf(f);
    usedOf(f);
    return f;
  }
  function most(v) { return v.reduce(function (a, b) { return Math.max(a, b); }, 0); }

  // Rows of the time line: every server, or the first of each station where there are too many.
  function rowsOf(f) {
    const all = f.nodes.reduce(function (list, n) { return list.concat(n.servers); }, []);
    f.rows = all.length <= mostRows ? all : f.nodes.map(function (n) { return n.servers[0]; }).filter(Boolean).slice(0, mostRows);
  }
  // The states that come up, for the legend; phases are written beside the vessel.
  function usedOf(f) {
    const seen = new Set();
    f.nodes.forEach(function (n) { n.servers.forEach(function (s) { s.state.forEach(function (v) { seen.add(v); }); }); });
    f.used = f.states.filter(function (name, i) { return i < 9 && (seen.has(i) || i === 0); });
  }

  function two(n) { return (n < 10 ? "0" : "") + n; }
  function clock(seconds, long) {
    const timed = data.start_s >= 0, all = Math.max(0, Math.round(seconds + (timed ? data.start_s : 0))), h = Math.floor(all / 3600), m = two(Math.floor(all / 60) % 60), s = two(all % 60);
    if (!timed) return h + ":" + m + ":" + s + (long ? " h" : "");
    return (h >= 168 ? "week " + (Math.floor(h / 168) + 1) + " " : "") + ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"][Math.floor(h / 24) % 7] + " " + two(h % 24) + ":" + m + (long ? ":" + s : "");
  }
  function group(n) { return String(n).replace(/\B(?=(\d{3})+$)/g, ","); }
  function secondsAt(i) { return Math.min(i * film.step, film.length); }

  function counts(at) {
    return film.ends.map(function (e) {
      const n = group(e.values[at]);
      if (e.kind === "finished") return n + " " + e.piece + " finished";
      return e.kind === "aside" ? n + " packs set aside" : n + " vessel cycles";
    }).join(", ");
  }
  function words(at) {
    const out = [], on = film.stops.filter(function (s) { return s.on[at] > 0; });
    film.pools.forEach(function (p) {
      const parts = [p.busy[at] + " at work"];
      if (p.kept[at]) parts.push(p.kept[at] + " kept for a task that needs more");
      if (p.free[at]) parts.push(p.free[at] + " free");
      if (p.away[at]) parts.push(p.away[at] + " on a break");
      out.push(p.name + ": " + parts.join(", ") + ".");
    });
    out.push(on.length ? "Stops: " + on.map(function (s) { return s.name + " (" + s.station + ")"; }).join(", ") + "." : "No stop.");
    return out.join(" ");
  }

  function show() {
    const at = Math.max(0, Math.min(film.frames - 1, Math.floor(pos))), width = paper ? 660 : box.clientWidth;
    if (!width) return;
    linePicture.line(el.line, film, at, secondsAt(pos), width, paper);
    linePicture.gantt(el.gantt, film, at, Number(el.span.value), width, clock, paper);
    el.clock.textContent = (paper ? el.which.selectedOptions[0].textContent + ". " : "") + clock(secondsAt(at), true) + ".";
    el.counts.textContent = counts(at) + ".";
    el.standing.textContent = words(at);
    if (document.activeElement !== el.at || Number(el.at.value) !== at) el.at.value = at;
    el.at.setAttribute("aria-valuetext", clock(secondsAt(at), true));
  }

  function choose(i) {
    films[i] = films[i] || open(data.replays[i]);
    film = films[i];
    el.at.max = film.frames - 1;
    pos = start();
    show();
  }
  // Where a quarter is finished, the line is in full swing.
  function start() {
    const end = film.ends.find(function (e) { return e.kind === "finished" && e.values[film.frames - 1] > 0; });
    if (!end) return 0;
    return Math.max(0, end.values.findIndex(function (v) { return v * 4 >= end.values[film.frames - 1]; }));
  }

  function go(to) { pos = Math.max(0, Math.min(film.frames - 1, to)); show(); }
  function tick(now) {
    if (!playing) return;
    const gone = Math.min(250, now - before) / 1000;
    before = now;
    go(pos + gone * Number(el.speed.value) / film.step);
    if (pos >= film.frames - 1) play(false);
    else requestAnimationFrame(tick);
  }
  // Where less motion is asked for, the picture changes once a second and nothing glides.
  function jump() {
    go(Math.floor(pos) + Math.max(1, Math.round(Number(el.speed.value) / film.step)));
    if (pos >= film.frames - 1) play(false);
  }
  function play(is) {
    playing = is;
    el.play.textContent = is ? "Pause" : "Play";
    clearInterval(beat);
    el.told.setAttribute("aria-live", is ? "off" : "polite");
    if (!is) return;
    if (pos >= film.frames - 1) pos = 0;
    if (calm.matches) { beat = setInterval(jump, 1000); return; }
    before = performance.now();
    requestAnimationFrame(tick);
  }
  function step(by) { play(false); go(Math.floor(pos) + by); }

  function begin() {
    box.hidden = false;
    el.which.addEventListener("change", function () { play(false); choose(Number(el.which.value)); });
    el.play.addEventListener("click", function () { play(!playing); });
    el.back.addEventListener("click", function () { step(-1); });
    el.on.addEventListener("click", function () { step(1); });
    el.span.addEventListener("change", show);
    el.at.addEventListener("input", function () { go(Number(el.at.value)); });
    choose(0);
    new ResizeObserver(function () { if (!paper) show(); }).observe(box);
    window.matchMedia("(prefers-color-scheme: dark)").addEventListener("change", function () { linePicture.clear(); show(); });
    window.addEventListener("beforeprint", function () { play(false); paper = true; linePicture.clear(); show(); });
    window.addEventListener("afterprint", function () { paper = false; linePicture.clear(); show(); });
  }
  begin();
})();
