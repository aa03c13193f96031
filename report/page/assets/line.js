// Draws one moment of a line, and the time line of its servers around it, on two canvases. What is drawn comes from replay.js as plain lists.
const linePicture = (function () {
  const small = 11, text = 13, gap = 22, least = 172;

  function inks(paper) {
    const css = getComputedStyle(document.documentElement), c = {};
    ["paper", "ink", "soft", "rule", "accent", "wash", "processing", "starved", "blocked", "operator", "changeover", "repair", "off", "target"]
      .forEach(function (name) { c[name] = css.getPropertyValue("--" + name).trim(); });
    if (paper) Object.assign(c, {paper: "#fff", ink: "#000", soft: "#444", rule: "#bbb", accent: "#0b5d4b", wash: "#fff", processing: "#0072b2", off: "#bbbbbb"});
    c.font = getComputedStyle(document.body).fontFamily;
    return c;
  }

  // Colour and hatch of a state: turn of the lines in steps of 45 degrees, their distance; no hatch where there is none.
  const looks = {
    "processing": ["processing"], "starved": ["starved", 1, 6], "blocked": ["blocked", 3, 5], "waiting for operator": ["operator", 0, 4, "dots"],
    "changeover": ["changeover", 0, 5], "waiting for repair": ["repair", 2, 3], "under repair": ["repair", 2, 7], "planned stop": ["off", 1, 5], "off shift": ["off"],
    "hold": ["processing", 1, 6]
  };
  const phaseLook = ["processing"];
  function lookOf(name) { return looks[name] || phaseLook; }

  let tiles = {};
  function fill(pen, name, c, ratio) {
    const l = lookOf(name), colour = c[l[0]];
    if (!l[2]) return colour;
    const key = name + colour + ratio;
    if (!tiles[key]) tiles[key] = hatch(l, colour, ratio);
    const p = pen.createPattern(tiles[key], "repeat");
    p.setTransform(new DOMMatrix().scale(1 / ratio));
    return p;
  }
  function hatch(l, colour, ratio) {
    const side = l[2] * ratio, box = document.createElement("canvas"), pen = box.getContext("2d");
    box.width = box.height = side;
    pen.fillStyle = colour;
    pen.fillRect(0, 0, side, side);
    pen.strokeStyle = pen.fillStyle = "rgba(0,0,0,.45)";
    pen.lineWidth = 1.3 * ratio;
    pen.beginPath();
    if (l[3]) pen.arc(side / 2, side / 2, 0.9 * ratio, 0, 7);
    else if (l[1] === 0) { pen.moveTo(0, side / 2); pen.lineTo(side, side / 2); }
    else if (l[1] === 2) { pen.moveTo(side / 2, 0); pen.lineTo(side / 2, side); }
    else [-side, 0, side].forEach(function (by) {
      const up = l[1] === 1;
      pen.moveTo(by, up ? side : 0);
      pen.lineTo(by + side, up ? 0 : side);
    });
    if (l[3]) pen.fill(); else pen.stroke();
    return box;
  }

  function size(canvas, width, height, paper) {
    canvas.style.zoom = paper ? Math.min(1, 860 / height) : ""; // no page of paper cuts it
    const ratio = Math.max(2, Math.ceil(window.devicePixelRatio || 1)), pen = canvas.getContext("2d");
    if (canvas.width !== width * ratio || canvas.height !== Math.ceil(height) * ratio) {
      canvas.width = width * ratio;
      canvas.height = Math.ceil(height) * ratio;
      canvas.style.width = width + "px";
      canvas.style.height = Math.ceil(height) + "px";
    }
    pen.setTransform(ratio, 0, 0, ratio, 0, 0);
    pen.clearRect(0, 0, width, height);
    pen.textBaseline = "alphabetic";
    return {pen: pen, ratio: ratio};
  }

  function write(p, s, x, y, room, font, colour) {
    p.pen.font = font;
    p.pen.fillStyle = colour;
    p.pen.fillText(cut(p.pen, s, room), x, y);
  }
  function cut(pen, s, room) {
    if (pen.measureText(s).width <= room) return s;
    const letters = Array.from(s).slice(0, 120);
    while (letters.length > 1 && pen.measureText(letters.join("") + "…").width > room) letters.pop();
    return letters.join("").trimEnd() + "…";
  }
  function box(pen, x, y, w, h, r) {
    pen.beginPath();
    pen.roundRect(x, y, Math.max(w, 0), Math.max(h, 0), r);
  }

  // The parts of a tile, each with its height.
  function waits(b) { return {high: 30, draw: function (p, x, y, w, at, c) { gauge(p, b, x, y, w, at, c); }}; }
  function gauge(p, b, x, y, w, at, c) {
    const n = b.values[at], full = b.places > 0 && n >= b.places, most = b.places || b.most || 1;
    const said = b.name + ": " + n + (b.places ? " of " + b.places : ""), font = small + "px " + c.font;
    p.pen.font = font;
    write(p, p.pen.measureText(said + " " + b.piece).width <= w ? said + " " + b.piece : said, x, y + 11, w, font, c.ink);
    const paint = full ? fill(p.pen, "blocked", c, p.ratio) : c.accent;
    p.pen.strokeStyle = c.soft;
    p.pen.lineWidth = 1;
    if (b.piece === "carriers" && most <= 12) {
      const each = Math.min(18, (w - 2) / most);
      for (let i = 0; i < most; i++) {
        box(p.pen, x + 0.5 + i * each, y + 16.5, each - 3, 9, 1.5);
        if (i < n) { p.pen.fillStyle = paint; p.pen.fill(); }
        p.pen.stroke();
      }
      return;
    }
    box(p.pen, x + 0.5, y + 16.5, w - 1, 8, 2);
    p.pen.stroke();
    box(p.pen, x + 0.5, y + 16.5, (w - 1) * Math.min(1, n / most), 8, 2);
    p.pen.fillStyle = paint;
    p.pen.fill();
  }

  function beltOf(s, states) { return {high: 30, draw: function (p, x, y, w, at, c, seconds) { belt(p, s, states, x, y, w, at, c, seconds); }}; }
  function belt(p, s, states, x, y, w, at, c, seconds) {
    const n = s.inside[at], state = states[s.state[at]], room = w - 16, shown = Math.min(n, Math.floor(room / 6));
    swatch(p, state, x, y + 4, 10, 18, c);
    p.pen.strokeStyle = c.soft;
    p.pen.lineWidth = 1;
    box(p.pen, x + 14.5, y + 4.5, w - 15, 17, 3);
    p.pen.stroke();
    p.pen.fillStyle = c.ink;
    const apart = state === "blocked" ? 6 : room / Math.max(1, shown), moves = state === "processing" ? seconds * 6 % apart : 0;
    for (let i = 0; i < shown; i++) {
      const at = state === "blocked" ? room - 3 - i * apart : (i * apart + moves) % room;
      p.pen.fillRect(x + 16 + Math.max(0, Math.min(room - 4, at)), y + 10.5, 4, 5);
    }
    if (n > 0) label(p, n + (s.places ? " of " + s.places : ""), x + w - 6, y + 17, c);
  }
  // A label on a ground of its own, ending at x.
  function label(p, s, x, y, c) {
    p.pen.font = small + "px " + c.font;
    const wide = p.pen.measureText(s).width;
    p.pen.fillStyle = c.paper;
    p.pen.fillRect(x - wide - 3, y - 10, wide + 6, 13);
    p.pen.fillStyle = c.ink;
    p.pen.fillText(s, x - wide, y);
  }
  function swatch(p, state, x, y, w, h, c) {
    p.pen.fillStyle = fill(p.pen, state, c, p.ratio);
    p.pen.fillRect(x, y, w, h);
    p.pen.strokeStyle = c.ink;
    p.pen.lineWidth = 0.7;
    p.pen.strokeRect(x, y, w, h);
  }

  function vesselOf(s, states) { return {high: 58, draw: function (p, x, y, w, at, c) { vessel(p, s, states, x, y, w, at, c); }}; }
  function vessel(p, s, states, x, y, w, at, c) {
    const state = states[s.state[at]], n = s.inside[at], cells = Math.max(s.places, n, 1), each = (w - 22) / cells;
    box(p.pen, x + 1, y + 4, w - 2, 28, 12);
    p.pen.fillStyle = fill(p.pen, state, c, p.ratio);
    p.pen.fill();
    p.pen.strokeStyle = c.ink;
    p.pen.lineWidth = 1.2;
    p.pen.stroke();
    for (let i = 0; i < n; i++) {
      box(p.pen, x + 12 + i * each, y + 10, Math.max(2, each - 3), 16, 2);
      p.pen.fillStyle = c.paper;
      p.pen.fill();
      p.pen.stroke();
    }
    write(p, (s.alone ? "" : s.short + ": ") + state, x, y + 48, w, small + "px " + c.font, c.ink);
  }

  function benchesOf(servers, states, w) {
    const each = 25, across = Math.max(1, Math.floor(w / each)), few = servers.length <= 2;
    return {high: (few ? servers.length : Math.ceil(servers.length / across)) * each + 4, draw: function (p, x, y, w, at, c) {
      servers.forEach(function (s, i) {
        const state = states[s.state[at]];
        if (few) {
          swatch(p, state, x, y + 3 + i * each, 19, 19, c);
          write(p, state, x + 25, y + 17 + i * each, w - 25, small + "px " + c.font, c.ink);
        } else swatch(p, state, x + i % across * each, y + 3 + Math.floor(i / across) * each, 19, 19, c);
      });
    }};
  }

  function partsOf(node, states, w) {
    const parts = node.before.map(waits), plain = [];
    node.servers.forEach(function (s) {
      if (s.inside && s.piece === "packs") parts.push(beltOf(s, states));
      else if (s.inside) parts.push(vesselOf(s, states));
      else plain.push(s);
    });
    if (plain.length) parts.push(benchesOf(plain, states, w));
    return parts;
  }

  // The stations row by row as they follow each other.
  function layout(f, width) {
    const across = Math.max(1, Math.floor((width + gap) / (least + gap))), w = (width - gap * (across - 1)) / across, out = [];
    let y = 2, high = 0;
    f.nodes.forEach(function (node, i) {
      if (i > 0 && i % across === 0) { y += high + 18; high = 0; }
      const parts = partsOf(node, f.states, w - 20), tall = parts.reduce(function (sum, p) { return sum + p.high; }, 32);
      high = Math.max(high, tall);
      out.push({node: node, parts: parts, x: i % across * (w + gap), y: y, w: w, tall: tall, first: i % across === 0});
    });
    return {tiles: out, bottom: y + high};
  }

  function line(canvas, f, at, seconds, width, paper) {
    const c = inks(paper), l = layout(f, width), legend = legendOf(f, width, c), people = f.pools.length * 26 + (f.pools.length ? 14 : 0);
    const p = size(canvas, width, l.bottom + 14 + people + legend.high, paper), pen = p.pen;
    l.tiles.forEach(function (t) {
      box(pen, t.x + 0.5, t.y + 0.5, t.w - 1, t.tall - 1, 6);
      pen.fillStyle = c.wash;
      pen.fill();
      pen.strokeStyle = c.rule;
      pen.lineWidth = 1;
      pen.stroke();
      if (!t.first) arrow(pen, t.x - gap / 2, t.y + 16, c);
      write(p, t.node.name, t.x + 10, t.y + 20, t.w - 20, "600 " + text + "px " + c.font, c.ink);
      let y = t.y + 28;
      t.parts.forEach(function (part) { part.draw(p, t.x + 10, y, t.w - 20, at, c, seconds); y += part.high; });
    });
    f.pools.forEach(function (pool, i) { crew(p, pool, 0, l.bottom + 16 + i * 26, width, at, c); });
    legend.draw(p, l.bottom + 14 + people);
  }
  function arrow(pen, x, y, c) {
    pen.strokeStyle = c.soft;
    pen.lineWidth = 1.6;
    pen.beginPath();
    pen.moveTo(x - 6, y);
    pen.lineTo(x + 5, y);
    pen.moveTo(x + 1, y - 4);
    pen.lineTo(x + 5, y);
    pen.lineTo(x + 1, y + 4);
    pen.stroke();
  }

  // One small figure for each person: at work full, kept half, free empty, on a break only a line.
  function crew(p, pool, x, y, width, at, c) {
    const pen = p.pen, name = Math.min(150, width * 0.34), many = Math.min(pool.places, Math.floor((width - name) / 18));
    write(p, pool.name, x, y + 14, name - 8, text + "px " + c.font, c.ink);
    const busy = pool.busy[at], kept = busy + pool.kept[at], free = kept + pool.free[at], away = free + pool.away[at];
    for (let i = 0; i < many && i < away; i++) {
      const cx = x + name + 8 + i * 18, is = i < busy ? "busy" : i < kept ? "kept" : i < free ? "free" : "away";
      pen.strokeStyle = c.ink;
      pen.fillStyle = is === "busy" ? c.processing : is === "kept" ? c.operator : c.paper;
      pen.globalAlpha = is === "away" ? 0.35 : 1;
      pen.lineWidth = 1.2;
      pen.setLineDash(is === "away" ? [2, 2] : []);
      pen.beginPath();
      pen.arc(cx, y + 5, 3.6, 0, 7);
      pen.fill();
      pen.stroke();
      box(pen, cx - 6, y + 10, 12, 9, 4);
      pen.fill();
      pen.stroke();
      pen.setLineDash([]);
      pen.globalAlpha = 1;
    }
  }

  function legendOf(f, width, c) {
    const pen = document.createElement("canvas").getContext("2d"), items = [];
    pen.font = small + "px " + c.font;
    let x = 0, y = 0;
    f.used.forEach(function (s) {
      const w = pen.measureText(s).width + 32;
      if (x > 0 && x + w > width) { x = 0; y += 20; }
      items.push({name: s, x: x, y: y});
      x += w;
    });
    return {high: y + 24, draw: function (p, top) {
      items.forEach(function (i) {
        swatch(p, i.name, i.x + 1, top + i.y + 4, 14, 11, c);
        write(p, i.name, i.x + 20, top + i.y + 14, width, small + "px " + c.font, c.ink);
      });
    }};
  }

  // The state of each server from half a span before the moment shown to half a span after it.
  function gantt(canvas, f, at, span, width, clock, paper) {
    const c = inks(paper), rows = f.rows, name = Math.min(150, width * 0.3), high = rows.length > 10 ? 18 : 22, p = size(canvas, width, rows.length * high + 26, paper), pen = p.pen;
    const around = span / f.step, from = Math.max(0, Math.min(f.frames - 1 - around, at - around / 2)), px = (width - name) / around, to = Math.min(f.frames, Math.ceil(from + around));
    rows.forEach(function (s, r) {
      const y = r * high;
      write(p, s.name, 0, y + high - 6, name - 8, small + 1 + "px " + c.font, c.ink);
      for (let i = Math.max(0, Math.floor(from)); i < to;) {
        let n = i + 1;
        while (n < to && s.state[n] === s.state[i]) n++;
        const x = name + Math.max(0, (i - from) * px), w = name + Math.min(width - name, (n - from) * px) - x, state = f.states[s.state[i]];
        pen.fillStyle = fill(pen, state, c, p.ratio);
        pen.fillRect(x, y + 2, w, high - 4);
        if (w > 3) {
          pen.strokeStyle = c.paper;
          pen.lineWidth = 0.6;
          pen.strokeRect(x, y + 2, w, high - 4);
        }
        pen.font = "10px " + c.font;
        if (f.phase(state) && pen.measureText(state).width + 10 < w) label(p, state, x + w / 2 + pen.measureText(state).width / 2, y + high - 7, c);
        i = n;
      }
    });
    pen.strokeStyle = c.ink;
    pen.lineWidth = 1.5;
    const now = name + (at - from) * px;
    pen.beginPath();
    pen.moveTo(now, 0);
    pen.lineTo(now, rows.length * high + 4);
    pen.stroke();
    [0, 0.25, 0.5, 0.75, 1].forEach(function (part) {
      if (width < 520 && part % 0.5) return;
      const s = clock((from + part * around) * f.step, false);
      pen.font = small + "px " + c.font;
      const w = pen.measureText(s).width, x = name + part * (width - name);
      pen.fillStyle = c.soft;
      pen.fillText(s, Math.max(name, Math.min(width - w, x - w / 2)), rows.length * high + 18);
    });
  }

  // A canvas on the ground of the page, as a data URL.
  function png(canvas) {
    const copy = document.createElement("canvas"), pen = copy.getContext("2d");
    copy.width = canvas.width;
    copy.height = canvas.height;
    pen.fillStyle = inks(false).paper;
    pen.fillRect(0, 0, copy.width, copy.height);
    pen.drawImage(canvas, 0, 0);
    return copy.toDataURL("image/png");
  }

  return {line: line, gantt: gantt, png: png, clear: function clear() { tiles = {}; }};
})();
