"use strict";
// Gives every chart its look and keeps it fitting: colours of the scheme, hatches, labels where there is room, paper.
// The options come as plain JSON from the page; nothing in them is run. Functions are looked up by name in `looks`.
const charted = (function () {
  const paperWidth = 660; // what A4 and Letter both hold within their margins, in CSS pixels
  const paperHeight = 860; // what both hold in height, beside a heading and a caption
  let paper = false;
  const drawn = [];

  function inks() {
    const css = getComputedStyle(document.documentElement), c = {};
    ["paper", "ink", "soft", "rule", "accent", "processing", "starved", "blocked", "operator", "changeover", "repair", "off", "target"]
      .forEach(function (name) { c[name] = css.getPropertyValue("--" + name).trim(); });
    if (paper) Object.assign(c, {paper: "#fff", ink: "#000", soft: "#444", rule: "#bbb", accent: "#0b5d4b", processing: "#0072b2", off: "#bbbbbb"});
    c.font = getComputedStyle(document.body).fontFamily;
    return c;
  }

  function lines(turn, gap, thick) {
    return {symbol: "rect", symbolSize: 1, dashArrayX: [1, 0], dashArrayY: [thick || 1.5, gap], rotation: turn, color: "rgba(0,0,0,.38)"};
  }
  function spots(gap) {
    return {symbol: "circle", symbolSize: 0.7, dashArrayX: [[gap, gap], [0, gap, gap, 0]], dashArrayY: [gap, 0], color: "rgba(0,0,0,.4)"};
  }
  const hatches = {
    "state-starved": lines(Math.PI / 4, 6), "state-blocked": lines(-Math.PI / 4, 5), "state-waiting-for-operator": spots(4),
    "state-changeover": lines(0, 5), "state-under-repair": lines(Math.PI / 2, 7), "state-waiting-for-repair": lines(Math.PI / 2, 3, 2),
    "loss-outside": lines(-Math.PI / 4, 5), "loss-own": lines(Math.PI / 2, 6), "gain": spots(4), "shifting": lines(Math.PI / 4, 6), "hold": lines(Math.PI / 4, 6),
    "people-walk": lines(Math.PI / 4, 6), "people-kept": spots(4)
  };
  function colourOf(id, c) {
    return {
      "state-processing": c.processing, "state-starved": c.starved, "state-blocked": c.blocked, "state-waiting-for-operator": c.operator,
      "state-changeover": c.changeover, "state-under-repair": c.repair, "state-waiting-for-repair": c.repair,
      "end": c.processing, "loss-own": c.repair, "loss-outside": c.blocked, "gain": c.target, "sole": c.accent, "shifting": c.starved, "lost": c.accent, "hold": c.processing,
      "people-busy": c.processing, "people-walk": c.starved, "people-kept": c.operator, "people-free": c.off
    }[id];
  }

  function group(v) {
    const s = String(Math.round(v));
    return s.replace(/\B(?=(\d{3})+$)/g, ",");
  }
  // A mark of a scale, as round as it is: rounded to whole numbers, marks half a piece apart would read the same.
  function mark(v) {
    if (Math.abs(v) >= 1e5) return group(v);
    const parts = String(Number(v.toPrecision(6))).split(".");
    return parts[0].replace(/\B(?=(\d{3})+$)/g, ",") + (parts[1] ? "." + parts[1] : "");
  }
  function amount(v) { return Math.abs(v) < 10 ? String(Math.round(v * 100) / 100) : group(v); }
  function moved(v) { return (v > 0 ? "+" : "") + group(v); }
  function two(n) { return (n < 10 ? "0" : "") + n; }
  function plantTime(ms) {
    const d = new Date(ms), day = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"][d.getUTCDay()];
    return day + " " + two(d.getUTCHours()) + ":" + two(d.getUTCMinutes());
  }
  // Later weeks are numbered from that of the start, as in the tables; a day is enough for their marks.
  const secondMonday = 11 * 86400e3;
  function clock(long, weeks) {
    return function clockLabel(ms) {
      const s = plantTime(ms);
      if (weeks && ms >= secondMonday) return "week " + (2 + Math.floor((ms - secondMonday) / 604800e3)) + " " + s.replace(" 00:00", "");
      return long ? s : s.slice(4);
    };
  }
  function elapsed(ms) {
    const m = Math.round(ms / 60000);
    return m % 60 ? Math.floor(m / 60) + ":" + two(m % 60) + " h" : m / 60 + " h";
  }
  function tipText(s) { return String(s).replace(/[{}]/g, "|").slice(0, 80); }

  const pen = document.createElement("canvas").getContext("2d");
  function textWidth(s, font) { pen.font = font; return pen.measureText(s).width; }

  // The room that the widest label beside the bars of some series takes.
  function widest(series, c) {
    return Math.max(0, ...series.flatMap(function (s) { return s.data.map(function (d) { return textWidth(d.name || "", "12px " + c.font); }); }));
  }

  // How much room a legend takes that wraps at the width of the chart.
  function legendRoom(names, width, font) {
    let rows = 1, x = 0;
    names.forEach(function (n) {
      const w = textWidth(n, font) + 38;
      if (x > 0 && x + w > width) { rows++; x = 0; }
      x += w;
    });
    return rows * 24 + 6;
  }
  function legend(o, c, width, skip) {
    const names = o.series.map(function (s) { return s.name; }).filter(function (n) { return n !== skip; });
    o.legend = {show: names.length > 1, type: "plain", left: 0, top: 0, width: width, itemWidth: 18, itemHeight: 12, itemGap: 12, padding: 0,
      selectedMode: false, data: names, textStyle: {color: c.ink, fontFamily: c.font, fontSize: 12}};
    return names.length > 1 ? legendRoom(names, width, "12px " + c.font) : 8;
  }

  // Breaks a name into two lines where it is too wide; what is left over ends in an ellipsis.
  function twoLines(name, room, font) {
    const out = [""];
    name.split(" ").forEach(function (word) {
      const last = out[out.length - 1], longer = last ? last + " " + word : word;
      if (!last || textWidth(longer, font) <= room || out.length === 2) out[out.length - 1] = longer;
      else out.push(word);
    });
    return out.map(function (line) {
      if (textWidth(line, font) <= room) return line;
      let letters = Array.from(line).slice(0, 120);
      while (letters.length > 1 && textWidth(letters.join("") + "…", font) > room) letters.pop();
      return letters.join("").trimEnd() + "…";
    });
  }

  // The names of lying bars: as wide as the longest, at most 38 % of the chart. A second line of a name is a remark.
  function rowNames(axis, c, width) {
    const font = "13px " + c.font;
    let most = 0, deepest = 1;
    axis.data.forEach(function (n) { n.split("\n").forEach(function (l) { most = Math.max(most, textWidth(l, font)); }); });
    const room = Math.ceil(Math.min(most + 4, width * 0.38));
    const shown = axis.data.map(function (n) {
      const lines = n.split("\n").flatMap(function (l) { return twoLines(l, room, font); });
      deepest = Math.max(deepest, lines.length);
      return lines.join("\n");
    });
    axis.axisLabel = {show: true, interval: 0, color: c.ink, fontFamily: c.font, fontSize: 13, lineHeight: 16,
      formatter: function shownName(n, i) { return shown[i]; }};
    axis.axisLine = {show: true, lineStyle: {color: c.ink}};
    axis.axisTick = {show: false};
    return {left: room + 14, row: deepest * 16 + (paper ? 5 : 14)};
  }
  function scale(axis, c, format) {
    const marks = format === group || format === amount ? mark : format;
    axis.axisLabel = {show: true, color: c.soft, fontFamily: c.font, fontSize: 12, formatter: marks, hideOverlap: true};
    axis.splitLine = {show: true, lineStyle: {color: c.rule}};
    axis.axisLine = {show: false};
    axis.axisTick = {show: false};
  }
  function tip(c, trigger, format) {
    return {show: true, renderMode: "richText", trigger: trigger, confine: true, formatter: format, backgroundColor: c.paper, borderColor: c.ink,
      textStyle: {color: c.ink, fontFamily: c.font, fontSize: 13}, axisPointer: {lineStyle: {color: c.soft}}};
  }
  function barTip(p) { return tipText(p.name.split("\n")[0]) + "\n" + tipText(p.seriesName) + ": " + p.data.name; }
  function nameOf(p) { return p.data.name || ""; }
  function percent(v) { return v + " %"; }

  function bar(s, c, height) {
    const colour = colourOf(s.id, c) || c.processing;
    s.barWidth = height;
    s.itemStyle = {color: colour, borderColor: c.paper, borderWidth: 1, decal: hatches[s.id]};
    s.emphasis = {disabled: true};
  }
  // Direct labels on a ground of their own, so that they read on any colour and hatch, where the bar is wide enough.
  function labelInside(s, c, per) {
    s.data.forEach(function (d) { if (d.value * per < textWidth(d.name || "", "12px " + c.font) + 10) d.label = {show: false}; });
    s.label = {show: true, position: "inside", fontSize: 12, fontFamily: c.font, color: c.ink, backgroundColor: c.paper, padding: [1, 3], borderRadius: 2, formatter: nameOf};
  }
  function labelRight(s, c) {
    s.data.forEach(function (d) { if (!d.name) d.label = {show: false}; });
    s.label = {show: true, position: "right", color: c.ink, fontFamily: c.font, fontSize: 12, formatter: nameOf};
  }

  const looks = {
    states: function states(o, c, width) {
      const top = legend(o, c, width), names = rowNames(o.yAxis[0], c, width), per = (width - names.left - 16) / 100;
      scale(o.xAxis[0], c, percent);
      o.grid = {left: names.left, right: 16, top: top, bottom: 26};
      o.series.forEach(function (s) { bar(s, c, paper ? 22 : 26); labelInside(s, c, per); });
      o.tooltip = tip(c, "item", barTip);
      return top + 26 + names.row * o.yAxis[0].data.length;
    },
    shares: function shares(o, c, width) {
      const names = rowNames(o.yAxis[0], c, width);
      scale(o.xAxis[0], c, percent);
      o.grid = {left: names.left, right: 64, top: 6, bottom: 26};
      o.series.forEach(function (s) { bar(s, c, 20); labelRight(s, c); });
      o.tooltip = tip(c, "item", barTip);
      return 32 + names.row * o.yAxis[0].data.length;
    },
    losses: function losses(o, c, width) {
      const top = legend(o, c, width, "under"), names = rowNames(o.yAxis[0], c, width);
      scale(o.xAxis[0], c, group);
      o.grid = {left: names.left, right: 64, top: top, bottom: 26};
      o.series.forEach(function (s) {
        bar(s, c, 20);
        s.itemStyle.borderWidth = 0; // so that a loss of few packs is still a line
        if (s.id === "under") { s.itemStyle = {color: "transparent"}; s.silent = true; return; }
        labelRight(s, c);
      });
      o.tooltip = tip(c, "item", barTip);
      return top + 26 + names.row * o.yAxis[0].data.length;
    },
    stops: function stops(o, c, width) {
      const top = legend(o, c, width), names = rowNames(o.yAxis[0], c, width);
      scale(o.xAxis[0], c, amount);
      o.grid = {left: names.left, right: Math.max(24, widest(o.series, c) + 10), top: top, bottom: 26};
      o.series.forEach(function (s) { bar(s, c, 20); s.itemStyle.borderWidth = 0; labelRight(s, c); });
      o.tooltip = tip(c, "item", barTip);
      return top + 26 + names.row * o.yAxis[0].data.length;
    },
    phases: function phases(o, c, width) {
      const top = legend(o, c, width), last = o.xAxis[0].max, per = (width - 24) / last;
      scale(o.xAxis[0], c, function seconds(v) { return Math.round(v) + " s"; });
      o.xAxis[0].splitLine.show = false;
      o.xAxis[0].axisLabel.showMaxLabel = false;
      o.yAxis[0].show = false;
      o.grid = {left: 2, right: 22, top: top, bottom: 26};
      const shades = [c.starved, c.off, c.changeover, c.operator, c.blocked, c.target, c.repair];
      o.series.forEach(function (s, i) {
        bar(s, c, 36);
        if (s.id !== "hold") { s.itemStyle.color = shades[i % shades.length]; s.itemStyle.decal = i % 2 ? lines(i, 6) : undefined; }
        labelInside(s, c, per);
      });
      o.tooltip = tip(c, "item", function phaseTip(p) { return tipText(p.seriesName) + ": " + p.data.name; });
      return top + 26 + 52;
    },
    lots: function lots(o, c, width) {
      const names = rowNames(o.yAxis[0], c, width), per = (width - names.left - 24) / o.xAxis[0].max;
      scale(o.xAxis[0], c, function hours(v) { return v % 1 ? "" : v + " h"; });
      o.xAxis[0].axisLabel.showMaxLabel = false;
      o.grid = {left: names.left, right: 24, top: 8, bottom: 26};
      const shades = [c.starved, c.changeover, c.operator, c.target, c.blocked, c.off];
      o.legend = {show: false};
      o.series.forEach(function (s, i) {
        bar(s, c, 24);
        if (s.id.startsWith("gap-")) { s.itemStyle = {color: "transparent"}; s.silent = true; return; }
        const k = (i - 1) / 2;
        s.itemStyle.color = shades[k % shades.length];
        s.itemStyle.decal = [undefined, lines(Math.PI / 4, 6), spots(4), lines(Math.PI / 2, 6)][k % 4];
        const short = s.name.replace(/^lot /, "");
        s.data.forEach(function (d) { if (d.value * per < textWidth(short, "12px " + c.font) + 10) d.label = {show: false}; });
        s.label = {show: true, position: "inside", fontSize: 12, fontFamily: c.font, color: c.ink, backgroundColor: c.paper, padding: [1, 3], borderRadius: 2,
          formatter: function lotName() { return short; }};
      });
      o.tooltip = tip(c, "item", function lotTip(p) { return tipText(p.data.name); });
      return 34 + names.row * o.yAxis[0].data.length;
    },
    profile: function profile(o, c, width) {
      time(o, c, width);
      o.series.forEach(function (s) {
        plain(s, c);
        if (s.id === "low") s.lineStyle = {opacity: 0};
        if (s.id === "band") { s.lineStyle = {opacity: 0}; s.areaStyle = {color: c.starved, opacity: 0.45}; }
        if (s.markArea) { s.markArea.silent = true; s.markArea.itemStyle = {color: c.off, opacity: 0.4}; }
        if (s.markLine) marked(o, s.markLine, c, width);
      });
      o.tooltip = tip(c, "axis", function profileTip(ps) {
        const by = {};
        ps.forEach(function (p) { by[p.seriesId] = p.value[1]; });
        return o.xAxis[0].axisLabel.formatter(ps[0].value[0]) + "\nmean " + group(by.mean) + " packs/h\nP10 " + group(by.low) + "  P90 " + group(by.low + by.band);
      });
      return 300;
    },
    buffer: function buffer(o, c, width) {
      time(o, c, width);
      let limit = 0;
      o.series.forEach(function (s) {
        plain(s, c);
        if (s.id === "most") { s.lineStyle = {color: c.soft, width: 1}; s.itemStyle = {color: c.soft}; }
        if (s.markLine) {
          limit = s.markLine.data[0].yAxis;
          Object.assign(s.markLine, {silent: true, symbol: "none", animation: false, lineStyle: {color: c.repair, type: [6, 4], width: 2},
            label: {position: "insideEndTop", color: c.ink, fontFamily: c.font, fontSize: 12, formatter: s.markLine.data[0].name}});
        }
      });
      if (limit) o.yAxis[0].max = function roomAboveLimit(v) { return Math.ceil(Math.max(v.max, limit) * 1.2); };
      if (limit) o.yAxis[0].axisLabel.showMaxLabel = false;
      o.tooltip = tip(c, "axis", function bufferTip(ps) {
        return [o.xAxis[0].axisLabel.formatter(ps[0].value[0])].concat(ps.map(function (p) { return p.seriesName + " " + Math.round(p.value[1] * 10) / 10; })).join("\n");
      });
      return 200;
    },
    costs: function costs(o, c, width) {
      const top = legend(o, c, width), names = rowNames(o.yAxis[0], c, width), most = Math.max.apply(null, o.yAxis[0].data.map(function (_, i) {
        return o.series.reduce(function (sum, s) { return sum + s.data[i].value; }, 0);
      }));
      scale(o.xAxis[0], c, function cost(v) { return String(Math.round(v * 1000) / 1000); });
      o.grid = {left: names.left, right: 24, top: top, bottom: 26};
      o.series.forEach(function (s) { bar(s, c, paper ? 20 : 24); labelInside(s, c, (width - names.left - 24) / (most * 1.1)); });
      o.tooltip = tip(c, "item", barTip);
      return top + 26 + names.row * o.yAxis[0].data.length;
    },
    swings: function swings(o, c, width) {
      const top = legend(o, c, width), names = rowNames(o.yAxis[0], c, width);
      scale(o.xAxis[0], c, moved);
      o.grid = {left: names.left + 60, right: 76, top: top, bottom: 26};
      o.yAxis[0].axisLabel.margin = 68; // room for the values on the left
      o.yAxis[0].axisLine = {show: true, onZero: true, lineStyle: {color: c.ink}};
      o.series.forEach(function (s, i) {
        bar(s, c, 20);
        s.barGap = "-100%";
        s.label = {show: true, position: i ? "right" : "left", color: c.ink, fontFamily: c.font, fontSize: 12, formatter: nameOf};
        s.data.forEach(function (d) { if (!d.value) d.label = {show: false}; });
      });
      o.tooltip = tip(c, "item", barTip);
      return top + 26 + names.row * o.yAxis[0].data.length;
    },
    cash: function cash(o, c, width) {
      scale(o.xAxis[0], c, function year(v) { return "year " + v; });
      o.xAxis[0].boundaryGap = false;
      o.xAxis[0].splitLine.show = false;
      o.xAxis[0].axisLine = {show: true, onZero: true, lineStyle: {color: c.ink, width: 1.5}};
      scale(o.yAxis[0], c, group);
      o.grid = {left: 78, right: 34, top: 14, bottom: 30};
      o.series.forEach(function (s) {
        band(s, c);
      });
      o.tooltip = tip(c, "axis", function cashTip(ps) {
        const by = {};
        ps.forEach(function (p) { by[p.seriesId] = p.value; });
        return "year " + ps[0].name + "\nas planned " + group(by.central) + "\nP10 " + group(by.low) + "  P90 " + group(by.low + by.band);
      });
      return paper ? 165 : 300;
    },
    histogram: function histogram(o, c, width) {
      const top = legend(o, c, width);
      scale(o.xAxis[0], c, function from(v) { return v; });
      o.xAxis[0].splitLine.show = false;
      o.xAxis[0].axisLine = {show: true, lineStyle: {color: c.ink}};
      Object.assign(o.xAxis[0], {name: "seconds", nameLocation: "middle", nameGap: 26, nameTextStyle: {color: c.soft, fontFamily: c.font}});
      scale(o.yAxis[0], c, group);
      o.yAxis[0].minInterval = 1;
      o.grid = {left: 40, right: 12, top: top + 8, bottom: 44};
      o.series.forEach(function (s) {
        if (s.id !== "readings") { plain(s, c); s.lineStyle = {color: c.repair, width: 2}; s.itemStyle = {color: c.repair}; return; }
        s.barCategoryGap = "4%";
        s.itemStyle = {color: c.starved, borderColor: c.ink, borderWidth: 0.5};
        s.emphasis = {disabled: true};
      });
      o.tooltip = tip(c, "axis", function histogramTip(ps) {
        return ["from " + ps[0].name + " s"].concat(ps.map(function (p) { return tipText(p.seriesName) + " " + Math.round(p.value * 10) / 10; })).join("\n");
      });
      return 230;
    },
    counted: function counted(o, c, width) {
      scale(o.xAxis[0], c, function period(v) { return v; });
      o.xAxis[0].splitLine.show = false;
      o.xAxis[0].axisLine = {show: true, lineStyle: {color: c.ink}};
      scale(o.yAxis[0], c, group);
      o.yAxis[0].scale = true;
      o.grid = {left: 64, right: 24, top: 14, bottom: 30};
      o.series.forEach(function (s) {
        band(s, c);
        if (s.id === "counted") {
          s.symbol = "circle";
          s.symbolSize = o.xAxis[0].data.length > 60 ? 6 : 9;
          s.itemStyle = {color: c.processing, borderColor: c.paper, borderWidth: 1};
          s.data.forEach(function (d) { if (d.name === "no") d.itemStyle = {color: c.paper, borderColor: c.repair, borderWidth: 3}; });
        }
      });
      o.tooltip = tip(c, "axis", function countedTip(ps) {
        const by = {};
        ps.forEach(function (p) { by[p.seriesId] = p.value; });
        return tipText(ps[0].name) + "\ncounted " + group(by.counted) + "\npredicted " + group(by.middle) + "\n95 % " + group(by.low) + " to " + group(by.low + by.band);
      });
      return 280;
    },
    quantiles: function quantiles(o, c) {
      function whole(v) { return Math.round(v * 100) / 100; }
      scale(o.xAxis[0], c, whole);
      scale(o.yAxis[0], c, whole);
      [o.xAxis[0], o.yAxis[0]].forEach(function (a) { a.axisLabel.showMinLabel = false; a.axisLabel.showMaxLabel = false; });
      Object.assign(o.xAxis[0], {name: "expected, s", nameLocation: "middle", nameGap: 26, nameTextStyle: {color: c.soft, fontFamily: c.font}});
      o.grid = {left: 48, right: 14, top: 12, bottom: 44};
      o.series.forEach(function (s) {
        if (s.id === "diagonal") { plain(s, c); s.lineStyle = {color: c.ink, width: 1.5}; s.silent = true; return; }
        s.symbolSize = 6;
        s.itemStyle = {color: c.processing, borderColor: c.paper, borderWidth: 0.5};
      });
      o.tooltip = tip(c, "item", function quantileTip(p) { return "read " + whole(p.value[1]) + " s\nexpected " + whole(p.value[0]) + " s"; });
      return 230;
    },
    pressure: function pressure(o, c) {
      scale(o.xAxis[0], c, group);
      scale(o.yAxis[0], c, group);
      o.xAxis[0].splitLine.show = false;
      o.xAxis[0].axisLine = {show: true, lineStyle: {color: c.ink}};
      Object.assign(o.xAxis[0], {name: "seconds", nameLocation: "middle", nameGap: 26, nameTextStyle: {color: c.soft, fontFamily: c.font}});
      o.grid = {left: 52, right: 24, top: 14, bottom: 42};
      o.series.forEach(function (s) { plain(s, c); s.areaStyle = {color: c.processing, opacity: 0.15}; });
      o.tooltip = tip(c, "axis", function pressureTip(ps) { return amount(ps[0].value[0]) + " s\n" + group(ps[0].value[1]) + " MPa"; });
      return 260;
    },
    dots: function dots(o, c, width) {
      scale(o.xAxis[0], c, function whole(v) { return v % 1 || v === 0 || v === o.xAxis[0].max ? "" : v; });
      o.xAxis[0].splitLine.show = false;
      o.xAxis[0].axisLine = {show: true, onZero: false, lineStyle: {color: c.ink}};
      Object.assign(o.xAxis[0], {name: o.xAxis[0].name || "replication", nameLocation: "middle", nameGap: 26, nameTextStyle: {color: c.soft, fontFamily: c.font}});
      scale(o.yAxis[0], c, amount);
      o.grid = {left: 56, right: 16, top: 12, bottom: 42};
      o.series.forEach(function (s) {
        s.symbolSize = o.series[0].data.length > 100 ? 5 : 8;
        s.itemStyle = {color: c.processing, borderColor: c.paper, borderWidth: 1};
        if (s.markLine) Object.assign(s.markLine, {silent: true, symbol: "none", lineStyle: {color: c.ink, type: "solid", width: 1.5}, label: {show: false}});
        if (s.markArea) Object.assign(s.markArea, {silent: true, itemStyle: {color: c.target, opacity: 0.3}});
      });
      o.tooltip = tip(c, "item", function dotTip(p) { return o.xAxis[0].name + " " + p.value[0] + "\n" + amount(p.value[1]) + " " + tipText(p.seriesName); });
      return 260;
    },
    intervals: function intervals(o, c, width) {
      const names = rowNames(o.yAxis[0], c, width);
      scale(o.xAxis[0], c, amount);
      o.grid = {left: names.left, right: 24, top: 6, bottom: 26};
      o.series.forEach(function (s) {
        s.type = "custom";
        s.encode = {x: [0, 2, 3], y: 1};
        s.renderItem = function drawInterval(params, api) {
          const y = api.value(1), mid = api.coord([api.value(0), y]), low = api.coord([api.value(2), y])[0], high = api.coord([api.value(3), y])[0];
          const line = function (x1, y1, x2, y2) { return {type: "line", shape: {x1: x1, y1: y1, x2: x2, y2: y2}, style: {stroke: c.ink, lineWidth: 2}}; };
          const name = s.data[params.dataIndex].name, font = "12px " + c.font, half = textWidth(name, font) / 2 + 2;
          const inside = Math.max(Math.min(mid[0], api.getWidth() - half), half);
          return {type: "group", children: [line(low, mid[1], high, mid[1]), line(low, mid[1] - 6, low, mid[1] + 6), line(high, mid[1] - 6, high, mid[1] + 6),
            {type: "circle", shape: {cx: mid[0], cy: mid[1], r: 6}, style: {fill: c.target, stroke: c.ink, lineWidth: 1}},
            {type: "text", style: {text: name, x: inside, y: mid[1] - 10, align: "center", verticalAlign: "bottom", fill: c.ink, font: font}}]};
        };
        if (s.markLine) Object.assign(s.markLine, {silent: true, symbol: "none", animation: false, lineStyle: {color: c.repair, type: "solid", width: 1.5}, label: {show: false}});
      });
      o.tooltip = tip(c, "item", function intervalTip(p) { return tipText(o.yAxis[0].data[p.value[1]]) + "\n" + p.data.name; });
      return 40 + Math.max(names.row, 48) * o.yAxis[0].data.length;
    },
    frontier: function frontier(o, c, width) {
      const top = legend(o, c, width), x = o.xAxis[0], y = o.yAxis[0], target = o.series[0].markLine.data[0];
      [x, y].forEach(function (a) { scale(a, c, group); a.axisLine = {show: true, onZero: false, lineStyle: {color: c.ink}}; });
      Object.assign(x, {nameLocation: "middle", nameGap: 28, nameTextStyle: {color: c.soft, fontFamily: c.font}, boundaryGap: ["4%", "4%"]});
      y.max = function roomAboveTarget(v) { return Math.ceil(Math.max(v.max, target.yAxis) * 1.02); };
      y.min = function roomBelowTarget(v) { return Math.floor(Math.min(v.min, target.yAxis) * 0.98); };
      Object.assign(y, {showMinLabel: false, nameTextStyle: {color: c.soft, fontFamily: c.font, align: "left"}, nameGap: 8});
      y.axisLabel.showMaxLabel = y.axisLabel.showMinLabel = false;
      o.grid = {left: 62, right: 20, top: top + 22, bottom: 44};
      const look = {
        all: {symbolSize: 7, itemStyle: {color: c.off, borderColor: c.soft, borderWidth: 1}},
        edge: {symbolSize: 10, itemStyle: {color: c.processing, borderColor: c.ink, borderWidth: 1.5}},
        here: {symbol: "diamond", symbolSize: 17, itemStyle: {color: c.target, borderColor: c.ink, borderWidth: 1.5}}
      };
      o.series.forEach(function (s) { Object.assign(s, look[s.id], {emphasis: {disabled: true}}); });
      Object.assign(o.series[0].markLine, {silent: true, symbol: "none", animation: false, lineStyle: {color: c.repair, type: [6, 4], width: 2},
        label: {position: "insideEndTop", color: c.ink, fontFamily: c.font, fontSize: 12, formatter: target.name}});
      o.tooltip = tip(c, "item", function frontierTip(p) { return tipText(p.data.name) + "\n" + group(p.value[0]) + " " + tipText(x.name) + "\n" + group(p.value[1]) + " " + tipText(y.name); });
      return 340;
    }
  };

  function time(o, c, width) {
    const x = o.xAxis[0], span = (x.max - x.min) / 3600e3, long = span > 26, roster = x.min >= 4 * 86400e3;
    scale(x, c, roster ? clock(long, x.max > secondMonday) : elapsed);
    x.splitLine.show = false;
    x.axisLine = {show: true, lineStyle: {color: c.ink}};
    x.axisTick = {show: true, lineStyle: {color: c.ink}};
    x.minInterval = 3600e3 * [1, 2, 3, 4, 6, 12, 24, 48].find(function (h) { return span / h * (long ? 76 : 50) < width || h === 48; });
    scale(o.yAxis[0], c, group);
    o.grid = {left: 52, right: 24, top: 14, bottom: 26};
    o.useUTC = true;
  }
  // The plan lies across the chart; where another crew comes a thin line stands, with the shift's name while there is room for all.
  function marked(o, m, c, width) {
    const shifts = m.data.filter(function (d) { return d.yAxis === undefined; }).length;
    Object.assign(m, {silent: true, symbol: "none", animation: false});
    m.data.forEach(function (d) {
      const plan = d.yAxis !== undefined, name = d.name;
      d.lineStyle = plan ? {color: c.repair, type: [6, 4], width: 2} : {color: c.soft, type: "dotted", width: 1};
      d.label = {show: plan || shifts * 70 < width, position: plan ? "insideEndTop" : "end", rotate: 0, color: c.ink, fontFamily: c.font, fontSize: 12,
        formatter: function markName() { return tipText(name); }};
      if (plan) o.yAxis[0].axisLabel.showMaxLabel = false;
      if (plan) o.yAxis[0].max = function roomAbovePlan(v) { return Math.ceil(Math.max(v.max, d.yAxis) * 1.1); };
    });
  }
  function plain(s, c) {
    s.symbol = "none";
    s.lineStyle = {color: c.processing, width: 2};
    s.itemStyle = {color: c.processing};
    s.emphasis = {disabled: true};
  }

  // A series of a range over time: its two ends stacked to a band, and the line in its middle.
  function band(s, c) {
    plain(s, c);
    s.stackStrategy = "all";
    if (s.id === "low") s.lineStyle = {opacity: 0};
    if (s.id === "band") { s.lineStyle = {opacity: 0}; s.areaStyle = {color: c.starved, opacity: 0.45}; }
    if (s.id === "middle") s.lineStyle = {color: c.soft, width: 1.5, type: [5, 4]};
  }

  // The options of a chart with their look, for a width, and the height that they need.
  function ready(one, width) {
    const options = JSON.parse(one.json);
    options.animation = false;
    options.aria = {enabled: false}; // the box has its own label
    delete options.title;
    delete options.toolbox;
    return {options: options, height: looks[one.box.dataset.draw](options, inks(), width)};
  }
  function draw(one) {
    const width = paper ? (one.narrow ? paperWidth / 2 - 16 : paperWidth) : one.box.clientWidth;
    if (!width) return;
    const r = ready(one, width);
    one.box.style.height = r.height + "px";
    one.box.style.zoom = paper ? Math.min(1, paperHeight / r.height) : ""; // a chart is never cut by the end of a page
    one.chart.resize({width: width, height: r.height});
    one.chart.setOption(r.options, true);
    one.width = width;
  }
  function png(one) { return one.chart.getDataURL({type: "png", pixelRatio: 2, backgroundColor: inks().paper}); }
  function svg(one) {
    const r = ready(one, one.width), chart = echarts.init(null, null, {renderer: "svg", ssr: true, width: one.width, height: r.height});
    r.options.backgroundColor = inks().paper;
    chart.setOption(r.options);
    const text = chart.renderToSVGString();
    chart.dispose();
    return text;
  }
  function drawAll() { drawn.forEach(draw); }

  function fit(entries) {
    if (paper) return;
    entries.forEach(function (e) {
      const one = drawn.find(function (d) { return d.box === e.target; });
      if (one && e.target.clientWidth !== one.width) draw(one);
    });
  }

  let folded = [];
  function toPaper() {
    if (paper) return;
    paper = true;
    folded = Array.from(document.querySelectorAll("details:not([open]):not(.long)"));
    folded.forEach(function (d) { d.open = true; });
    drawAll();
  }
  function toScreen() {
    if (!paper) return;
    paper = false;
    folded.forEach(function (d) { d.open = false; });
    drawAll();
  }

  function start() {
    const watch = new ResizeObserver(fit);
    document.querySelectorAll(".chart").forEach(function (box) {
      box.classList.add("drawn");
      const chart = echarts.init(box, null, {renderer: "canvas", devicePixelRatio: Math.max(2, window.devicePixelRatio || 1), width: 100, height: 100});
      const one = {box: box, chart: chart, json: document.getElementById(box.dataset.options).textContent, narrow: !!box.closest(".small"), width: 0};
      drawn.push(one);
      draw(one);
      watch.observe(box);
    });
    window.addEventListener("beforeprint", toPaper);
    window.addEventListener("afterprint", toScreen);
    window.matchMedia("(prefers-color-scheme: dark)").addEventListener("change", drawAll);
  }
  start();
  return {all: drawn, png: png, svg: svg};
})();
