// Puts buttons under charts, tables and the replay that save them as files: PNG, SVG, CSV. Nothing leaves the page but by them.
(function () {
  const name = document.title.replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-+|-+$/g, "").slice(0, 60) || "pascaline";

  function keep(blob, end) {
    const a = document.createElement("a"), url = URL.createObjectURL(blob);
    a.href = url;
    a.download = name + "-" + end;
    a.click();
    setTimeout(function () { URL.revokeObjectURL(url); }, 1000);
  }
  function ofDataURL(url) {
    const text = atob(url.slice(url.indexOf(",") + 1)), bytes = new Uint8Array(text.length);
    for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
    return new Blob([bytes], {type: "image/png"});
  }
  function row(after, what, keys) {
    const p = document.createElement("p");
    p.className = "save";
    p.append("Save as ");
    keys.forEach(function (k) {
      const b = document.createElement("button");
      b.type = "button";
      b.textContent = k[0];
      b.setAttribute("aria-label", "Save " + what + " as " + k[0]);
      b.addEventListener("click", k[1]);
      p.append(b, " ");
    });
    after.after(p);
  }

  charted.all.forEach(function (one) {
    const end = one.box.id.replace("chart-", "");
    row(one.box.parentElement.querySelector("figcaption"), "this chart", [
      ["PNG", function () { keep(ofDataURL(charted.png(one)), end + ".png"); }],
      ["SVG", function () { keep(new Blob([charted.svg(one)], {type: "image/svg+xml"}), end + ".svg"); }]
    ]);
  });
  const texts = JSON.parse(document.getElementById("tables-data").textContent);
  document.querySelectorAll("main table").forEach(function (t, i) {
    const section = t.closest("section").id;
    row(t.parentElement, "the table " + t.caption.textContent, [["CSV", function () { keep(new Blob([texts[i]], {type: "text/csv;charset=utf-8"}), section + "-" + (i + 1) + ".csv"); }]]);
  });
  document.querySelectorAll(".replay canvas").forEach(function (c) {
    row(c, "this picture", [["PNG", function () { keep(ofDataURL(linePicture.png(c)), c.className + ".png"); }]]);
  });
})();
