"use strict";
// The fall played with a slider; without this the pictures show the same.
(() => {
  const played = byId("played");
  if (!played) return;
  const form = byId("asked");
  const slider = byId("second");
  const now = byId("now");
  const play = byId("play");
  const fault = byId("fault");
  const EDGE = 64, TIP = 160;
  let W = 600, fell = null, asked = 0, running = 0;

  const draw = (parent, name, attributes, words) => {
    const one = document.createElementNS("http://www.w3.org/2000/svg", name);
    for (const [key, value] of Object.entries(attributes)) one.setAttribute(key, value);
    if (words !== undefined) one.textContent = words;
    parent.append(one);
    return one;
  };
  const line = (parent, points, more) =>
    draw(parent, "polyline", {
      points: points.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(" "),
      fill: "none", stroke: "#000", "stroke-width": 1.5, ...more,
    });
  const say = (parent, words, x, y, more) =>
    draw(parent, "text", { x, y, "font-size": 16, fill: "#000", ...more }, words);
  const last = (row) => row.at(-1);
  const paper = (id, height, label) => {
    const place = byId(id);
    place.replaceChildren();
    return draw(place, "svg", { viewBox: `0 0 ${W} ${height}`, role: "img", "aria-label": label });
  };

  // The still at a moment; one that ended stays so.
  const still = (rows, n) => rows[Math.min(n, rows.length - 1)];

  const water = (n) => {
    const all = fell.patterns;
    const deep = Math.max(...all.map((one) => one.deep_mm));
    const right = Math.max(...all.flatMap((one) => one.stills[0].x_mm));
    const left = Math.min(0, ...all.flatMap((one) => one.stills.map((s) => Math.min(...s.x_mm))));
    const scale = Math.min((W - 2 * EDGE) / (right - left), 500 / deep);
    const at = (x, z) => [EDGE + scale * (x - left), 20 + scale * Math.min(deep, Math.max(0, z))];
    const svg = paper("section", scale * deep + 40, "The water in section, with the rig as it is then");
    const [, top] = at(0, 0), [, bed] = at(0, deep);
    line(svg, [[EDGE, top], [W - 10, top]]);
    if (all[0].has_bed) line(svg, [[EDGE, bed], [W - 10, bed]], { "stroke-width": 3 });
    for (const [z, words] of fell.marks)
      say(svg, words, EDGE - 6, at(0, z)[1] + 5, { "text-anchor": "end" });
    [...all].reverse().forEach((one, back) => {
      const first = back === all.length - 1;
      const ink = first ? "#000" : "#777";
      const track = (rows, more) =>
        line(svg, rows.slice(0, n + 1), { stroke: ink, ...more });
      track(one.stills.map((s) => at(last(s.x_mm), last(s.z_mm))), { "stroke-width": 1 });
      if (one.slack.length)
        track(one.slack.map((s) => at(s.x_mm, s.z_mm)), { "stroke-dasharray": "6 4" });
      const then = still(one.stills, n);
      const points = then.x_mm.map((x, i) => at(x, then.z_mm[i]));
      line(svg, points, { stroke: ink });
      if (one.has_float)
        line(svg, [[points[0][0], top], [points[0][0], top - 14]], { stroke: ink, "stroke-width": 4 });
      for (const p of one.shot)
        draw(svg, "circle", { cx: points[p][0], cy: points[p][1], r: 4, fill: ink });
      const [x, y] = last(points);
      draw(svg, "circle", { cx: x, cy: y, r: 4, fill: "#fff", stroke: ink, "stroke-width": 2 });
    });
  };

  const tip = (n) => {
    const all = fell.patterns.filter((one) => one.has_float);
    byId("tip-shown").parentElement.hidden = !all.length;
    if (!all.length) return;
    const most = Math.max(...all.map((one) => Math.max(one.stills.length, one.slack.length))) - 1;
    const mm = all.flatMap((one) => [...one.stills, ...one.slack].map((s) => s.tip_mm));
    for (const one of fell.bite) mm.push(one.tip_mm);
    const high = Math.max(5, ...mm), low = Math.min(0, ...mm);
    const at = (i, v) => [
      EDGE + ((W - 2 * EDGE) * i) / Math.max(1, most),
      25 + ((TIP - 50) * (high - v)) / (high - low),
    ];
    const svg = paper("tip-shown", TIP, "What the tip shows over time, and what it shows then");
    line(svg, [at(0, high), at(0, low), at(most, low)]);
    say(svg, `${Math.round(high)} mm of tip`, 4, 18);
    const first = all[0];
    const rows = (them) => them.map((s, i) => at(i, s.tip_mm));
    if (first.slack.length)
      line(svg, [...rows(first.stills), ...rows(first.slack).reverse()], { fill: "#d0d0d0", stroke: "none" });
    [...all].reverse().forEach((one, back) => {
      const ink = back === all.length - 1 ? "#000" : "#777";
      line(svg, rows(one.stills), { stroke: ink });
      if (one.slack.length) line(svg, rows(one.slack), { stroke: ink, "stroke-dasharray": "6 4" });
    });
    const bite = fell.bite.map((one) => [one.seconds / fell.every_s, one.tip_mm]).filter(([i]) => i <= most);
    if (bite.length > 1) {
      line(svg, bite.map(([i, v]) => at(i, v)), { "stroke-dasharray": "2 4", "stroke-width": 2.5 });
      const [x, y] = at(...last(bite));
      say(svg, "bite", x, y - 6, { "text-anchor": "end" });
    }
    line(svg, [at(Math.min(n, most), low), at(Math.min(n, most), high)], { stroke: "#777" });
    const shows = still(first.stills, n).tip_mm;
    say(svg, shows < 0 ? "under water" : `${Math.round(shows)} mm show`, W - 4, 18, { "text-anchor": "end" });
    say(svg, `${Math.round(most * fell.every_s)} s`, W - EDGE, TIP - 6, { "text-anchor": "end" });
  };

  const show = () => {
    const n = Number(slider.value);
    W = Math.min(600, byId("section").clientWidth - 16 || 600);
    now.textContent = (n * fell.every_s).toFixed(1);
    water(n);
    tip(n);
  };

  addEventListener("resize", () => fell && show());
  const stop = () => {
    cancelAnimationFrame(running);
    running = 0;
    play.textContent = "Play";
  };
  const start = () => {
    if (slider.value === slider.max) slider.value = 0;
    const from = performance.now() - 1000 * fell.every_s * Number(slider.value);
    play.textContent = "Stop";
    const turn = (time) => {
      slider.value = Math.round((time - from) / 1000 / fell.every_s);
      show();
      if (slider.value === slider.max) stop();
      else running = requestAnimationFrame(turn);
    };
    running = requestAnimationFrame(turn);
  };

  const read = async (mine, band) => {
    const query = queryOf(form);
    if (band) query.set("band", "1");
    const answer = await fetch(`${played.dataset.stills}?${query}`);
    const told = await answer.json();
    if (mine !== asked) return false;
    fault.hidden = answer.ok;
    for (const id of ["answer", "played", "more"]) byId(id).hidden = !answer.ok;
    fault.textContent = answer.ok ? "" : `✗ ${told.fault}`;
    fault.dataset.at = told.at;
    byId("answer").before(fault);
    beside(form, fault);
    if (!answer.ok) return false;
    const ended = !fell || slider.value === slider.max;
    fell = told;
    slider.max = Math.max(...fell.patterns.map((one) => Math.max(one.stills.length, one.slack.length))) - 1;
    if (ended && !running) slider.value = slider.max;
    show();
    return true;
  };
  // The page's own figures and pictures, once something else is asked for.
  const anew = async (mine) => {
    const query = queryOf(form);
    const [, page] = await pageAt(`?${query}`);
    if (mine !== asked) return;
    for (const id of ["answer", "more"])
      byId(id).replaceWith(document.adoptNode(page.getElementById(id)));
    here(query);
  };
  // The tight line first, as it is soon there; the band follows, then all figures.
  const ask = async (event) => {
    const mine = ++asked;
    if (!(await read(mine, false)) || !(await read(mine, true)) || !event) return;
    await anew(mine);
  };

  slider.addEventListener("input", () => { stop(); show(); });
  play.addEventListener("click", () => (running ? stop() : start()));
  form.addEventListener("change", ask);
  if (played.dataset.ready) ask();
})();
