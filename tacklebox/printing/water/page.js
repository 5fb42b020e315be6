// A tap is kept before it is shown as kept. The page judges nothing: it looks up what was judged at
// home, and adds weights, counts and times.
"use strict";
(() => {
  const facts = JSON.parse(document.getElementById("facts").textContent);
  const find = (id) => document.getElementById(id);
  const G_PER_OZ = 28.349523125, CUT_OFF = 500;
  // Which opening of the page this is; its seconds since, which no change of the phone's clock moves, go with
  // each tap.
  const opening = Math.random().toString(36).slice(2, 8);
  const WEIGHTS = {
    silvers: ["1 oz", "2 oz", "4 oz", "8 oz", "1 lb"],
    carp: ["1 lb", "2 lb", "3 lb", "5 lb", "8 lb"],
  };
  const LOST = { fish: "the fish", about: "what is said of the fish", back: "that it is taken back" };
  const OFTEN = 6; // fish by the thumb
  let taps = [], store = null, turn = Promise.resolve();

  const two = (n) => String(n).padStart(2, "0");
  const clock = (d) => [d.getHours(), d.getMinutes(), d.getSeconds()].map(two).join(":");
  const stamp = (d) =>
    [d.getFullYear(), two(d.getMonth() + 1), two(d.getDate())].join("-") + " " + clock(d);
  const on = (hours) => new Date(`${facts.on}T${hours}:00`);
  const plain = (said) => said.replace(/[|\s]+/g, " ").trim().slice(0, CUT_OFF);

  function weight(g) {
    const oz = Math.round(g / G_PER_OZ), lb = Math.floor(oz / 16);
    const said = [lb && `${lb} lb`, oz % 16 && `${oz % 16} oz`].filter(Boolean).join(" ") || "0 oz";
    return `${said} (${g >= 1000 ? (g / 1000).toFixed(2) + " kg" : Math.round(g) + " g"})`;
  }

  // "2-4", "2 lb 4 oz", "6 oz", "250 g", "1.2 kg"; null for what is no weight of a fish.
  function grams(said) {
    const words = said.toLowerCase().replace(",", ".").trim();
    const figure = "(\\d{1,4}(?:\\.\\d{1,3})?)";
    const tries = [
      [`${figure} *(?:-|lbs? *)${figure} *(?:oz)?`, (a, b) => (b < 16 ? (16 * a + b) * G_PER_OZ : 0)],
      [`${figure} *lbs?`, (a) => 16 * a * G_PER_OZ],
      [`${figure} *oz`, (a) => a * G_PER_OZ],
      [`${figure} *kg`, (a) => 1000 * a],
      [`${figure} *g`, (a) => a],
    ];
    for (const [form, reckon] of tries) {
      const found = words.match(new RegExp(`^${form}$`));
      if (found) {
        const g = reckon(...found.slice(1).map(Number));
        return g > 0 && g <= 50000 ? g : null;
      }
    }
    return null;
  }

  // What stands when later taps have taken back or completed earlier ones.
  function fold() {
    const back = new Set(taps.filter((t) => t.did === "back").map((t) => t.of));
    const more = new Map();
    for (const tap of taps)
      if (tap.did === "about" && !back.has(tap.id)) more.set(tap.of, { ...more.get(tap.of), ...tap.is });
    const standing = taps
      .filter((t) => t.did !== "back" && t.did !== "about" && !back.has(t.id))
      .map((t) => ({ ...t, ...more.get(t.id) }));
    const nets = { silvers: 1, carp: 1 };
    let rig = facts.rigs.length ? facts.rigs[0].code : "";
    for (const tap of standing) {
      if (tap.did === "net") nets[tap.net.split(" ")[0]] = Number(tap.net.split(" ")[1]);
      if (tap.did === "rig") rig = tap.rig;
    }
    return { standing, back, nets, rig, fish: standing.filter((t) => t.did === "fish") };
  }

  const netOf = (fish) => fish.net || "";

  function openStore() {
    return new Promise((done, failed) => {
      const asked = indexedDB.open("tacklebox-water", 1);
      asked.onupgradeneeded = () =>
        asked.result
          .createObjectStore("taps", { keyPath: "id", autoIncrement: true })
          .createIndex("record", "record");
      asked.onsuccess = () => done(asked.result);
      asked.onerror = asked.onblocked = () => failed(asked.error);
    });
  }

  function readTaps() {
    return new Promise((done, failed) => {
      const asked = store.transaction("taps").objectStore("taps").index("record").getAll(facts.record);
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => failed(asked.error);
    });
  }

  // One tap after the other, as they were tapped, however long each takes to be kept: what is said of "the
  // last fish" is said of the one tapped before. `make` makes the tap in its turn, null where there is none.
  function keep(make, words) {
    const [when, since] = [stamp(new Date()), Math.round(performance.now() / 1000)];
    say("Keeping it …");
    turn = turn.then(() => keepNow(make, words, when, since));
    return turn;
  }

  async function keepNow(make, words, when, since) {
    const tap = typeof make === "function" ? make() : make;
    if (!tap) return;
    const kept = { ...tap, record: facts.record, at: when, open: `${opening} ${since} s` };
    const before = taps.length ? taps.at(-1).id : 0;
    try {
      await new Promise((done, failed) => {
        const work = store.transaction("taps", "readwrite", { durability: "strict" });
        const asked = work.objectStore("taps").add(kept);
        asked.onsuccess = () => (kept.id = asked.result);
        work.oncomplete = done;
        work.onabort = work.onerror = () => failed(work.error);
      });
    } catch (error) {
      alarm(`NOT kept: ${LOST[tap.did] || words}. Write it on the card.${error ? ` (${error.name})` : ""}`);
      return;
    }
    taps.push(kept);
    if (kept.id !== before + 1) await readAgain(); // tapped in another tab, too
    show();
    say(`✓ Kept ${kept.at.slice(11, 16)}: ${said(words)}`);
    find("kept").dataset.tap = kept.id;
  }

  // Another tab of this file may have kept taps since.
  function seeAgain() {
    turn = turn.then(readAgain).then(show);
    return turn;
  }

  const said = (words) => (typeof words === "function" ? words() : words);

  async function readAgain() {
    try {
      taps = await readTaps();
    } catch {} // what is shown stays
  }

  function say(words) {
    find("kept").className = "kept";
    find("kept").textContent = words;
  }

  function alarm(words) {
    find("kept").className = "alarm";
    find("kept").textContent = words;
  }

  function button(words, press, pressed) {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = words;
    if (pressed !== undefined) made.setAttribute("aria-pressed", pressed);
    made.addEventListener("click", press);
    return made;
  }

  const fill = (id, made) => find(id).replaceChildren(...made);

  function row(list, name, words) {
    const [dt, dd] = ["dt", "dd"].map((tag) => document.createElement(tag));
    dt.textContent = name;
    dd.textContent = words;
    list.push(dt, dd);
  }

  // The last fish again where `again` is said, else one of which nothing is known yet.
  function aFish(again) {
    keep(() => {
      const now = fold();
      const { rig, species, weighs_g, net } = (again && now.fish.at(-1)) || {};
      return JSON.parse(JSON.stringify({ did: "fish", rig: rig || now.rig, species, weighs_g, net }));
    }, () => {
      const { fish } = fold();
      return `fish ${fish.length}${again && fish.at(-1).species ? ", " + fish.at(-1).species : ""}`;
    });
  }

  function about(is, words) {
    keep(() => {
      const last = fold().fish.at(-1);
      return last && { did: "about", of: last.id, is: typeof is === "function" ? is() : is };
    }, () => `fish ${fold().fish.length} ${words}`);
  }

  function takeBack() {
    let last;
    keep(() => {
      const { back } = fold();
      last = taps.filter((t) => t.did !== "back" && !back.has(t.id)).at(-1);
      return last && { did: "back", of: last.id };
    }, () => `taken back: ${last.did}${last.says ? " " + last.says : ""}`);
  }

  function showFish(now) {
    const last = now.fish.at(-1);
    find("again").disabled = !last;
    find("about").hidden = find("next").hidden = !last;
    if (!last) return;
    find("about-which").textContent =
      `Fish ${now.fish.length}, ${last.at.slice(11, 16)}` +
      (last.species ? `, ${last.species}` : "") +
      (last.weighs_g ? `, ${weight(last.weighs_g)}` : "");
    const named = (name) => {
      const kind = facts.net_of[name];
      about(() => ({ species: name, net: `${kind} ${fold().nets[kind]}` }), `is ${name}`);
    };
    const ofFish = (names) => names.map((name) => button(name, () => named(name), last.species === name));
    const ofWeight = (all) => all.map((said) =>
      button(said, () => weighs(said), !!last.weighs_g && Math.abs(last.weighs_g - grams(said)) < 1));
    // What is by the thumb is not there a second time.
    const isNext = now.standing.at(-1).did === "fish";
    const known = now.fish.filter((fish) => fish.species).at(-1);
    const often = isNext ? facts.fish.slice(0, OFTEN) : [];
    const heavy = isNext ? WEIGHTS[(known && facts.net_of[known.species]) || "silvers"] : [];
    const others = Object.keys(facts.net_of).filter((name) => !facts.fish.includes(name));
    const weights = ["1 oz", "2 oz", "4 oz", "8 oz", "12 oz", "1 lb", "2 lb", "3 lb", "5 lb", "8 lb"];
    find("next").hidden = !isNext;
    fill("next-species", ofFish(often));
    fill("next-weights", ofWeight(heavy));
    fill("species", ofFish(facts.fish.filter((name) => !often.includes(name))));
    fill("other-species", ofFish(others));
    fill("weights", ofWeight(weights.filter((said) => !heavy.includes(said))));
    fill("fish-rigs", facts.rigs.map((rig) =>
      button(rig.code, () => about({ rig: rig.code }, `is on ${rig.code}`), last.rig === rig.code)));
  }

  function weighs(said) {
    const g = grams(said);
    find("weight-fault").textContent = g ? "" : `"${said}" is no weight: like 2 lb 4 oz, 6 oz or 250 g.`;
    if (g) about({ weighs_g: Math.round(10 * g) / 10 }, `weighs ${weight(g)}`);
    return g;
  }

  function showNets(now) {
    const heaps = new Map();
    for (const fish of now.fish) {
      const heap = heaps.get(netOf(fish)) || { fish: 0, unweighed: 0, g: 0 };
      heap.fish += 1;
      heap.unweighed += fish.weighs_g ? 0 : 1;
      heap.g += fish.weighs_g || 0;
      heaps.set(netOf(fish), heap);
    }
    const rows = [], warned = [];
    for (const [net, heap] of [...heaps].sort()) {
      const not = heap.unweighed ? `, ${heap.unweighed} not weighed` : "";
      row(rows, net || "no kind said", `${heap.fish} fish, ${weight(heap.g)}${not}`);
      const kind = net.split(" ")[0];
      if (kind in facts.net.most_g && heap.g >= facts.net.near_g[kind])
        warned.push(`${heap.g >= facts.net.most_g[kind] ? "OVER THE LIMIT" : "Near the limit"}: ${net}. ` +
          facts.net.words[kind]);
    }
    fill("nets", rows);
    const total = now.fish.reduce((sum, fish) => sum + (fish.weighs_g || 0), 0);
    find("total").textContent = `${now.fish.length} fish, ${weight(total)}`;
    find("net-warning").hidden = !warned.length;
    find("net-warning").textContent = warned.join(" ");
    fill("new-nets", facts.nets.map((kind) => button(`New net: ${kind} ${now.nets[kind] + 1}`, () =>
      keep({ did: "net", net: `${kind} ${now.nets[kind] + 1}` }, `${kind} net ${now.nets[kind] + 1}`))));
  }

  function showTackle(now) {
    const gone = new Set(now.standing.filter((t) => ["lost", "worn out"].includes(t.did)).map((t) => t.rig));
    const still = facts.rigs.filter((rig) => !gone.has(rig.code));
    fill("rigs", facts.rigs.map((rig) => button(`${rig.code} ${rig.name}`, () =>
      keep({ did: "rig", rig: rig.code }, `fishing ${rig.code}`), now.rig === rig.code)));
    const lose = [];
    still.sort((a, b) => (b.code === now.rig) - (a.code === now.rig)); // what he has in hand first
    for (const did of ["lost", "worn out"]) {
      for (const one of facts.hooklengths)
        lose.push(button(`${one.name} ${did}`, () => keep({ did, item: one.item, is: one.name }, `${one.name} ${did}`)));
      for (const rig of still) lose.push(button(`${rig.code} ${did}`, () => keep({ did, rig: rig.code }, `${rig.code} ${did}`)));
    }
    fill("lose", lose);
    find("changed-rig").textContent = now.rig || "no rig";
    fill("put-on", facts.hooklengths.map((one) => button(one.name, () =>
      keep({ did: "change", rig: now.rig, item: one.item, is: one.name, says: plain(`hooklength ${one.name}`) }, `${now.rig}: hooklength ${one.name}`))));
    const rig = facts.rigs.find((one) => one.code === now.rig);
    find("with-float").hidden = !rig || rig.method === "feeder";
    const kind = rig && rig.method === "feeder" ? "feeder" : "float";
    const own = rig && rig.carries ? [{ item: rig.carries, name: rig.carries_name }] : [];
    const carried = [...own, ...facts.carried.filter((one) => one.kind === kind && !(rig && one.item === rig.carries))];
    find("with-carried").hidden = !rig || !carried.length;
    find("carried-which").textContent = kind === "feeder" ? "Feeder put on" : "Float put on";
    fill("carried", carried.map((one) => button(one.name, () =>
      keep({ did: "change", rig: now.rig, item: one.item, is: one.name, about: kind, says: plain(one.name) }, `${now.rig}: ${kind} ${one.name}`))));
    const count = (did) => now.standing.filter((t) => t.did === did && t.item).length;
    find("lost-count").textContent =
      `Lost: ${count("lost")} hooklengths; rigs gone: ${[...gone].filter(Boolean).join(", ") || "none"}.`;
  }

  function recordText(now) {
    const lines = ["TACKLEBOX RECORD 1", `record | ${facts.record}`, `match | ${facts.match}`, `day | ${facts.on}`,
      `rigs | ${facts.rigs.map((rig) => rig.code).join(" ")}`];
    const number = new Map(taps.map((tap, at) => [tap.id, at + 1]));
    for (const tap of now.standing) {
      const parts = [number.get(tap.id), tap.at, tap.did];
      for (const key of ["species", "rig", "item", "is", "net"]) if (tap[key]) parts.push(`${key} ${plain(String(tap[key]))}`);
      if (tap.weighs_g) parts.push(`weighs ${tap.weighs_g} g`);
      if (tap.open) parts.push(`open ${tap.open}`);
      if (tap.says) parts.push(`${tap.about || "says"} ${plain(tap.says)}`);
      lines.push(parts.join(" | "));
    }
    const standing = new Set(now.standing.map((tap) => tap.id));
    const without = taps.filter((t) => !standing.has(t.id)).map((t) => number.get(t.id));
    if (without.length) lines.push(`taken back | ${without.join(", ")}`);
    return [...lines, `end | ${taps.length}`, ""].join("\n");
  }

  function show() {
    const now = fold();
    showFish(now);
    showNets(now);
    showTackle(now);
    find("undo").disabled = !taps.some((t) => t.did !== "back" && !now.back.has(t.id));
    find("record").value = recordText(now);
    for (const field of document.querySelectorAll("[data-day]")) {
      const said = now.standing.filter((t) => t.did === "day" && t.about === field.dataset.day).at(-1);
      if (said && document.activeElement !== field) field.value = said.says;
    }
    tick(now);
    document.documentElement.style.setProperty("--thumb", `${find("thumb").offsetHeight + 12}px`);
  }

  const ago = (now, did) => {
    const last = now.standing.filter((t) => t.did === did).at(-1);
    return last ? (Date.now() - new Date(last.at.replace(" ", "T"))) / 1000 : null;
  };
  const span = (s) => {
    const whole = Math.max(0, Math.round(s));
    const hours = Math.floor(whole / 3600);
    return (hours ? `${hours} h ${two(Math.floor(whole / 60) % 60)} min` : `${Math.floor(whole / 60)}:${two(whole % 60)} min`);
  };

  function tick(now) {
    const [begins, ends, at] = [on(facts.begins), on(facts.ends), Date.now()];
    const here = new Date();
    find("clock").textContent = `By this phone it is ${clock(here).slice(0, 5)}` +
      (stamp(here).slice(0, 10) === facts.on ? "." : ` on ${stamp(here).slice(0, 10)}; the match is on ${facts.on}.`) +
      " Each tap is kept with its time.";
    find("left").textContent =
      at < begins ? `Starts in ${span((begins - at) / 1000)}`
        : at < ends ? `${span((ends - at) / 1000)} left` : "All out: the match is over";
    const cast = ago(now, "cast"), fed = ago(now, "feed");
    const rig = facts.rigs.find((one) => one.code === now.rig);
    const rows = [];
    if (cast !== null && rig && rig.method !== "feeder") {
      const by = rig.settled_by_s;
      row(rows, "Float", by === null ? `out for ${span(cast)}; no time was computed for ${rig.code}`
        : cast < by ? `settled in ${Math.ceil(by - cast)} s` : `settled by now (${by} s): else strike`);
    }
    const every = facts.rhythm.cast_every_min;
    if (cast !== null && rig && rig.method === "feeder")
      row(rows, "Feeder", !every || cast < 60 * every ? `in the water for ${span(cast)}${every ? `, in after ${every} min` : ""}`
        : `COME IN: ${span(cast)} in the water`);
    const feed = facts.rhythm.feed_every_min;
    if (feed) row(rows, "Feed", fed === null ? "not fed yet" : fed >= 60 * feed ? "FEED NOW" : `in ${span(60 * feed - fed)}`);
    fill("times", rows);
    const words = rows.map((one) => one.textContent); // name, what, name, what
    find("due").textContent = words.map((said, at) => (at % 2 ? `${said}.` : said)).join(" ");
    find("due").hidden = !rows.length || !find("next").hidden;
  }

  function wire() {
    find("fish").addEventListener("click", () => aFish());
    find("again").addEventListener("click", () => aFish(true));
    find("undo").addEventListener("click", takeBack);
    find("cast").addEventListener("click", () => keep({ did: "cast" }, "cast"));
    find("feed").addEventListener("click", () => keep({ did: "feed" }, "fed"));
    find("own-weight-keep").addEventListener("click", () => {
      if (weighs(find("own-weight").value)) find("own-weight").value = "";
    });
    for (const did of ["change", "note"])
      find(`${did}-keep`).addEventListener("click", () => {
        const says = plain(find(did).value);
        if (says) keep({ did, says, ...(did === "change" ? { rig: fold().rig } : {}) }, `${did}: ${says}`);
        find(did).value = "";
      });
    for (const about of ["depth", "shot"])
      find(`${about}-now-keep`).addEventListener("click", () => {
        const says = plain(find(`${about}-now`).value);
        if (says) keep({ did: "change", rig: fold().rig, about, says }, `${about} ${says}`);
        find(`${about}-now`).value = "";
      });
    for (const tried of document.querySelectorAll("[data-try]"))
      tried.addEventListener("click", () => keep({ did: "change", says: plain(tried.dataset.try), rig: fold().rig }, `change: ${tried.dataset.try}`));
    for (const field of document.querySelectorAll("[data-day]"))
      field.addEventListener("change", () => {
        const says = plain(field.value);
        if (says) keep({ did: "day", about: field.dataset.day, says }, `${field.dataset.day} ${says}`);
      });
    find("copy").addEventListener("click", async () => {
      await seeAgain();
      find("record").select();
      const copied = navigator.clipboard
        ? await navigator.clipboard.writeText(find("record").value).then(() => true, () => false)
        : document.execCommand("copy");
      say(copied ? "✓ Copied: paste it into a message to yourself." : "Marked: hold it and choose Copy.");
    });
    find("save").addEventListener("click", async () => {
      await seeAgain();
      const link = document.createElement("a");
      link.href = URL.createObjectURL(new Blob([find("record").value], { type: "text/plain" }));
      link.download = `${facts.match}-record.txt`;
      link.click();
    });
    window.addEventListener("focus", seeAgain);
    document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && seeAgain());
  }

  async function begin() {
    try {
      store = await openStore();
      taps = await readTaps();
    } catch (error) {
      find("dead").textContent = "This phone keeps nothing for this page: taps would be gone. " +
        "The printed card is the record; what there is to read stands below.";
      return;
    }
    find("dead").hidden = true;
    for (const live of document.querySelectorAll("[data-live]")) live.hidden = false;
    wire();
    show();
    say(taps.length ? `${taps.length} taps are kept from before.` : "Nothing tapped yet.");
    setInterval(() => tick(fold()), 1000);
  }
  begin();
})();
